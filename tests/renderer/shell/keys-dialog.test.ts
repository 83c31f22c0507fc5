import '../jsdom-parts.ts';
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
import { aboutCellar, uuid } from '../fake-cellar.ts';
import type { BatchId } from '#core/ledger/ids.ts';

const answers = vi.hoisted(() => ({ settle: vi.fn() }));
vi.mock('#renderer/backend/call.ts', () => ({ client: { houseRules: { settle: answers.settle } } }));

let stop: () => void;
beforeEach(() => {
  vi.clearAllMocks();
  answers.settle.mockImplementation((rules: unknown) => Promise.resolve(rules));
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
    ).toEqual(['Shelves', 'Cellar Book', 'Cultures', 'Bench', 'Label Desk', 'Strongbox']);
    expect(screen.getByRole('link', { current: 'page' }).textContent).toContain('Cellar Book');
    await fireEvent.click(screen.getByRole('link', { name: /Cultures/u }));
    expect(nav.current.place).toBe('cultures');
    await fireEvent.click(screen.getByRole('button', { name: /House Rules/u }));
    expect(onrules).toHaveBeenCalledOnce();
    expect(screen.getByText(/^Saved /u)).toBeTruthy();
  });
});
