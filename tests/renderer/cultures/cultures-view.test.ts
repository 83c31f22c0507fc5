import '../jsdom-parts.ts';
import { LostHostError } from '#renderer/backend/backend.ts';
import { acts } from '#renderer/acts/acts-state.svelte.ts';
import { cellar } from '#renderer/cellar/cellar-state.svelte.ts';
import { faults } from '#renderer/cellar/faults.svelte.ts';
import CulturesView from '#renderer/cultures/CulturesView.svelte';
import { nav } from '#renderer/navigation/navigation.svelte.ts';
import { keys } from '#renderer/shell/keys.svelte.ts';
import { toolRow } from '#renderer/shell/tool-row.svelte.ts';
import { fireEvent, render, screen, waitFor } from '@testing-library/svelte';
import { beforeEach, describe, expect, it, vi } from 'vitest';
import { aboutCellar, cultureLines, cultureRow, entryOf, NOW_MS, uuid } from '../fake-cellar.ts';
import type { CultureId } from '#core/ledger/ids.ts';

const answers = vi.hoisted(() => ({ list: vi.fn(), lines: vi.fn(), batches: vi.fn(), entries: vi.fn() }));
vi.mock('#renderer/backend/call.ts', () => ({
  client: {
    cultures: { list: answers.list, lines: answers.lines },
    book: { batches: answers.batches },
    ledger: { entries: answers.entries },
  },
}));

const CULTURE = uuid(5) as CultureId;
const shown = (): Promise<HTMLElement> => screen.findByRole('heading', { name: 'Old Bess', level: 2 });

beforeEach(() => {
  vi.clearAllMocks();
  vi.spyOn(console, 'warn').mockImplementation(() => undefined);
  faults.clear();
  acts.close();
  cellar.take(aboutCellar());
  nav.current = { place: 'cultures' };
  answers.list.mockResolvedValue([cultureRow()]);
  answers.lines.mockResolvedValue(cultureLines());
  answers.batches.mockResolvedValue({ rows: [], total: 7 });
  answers.entries.mockResolvedValue({
    entries: [entryOf({ kind: 'feedCulture', cultureId: CULTURE, text: '200 ml cider' })],
    more: true,
  });
});

describe('the cultures', () => {
  it('say what belongs here while there are none, with the one act that puts it there', async () => {
    answers.list.mockResolvedValue([]);
    render(CulturesView);
    await screen.findByText('No mothers, yeasts or starters. Add one, even if it came from a shop.');
    await fireEvent.click(screen.getByRole('button', { name: 'Add a culture' }));
    expect(acts.request).toEqual({ kind: 'addCulture' });
  });

  it('list each one and show the lines of the first', async () => {
    render(CulturesView);
    await shown();
    const card = screen.getByRole('link', { current: true });
    expect(card.textContent).toContain('kept in A1');
    expect(card.textContent).toContain('1 pull');
    expect(screen.getByRole('link', { name: 'First mother' })).toBeTruthy();
    expect(screen.getByRole('link', { name: 'Young Bess' })).toBeTruthy();
    expect(screen.getByText('Old Bess fed: 200 ml cider.', { selector: '.says' })).toBeTruthy();
    expect(screen.getByRole('rowheader', { name: '3rd' })).toBeTruthy();
  });

  it('lead to the leaf of a pull, its vessel, and all that descended from it', async () => {
    render(CulturesView);
    await shown();
    await fireEvent.click(screen.getByRole('link', { name: 'Apple vinegar 3' }));
    expect(nav.current).toEqual({ place: 'leaf', batchId: uuid(13) });
    await fireEvent.click(screen.getByRole('link', { name: 'Vessel 3' }));
    expect(nav.current).toEqual({ place: 'shelves', vesselId: uuid(3) });
    nav.current = { place: 'cultures' };
    await fireEvent.click(screen.getByRole('link', { name: 'All descended from Old Bess (7)' }));
    expect(nav.current).toEqual({ place: 'book', cultureId: CULTURE });
  });

  it.each([
    [/Seed a batch/u, { kind: 'seed', cultureId: CULTURE }],
    [/Feed/u, { kind: 'feedCulture', cultureId: CULTURE }],
    [/Divide/u, { kind: 'addCulture', parentCultureId: CULTURE }],
    [/Edit/u, { kind: 'editCulture', cultureId: CULTURE }],
    [/Note/u, { kind: 'note', about: { kind: 'culture', cultureId: CULTURE } }],
  ])('offer the act %s by button', async (name, request) => {
    render(CulturesView);
    await shown();
    await fireEvent.click(screen.getByRole('button', { name }));
    expect(acts.request).toEqual(request);
  });

  it.each([
    ['A', { kind: 'addCulture' }],
    ['S', { kind: 'seed', cultureId: CULTURE }],
    ['F', { kind: 'feedCulture', cultureId: CULTURE }],
    ['D', { kind: 'addCulture', parentCultureId: CULTURE }],
    ['E', { kind: 'editCulture', cultureId: CULTURE }],
    ['N', { kind: 'note', about: { kind: 'culture', cultureId: CULTURE } }],
  ])('offer the same by the key %s', async (key, request) => {
    render(CulturesView);
    await shown();
    keys.heed(new KeyboardEvent('keydown', { key: key.toLowerCase() }));
    expect(acts.request).toEqual(request);
  });

  it('show on the shelf where it is kept', async () => {
    render(CulturesView);
    await shown();
    await fireEvent.click(screen.getByRole('button', { name: /Show on shelf/u }));
    expect(nav.current).toEqual({ place: 'shelves', vesselId: uuid(2) });
  });

  it('read earlier days on demand', async () => {
    render(CulturesView);
    await shown();
    answers.entries.mockResolvedValue({
      entries: [
        entryOf(
          { kind: 'feedCulture', cultureId: CULTURE, text: '' },
          { entryId: uuid(61) as never, struck: true },
        ),
      ],
      more: false,
    });
    await fireEvent.click(screen.getByRole('button', { name: 'Earlier days' }));
    await waitFor(() => expect(document.querySelector('s')?.textContent).toBe('Old Bess fed.'));
    expect(screen.queryByRole('button', { name: 'Earlier days' })).toBeNull();
  });

  it('read again after something was written', async () => {
    render(CulturesView);
    await shown();
    answers.list.mockResolvedValue([cultureRow({ name: 'Renamed' })]);
    cellar.revision += 1;
    await waitFor(() => expect(screen.getByRole('link', { current: true }).textContent).toContain('Renamed'));
  });

  it('say that something is wrong when no answer comes', async () => {
    answers.list.mockRejectedValue(new LostHostError('gone'));
    render(CulturesView);
    await waitFor(() => expect(faults.current).not.toBeNull());
  });

  it('show what is due with its reason', async () => {
    const due = {
      act: 'feed',
      earliestMs: NOW_MS,
      idealMs: NOW_MS,
      latestMs: NOW_MS,
      why: 'practice',
    } as const;
    answers.list.mockResolvedValue([cultureRow({ due })]);
    answers.lines.mockResolvedValue(cultureLines({ culture: cultureRow({ due }) }));
    render(CulturesView);
    await shown();
    expect(screen.getByText('Today: feed it.')).toBeTruthy();
  });

  it('put their tools into the tool row and take them away again', async () => {
    const { unmount } = render(CulturesView);
    await shown();
    expect(toolRow.tools).not.toBeNull();
    unmount();
    expect(toolRow.tools).toBeNull();
  });
});
