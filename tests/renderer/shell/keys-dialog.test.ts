import '../jsdom-parts.ts';
import { menuRequests } from '#core/contract/menu-request.ts';
import { backupStanding } from '#renderer/cellar/backup-standing.svelte.ts';
import { cellar } from '#renderer/cellar/cellar-state.svelte.ts';
import { houseRules } from '#renderer/house-rules/house-rules-state.svelte.ts';
import { acts } from '#renderer/acts/acts-state.svelte.ts';
import { nav } from '#renderer/navigation/navigation.svelte.ts';
import AlreadySavedDialog from '#renderer/shell/AlreadySavedDialog.svelte';
import { everywhereKeys } from '#renderer/shell/everywhere-keys.ts';
import KeysDialog from '#renderer/shell/KeysDialog.svelte';
import { keys } from '#renderer/shell/keys.svelte.ts';
import Rail from '#renderer/shell/Rail.svelte';
import { shell } from '#renderer/shell/shell-state.svelte.ts';
import { fireEvent, render, screen, waitFor } from '@testing-library/svelte';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { aboutCellar, NOW_MS, uuid } from '../fake-cellar.ts';
import type { BatchId } from '#core/ledger/ids.ts';

const answers = vi.hoisted(() => ({ settle: vi.fn(), standing: vi.fn() }));
vi.mock('#renderer/backend/call.ts', () => ({
  client: { houseRules: { settle: answers.settle }, strongbox: { standing: answers.standing } },
}));

const HOUR_MS = 3_600_000;
let stop: () => void;
beforeEach(() => {
  vi.clearAllMocks();
  answers.settle.mockImplementation((rules: unknown) => Promise.resolve(rules));
  answers.standing.mockResolvedValue(null);
  cellar.take(aboutCellar());
  acts.close();
  houseRules.open = false;
  shell.keysOpen = false;
  shell.alreadySavedOpen = false;
  stop = keys.register(everywhereKeys());
});
afterEach(() => {
  stop();
});

const press = (key: string, more: KeyboardEventInit = {}): void => {
  keys.heed(new KeyboardEvent('keydown', { key, ...more, cancelable: true }));
};

describe('the keys that act everywhere', () => {
  it('go to the places', () => {
    press('2', { ctrlKey: true });
    expect(nav.current).toEqual({ place: 'book' });
    press('3', { ctrlKey: true });
    expect(nav.current).toEqual({ place: 'cultures' });
    press('1', { ctrlKey: true });
    expect(nav.current).toEqual({ place: 'shelves' });
  });

  it('open a new batch and a new vessel', () => {
    press('n', { ctrlKey: true });
    expect(acts.request).toEqual({ kind: 'startBatch' });
    press('N', { ctrlKey: true, shiftKey: true });
    expect(acts.request).toEqual({ kind: 'addVessel' });
  });

  it('open House Rules, at its copy or its path when that is asked', () => {
    press(',', { ctrlKey: true });
    expect(houseRules.open).toBe(true);
    expect(houseRules.wantedField).toBeNull();
    press('S', { ctrlKey: true, shiftKey: true });
    expect(houseRules.wantedField).toBe('save-copy-file');
    press('o', { ctrlKey: true });
    expect(houseRules.wantedField).toBe('open-cellar-file');
  });

  it('ask the Strongbox for a backup, or to restore one', () => {
    press('B', { ctrlKey: true, shiftKey: true });
    expect(nav.current).toEqual({ place: 'strongbox' });
    expect(backupStanding.asked).toBe('backUp');
    nav.go({ place: 'shelves' });
    press('O', { ctrlKey: true, shiftKey: true });
    expect(nav.current).toEqual({ place: 'strongbox' });
    expect(backupStanding.asked).toBe('restore');
    backupStanding.asked = null;
  });

  it('do what the desktop’s menu asks as well', () => {
    for (const { request } of menuRequests) shell.heedMenu(request);
    expect(backupStanding.asked).toBe('restore');
    expect(houseRules.open).toBe(true);
    backupStanding.asked = null;
  });

  it('answer Ctrl+S that everything is saved, and offer a copy', async () => {
    render(AlreadySavedDialog);
    press('s', { ctrlKey: true });
    await fireEvent.click(await screen.findByRole('button', { name: 'Save a copy…' }));
    expect(shell.alreadySavedOpen).toBe(false);
    expect(houseRules.wantedField).toBe('save-copy-file');
  });

  it('switch pantry mode', async () => {
    press('P', { ctrlKey: true, shiftKey: true });
    await waitFor(() => expect(cellar.rules.pantry).toBe(true));
  });

  it('list themselves, the place first', async () => {
    const away = keys.register({
      where: 'On the shelves',
      acts: [{ keys: 'R', says: 'Record a reading', run: vi.fn() }],
    });
    render(KeysDialog);
    press('?');
    const headings = await screen.findAllByRole('heading', { level: 3 });
    expect(headings.map(({ textContent }) => textContent)).toEqual(['On the shelves', 'Everywhere']);
    expect(screen.getByText('Record a reading')).toBeTruthy();
    away();
  });
});

describe('the rail', () => {
  it('has the places that exist, House Rules, and when it was saved', async () => {
    const onrules = vi.fn();
    nav.current = { place: 'leaf', batchId: uuid(13) as BatchId };
    render(Rail, { onrules });
    expect(
      screen.getAllByRole('link').map(({ textContent }) => textContent.replace(/\d/u, '').trim()),
    ).toEqual([
      ...['Shelves', 'Cellar Book', 'Cultures', 'Bench', 'Calendar', 'Label Desk', 'Strongbox'],
      expect.stringMatching(/^Saved /u),
    ]);
    expect(screen.getByRole('link', { current: 'page' }).textContent).toContain('Cellar Book');
    await fireEvent.click(screen.getByRole('link', { name: /Cultures/u }));
    expect(nav.current.place).toBe('cultures');
    await fireEvent.click(screen.getByRole('button', { name: /House Rules/u }));
    expect(onrules).toHaveBeenCalledOnce();
    expect(screen.getByText(/^Saved /u)).toBeTruthy();
  });

  it('tells how old the backup is, goes on telling, and turns to a caution after seven days', async () => {
    vi.useFakeTimers({ now: NOW_MS });
    const known = {
      lastAtMs: NOW_MS - 2 * HOUR_MS,
      begunAtMs: 0,
      failed: false,
      missing: ['/media/k/STICK'],
      unsound: false,
    };
    answers.standing.mockResolvedValue(known);
    cellar.take(aboutCellar());
    render(Rail, { onrules: vi.fn() });
    await vi.advanceTimersByTimeAsync(1000);
    const foot = screen.getByRole('link', { name: /^Saved .+ · backup 2 h ago/u });
    expect(foot.textContent).toContain('STICK not plugged in');
    expect(foot.className).not.toContain('caution');
    vi.setSystemTime(NOW_MS + HOUR_MS);
    await vi.advanceTimersByTimeAsync(30_000);
    expect(foot.textContent).toContain('backup 3 h ago');
    vi.setSystemTime(NOW_MS + 7 * 24 * HOUR_MS);
    await vi.advanceTimersByTimeAsync(30_000);
    expect(foot.textContent).toContain('seven days without a proven backup');
    expect(foot.className).toContain('caution');
    await fireEvent.click(foot);
    expect(nav.current.place).toBe('strongbox');
    vi.useRealTimers();
  });
});
