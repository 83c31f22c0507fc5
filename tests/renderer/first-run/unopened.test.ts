import '../jsdom-parts.ts';
import { ORPCError } from '@orpc/client';
import { cleanup, fireEvent, render, screen, waitFor } from '@testing-library/svelte';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { ListedBackup } from '#core/contract/strongbox.ts';
import { cellar } from '#renderer/cellar/cellar-state.svelte.ts';
import { putRight } from '#renderer/first-run/put-right.svelte.ts';
import Unopened from '#renderer/first-run/Unopened.svelte';
import { sayUnopened } from '#renderer/words/unopened-words.ts';
import { aboutCellar, NOW_MS } from '../fake-cellar.ts';

const answers = vi.hoisted(() => ({ list: vi.fn(), putRight: vi.fn(), open: vi.fn(), undoState: vi.fn() }));

vi.mock('#renderer/backend/call.ts', () => ({
  client: {
    cellar: { open: answers.open },
    ledger: { undoState: answers.undoState },
    strongbox: { list: answers.list, putRight: answers.putRight },
  },
  backend: { onMenuRequest: () => () => undefined },
}));

const file = '/home/k/home.undercroft';
const damaged = { type: 'Damaged', file, detail: 'SQLITE_CORRUPT' } as const;
const listed: ListedBackup = {
  ...{ file: '/b/one.undercroft-backup', folder: '/b', bytes: 84_000, encrypted: false },
  self: { madeAtMs: NOW_MS - 7_200_000, reason: 'daily', cellarName: 'Home Farm cellar', entries: 11 },
  ...{ ofThisCellar: null, refusal: null },
};
const about = aboutCellar({ entryCount: 11 });
const self = { madeAtMs: NOW_MS - 7_200_000, counts: { entries: 11 } };

/** Work that tells one step, and then its end. */
const steps = (done: unknown) => {
  const told = [
    { done: false, value: { what: 'prove', done: 1, total: 2 } },
    { done: true, value: done },
  ];
  return Promise.resolve({ next: () => Promise.resolve(told.shift()) });
};

beforeEach(() => {
  vi.clearAllMocks();
  putRight.work.forget();
  putRight.backups = null;
  answers.list.mockResolvedValue([listed]);
  answers.undoState.mockResolvedValue({ undo: null, redo: null });
  cellar.take(aboutCellar({ begun: false, unopened: damaged }));
});
afterEach(cleanup);

describe('the page of a cellar that could not be opened', () => {
  it('says what is wrong, and puts a backup in its place', async () => {
    answers.putRight.mockReturnValue(
      steps({ about, aside: '/home/k/home.set-aside-2026-11-25.undercroft', backup: self, salvaged: null }),
    );
    render(Unopened, { refusal: damaged });
    expect(screen.getByText('The file is damaged.')).toBeTruthy();
    await fireEvent.click(
      await screen.findByRole('button', { name: 'Put one.undercroft-backup in its place' }),
    );
    expect(answers.putRight.mock.calls[0]?.[0]).toEqual({
      ...{ by: 'backup', file: listed.file, passphrase: null },
    });
    const heading = await screen.findByRole('heading', { name: 'Your cellar stands in its place again' });
    await waitFor(() => {
      expect(document.activeElement).toBe(heading);
    });
    expect(screen.getByText('/home/k/home.set-aside-2026-11-25.undercroft')).toBeTruthy();
    await fireEvent.click(screen.getByRole('button', { name: 'Go to the shelves' }));
    await waitFor(() => {
      expect(cellar.about).toMatchObject({ begun: true, unopened: null });
    });
  });

  it('saves what can be read when asked, and says what was refused', async () => {
    answers.putRight.mockRejectedValue(
      new ORPCError('BACKUP_REFUSED', { defined: true, status: 422, data: { type: 'DiskFull', file } }),
    );
    render(Unopened, { refusal: damaged });
    await fireEvent.click(screen.getByRole('button', { name: 'Save what can be read' }));
    expect(answers.putRight.mock.calls[0]?.[0]).toEqual({ by: 'salvage' });
    expect(await screen.findByText(/is full/u)).toBeTruthy();
  });

  it('asks where a backup lies before it looks for one', async () => {
    answers.list.mockResolvedValue([]);
    render(Unopened, { refusal: damaged });
    expect(await screen.findByText('No backup was found in the folders this program knows.')).toBeTruthy();
    await fireEvent.click(screen.getByRole('button', { name: 'Put that one in its place' }));
    expect(screen.getByText('Say where the backup lies.')).toBeTruthy();
    expect(answers.putRight).not.toHaveBeenCalled();
  });

  it('offers to open it again as it is', async () => {
    answers.open.mockResolvedValue(about);
    render(Unopened, { refusal: damaged });
    await fireEvent.click(screen.getByRole('button', { name: 'Try to open it again' }));
    expect(answers.open).toHaveBeenCalledWith({ file, begin: false });
  });

  it('does not offer to read lines out of a file of a newer version', () => {
    const newer = { type: 'NewerVersion', file, fileVersion: 9, programVersion: 8 } as const;
    render(Unopened, { refusal: newer });
    expect(screen.queryByRole('button', { name: 'Save what can be read' })).toBeNull();
    expect(sayUnopened(newer).why).toContain('open it with the newer program');
    expect(sayUnopened({ type: 'NotACellar', file }).canBeSaved).toBe(true);
    expect(sayUnopened({ ...damaged, detail: 'CHECK' }).what).toContain('check');
  });
});
