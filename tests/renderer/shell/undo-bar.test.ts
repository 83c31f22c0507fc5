import '../jsdom-parts.ts';
import { LostHostError } from '#renderer/backend/backend.ts';
import { cellar } from '#renderer/cellar/cellar-state.svelte.ts';
import { faults } from '#renderer/cellar/faults.svelte.ts';
import FaultBar from '#renderer/shell/FaultBar.svelte';
import UndoBar from '#renderer/shell/UndoBar.svelte';
import { fireEvent, render, screen, waitFor } from '@testing-library/svelte';
import { beforeEach, describe, expect, it, vi } from 'vitest';
import { aboutCellar, entryOf, posted, uuid } from '../fake-cellar.ts';
import type { CultureId } from '#core/ledger/ids.ts';

const answers = vi.hoisted(() => ({
  post: vi.fn(),
  undo: vi.fn(),
  redo: vi.fn(),
  about: vi.fn(),
  undoState: vi.fn(),
}));
vi.mock('#renderer/backend/call.ts', () => ({
  client: {
    cellar: { about: answers.about },
    ledger: { post: answers.post, undo: answers.undo, redo: answers.redo, undoState: answers.undoState },
  },
}));

const fed = entryOf({ kind: 'feedCulture', cultureId: uuid(5) as CultureId, text: '200 ml cider' });

beforeEach(async () => {
  vi.clearAllMocks();
  vi.spyOn(console, 'warn').mockImplementation(() => undefined);
  faults.clear();
  answers.about.mockResolvedValue(aboutCellar());
  answers.undoState.mockResolvedValue({ undo: null, redo: null });
  await cellar.takeFile(aboutCellar());
});

describe('the bar after an act', () => {
  it('says what happened, and undoes and redoes it', async () => {
    render(UndoBar);
    expect(screen.getByRole('status').textContent).toBe('');
    answers.post.mockResolvedValue(posted(fed));
    const before = cellar.revision;
    await cellar.post(fed.act as never);
    await waitFor(() => expect(screen.getByRole('status').textContent).toBe('Old Bess fed: 200 ml cider.'));
    expect(cellar.revision).toBe(before + 1);

    const undone = entryOf({ kind: 'reverse', entryId: fed.entryId, how: 'undo' }, { reversed: fed });
    answers.undo.mockResolvedValue({ ...posted(undone), undoState: { undo: null, redo: fed } });
    await fireEvent.click(screen.getByRole('button', { name: /Undo/u }));
    await waitFor(() => expect(screen.queryByRole('button', { name: /Undo/u })).toBeNull());
    expect(screen.getByRole('status').textContent).toBe('Taken back: feeding Old Bess.');

    answers.redo.mockResolvedValue(posted(fed));
    await fireEvent.click(screen.getByRole('button', { name: /Redo/u }));
    await waitFor(() => expect(screen.getByRole('button', { name: /Undo/u })).toBeTruthy());
  });

  it('leaves everything as it is when the undo does not arrive', async () => {
    render(UndoBar);
    render(FaultBar);
    answers.post.mockResolvedValue(posted(fed));
    await cellar.post(fed.act as never);
    answers.undo.mockRejectedValue(new LostHostError('gone'));
    await fireEvent.click(await screen.findByRole('button', { name: /Undo/u }));
    await waitFor(() => expect(screen.getByRole('alert').textContent).toContain('does not answer'));
    expect(cellar.lastPosted?.entry).toEqual(fed);
  });
});

describe('the fault', () => {
  it('goes once a retry succeeds', async () => {
    render(FaultBar);
    const stop = faults.onRetry(() => cellar.load());
    faults.report(new LostHostError('gone'));
    answers.about.mockRejectedValueOnce(new LostHostError('still gone'));
    await fireEvent.click(await screen.findByRole('button', { name: 'Retry' }));
    await waitFor(() => expect(screen.getByRole('button', { name: 'Retry' })).toBeTruthy());
    await fireEvent.click(screen.getByRole('button', { name: 'Retry' }));
    await waitFor(() => expect(screen.queryByRole('button', { name: 'Retry' })).toBeNull());
    stop();
  });
});
