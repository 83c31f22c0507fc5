import '../jsdom-parts.ts';
import { ORPCError } from '@orpc/client';
import { cellar } from '#renderer/cellar/cellar-state.svelte.ts';
import { faults } from '#renderer/cellar/faults.svelte.ts';
import { acts } from '#renderer/acts/acts-state.svelte.ts';
import { find } from '#renderer/find/find-state.svelte.ts';
import { nav } from '#renderer/navigation/navigation.svelte.ts';
import FindOrChalk from '#renderer/find/FindOrChalk.svelte';
import { LostHostError } from '#renderer/backend/backend.ts';
import { fireEvent, render, screen, waitFor } from '@testing-library/svelte';
import { beforeEach, describe, expect, it, vi } from 'vitest';
import { aboutCellar, entryOf, NOTHING_FOUND, posted, shelfRow, uuid } from '../fake-cellar.ts';
import type { Act } from '#core/ledger/act.ts';

const answers = vi.hoisted(() => ({
  ...{ vesselAt: vi.fn(), everywhere: vi.fn(), label: vi.fn(), post: vi.fn() },
}));
vi.mock('#renderer/backend/call.ts', () => ({
  client: {
    find: { vesselAt: answers.vesselAt, everywhere: answers.everywhere, label: answers.label },
    ledger: { post: answers.post },
  },
}));

const field = (): HTMLInputElement => screen.getByRole('combobox', { name: 'Find, or chalk a reading' });
const line = (): string => document.getElementById('find-line')?.textContent ?? '';

async function type(text: string): Promise<void> {
  await fireEvent.focus(field());
  await fireEvent.input(field(), { target: { value: text } });
}

async function press(key: string): Promise<void> {
  await fireEvent.keyDown(field(), { key });
}

beforeEach(() => {
  vi.clearAllMocks();
  find.clear();
  faults.clear();
  acts.close();
  location.hash = '';
  cellar.take(aboutCellar());
  answers.vesselAt.mockResolvedValue(null);
  answers.everywhere.mockResolvedValue(NOTHING_FOUND);
  answers.label.mockResolvedValue(null);
  render(FindOrChalk);
});

describe('finding', () => {
  it('says what Enter will do before it is pressed, and does it', async () => {
    answers.everywhere.mockResolvedValue({ ...NOTHING_FOUND, vessels: [shelfRow()] });
    await type('king');
    await waitFor(() => expect(line()).toBe('Enter shows Kingston cider on the shelf.'));
    expect(field().getAttribute('aria-expanded')).toBe('true');
    const option = screen.getByRole('option', { selected: true });
    expect(field().getAttribute('aria-activedescendant')).toBe(option.id);
    await press('Enter');
    expect(nav.current).toEqual({ place: 'shelves', vesselId: uuid(1) });
    expect(field().value).toBe('');
  });

  it('groups what it found and walks through it with the arrows, round at the ends', async () => {
    answers.everywhere.mockResolvedValue({
      ...NOTHING_FOUND,
      vessels: [shelfRow()],
      cultures: [{ cultureId: uuid(5), name: 'Old Bess', sort: 'mother' }],
    });
    await type('e');
    await waitFor(() => expect(screen.getAllByRole('option')).toHaveLength(2));
    expect(screen.getByRole('group', { name: 'Cultures' })).toBeTruthy();
    await press('ArrowDown');
    expect(line()).toBe('Enter shows Old Bess among the cultures.');
    await press('ArrowDown');
    expect(line()).toContain('Kingston cider');
    await press('ArrowUp');
    await press('Enter');
    expect(nav.current).toEqual({ place: 'cultures', cultureId: uuid(5) });
  });

  it('shows the days on which the words stand, with the batch, and opens its leaf', async () => {
    answers.everywhere.mockResolvedValue({
      ...NOTHING_FOUND,
      days: [
        {
          ...{ entryId: uuid(8), sequence: 3, happenedAtMs: Date.UTC(2026, 10, 2, 12), vesselId: uuid(1) },
          ...{ text: 'Smells of cloves', marks: [[10, 16]], culture: null },
          batch: { batchId: uuid(9), code: 'DW-26-001', name: 'Damson wine' },
        },
      ],
    });
    await type('cloves');
    const option = await screen.findByRole('option');
    expect(option.querySelector('mark')?.textContent).toBe('cloves');
    expect(option.textContent).toContain('2026-11-02 · Damson wine');
    await waitFor(() => expect(line()).toBe('Enter opens the leaf of Damson wine.'));
    await press('Enter');
    expect(nav.current).toEqual({ place: 'leaf', batchId: uuid(9) });
  });

  it('offers to start a batch of a name that is not there', async () => {
    await type('Quince 2026');
    await waitFor(() => expect(line()).toContain('Nothing called “Quince 2026”.'));
    await press('Enter');
    expect(acts.request).toBeNull();
    await press('ArrowDown');
    expect(line()).toContain('Enter starts a batch called “Quince 2026”.');
    await press('Enter');
    expect(acts.request).toEqual({ kind: 'startBatch', name: 'Quince 2026' });
  });

  it('asks only once for a burst of typing', async () => {
    for (const text of ['d', 'da', 'dam', 'dams']) await type(text);
    await waitFor(() => expect(line()).toContain('Nothing called “dams”'));
    expect(answers.everywhere).toHaveBeenCalledOnce();
  });

  it('shuts, then clears, then leaves with Esc', async () => {
    await type('zzz');
    await waitFor(() => expect(screen.getAllByRole('option')).toHaveLength(2));
    await press('Escape');
    expect(field().getAttribute('aria-expanded')).toBe('false');
    expect(field().value).toBe('zzz');
    await press('Escape');
    expect(field().value).toBe('');
  });

  it('keeps the line when no answer comes, and asks again on a retry', async () => {
    vi.spyOn(console, 'warn').mockImplementation(() => undefined);
    answers.everywhere.mockRejectedValueOnce(new LostHostError('gone'));
    await type('damson');
    await waitFor(() => expect(line()).toContain('does not answer'));
    expect(field().value).toBe('damson');
    expect(faults.current).not.toBeNull();
    cellar.revision += 1;
    await waitFor(() => expect(line()).toContain('Nothing called “damson”'));
  });
});

describe('a scanned label', () => {
  it('opens its leaf even when Enter comes before the answer', async () => {
    const batch = {
      batchId: uuid(13),
      code: 'AV-26-003',
      name: 'Apple vinegar 3',
      ferment: 'fruitVinegar',
      spots: [],
    };
    answers.label.mockResolvedValue({ kind: 'batch', batch });
    await type('UC:av-26-003');
    await press('Enter');
    await waitFor(() => expect(nav.current).toEqual({ place: 'leaf', batchId: uuid(13) }));
  });

  it('shows the vessel of a label on the shelf', async () => {
    answers.label.mockResolvedValue({ kind: 'vessel', row: shelfRow() });
    await type('uc:V-1');
    await waitFor(() => expect(line()).toBe('Enter shows Kingston cider (B1) on the shelf.'));
    expect(answers.label).toHaveBeenLastCalledWith({ id: 'V-1' });
    await press('Enter');
    await waitFor(() => expect(nav.current).toEqual({ place: 'shelves', vesselId: uuid(1) }));
  });

  it('says when nothing has the label', async () => {
    await type('UC:XX-1');
    await waitFor(() => expect(line()).toBe('Nothing in this cellar has the label XX-1.'));
  });
});

describe('chalking a reading', () => {
  const written = (): { act: Act; typed: Record<string, string> } =>
    answers.post.mock.calls[0]?.[0] as { act: Act; typed: Record<string, string> };

  beforeEach(() => {
    answers.vesselAt.mockImplementation(({ code }: { code: string }) =>
      Promise.resolve(code === 'B1' ? shelfRow() : null),
    );
    answers.post.mockImplementation(({ act }: { act: Act }) => Promise.resolve(posted(entryOf(act))));
  });

  it('is said in full, then written on Enter with what was typed', async () => {
    await type('B1 1.010 19C');
    await waitFor(() =>
      expect(line()).toContain(
        'Enter writes a reading: gravity 1.010 at 19.0\u00A0°C (1.010 at 20.0\u00A0°C), on Kingston cider (B1), now.',
      ),
    );
    expect(answers.post).not.toHaveBeenCalled();
    await press('Enter');
    await waitFor(() => expect(field().value).toBe(''));
    expect(written().act).toMatchObject({
      kind: 'recordReading',
      vesselId: uuid(1),
      values: { gravitySg: 1.01 },
    });
    expect(written().typed).toEqual({ gravity: '1.010', temperature: '19C', line: 'B1 1.010 19C' });
    expect(cellar.lastPosted?.entry.act.kind).toBe('recordReading');
  });

  it('writes nothing for an unlikely value until a choice is made', async () => {
    await type('B1 1.48');
    await waitFor(() => expect(line()).toContain('Did you mean 1.048?'));
    await press('Enter');
    expect(answers.post).not.toHaveBeenCalled();
    await press('ArrowDown');
    await press('Enter');
    await waitFor(() => expect(line()).toContain('Enter writes a reading: gravity 1.048'));
    expect(answers.post).not.toHaveBeenCalled();
  });

  it('keeps the unlikely value when that is chosen', async () => {
    await type('B1 1.48');
    await waitFor(() => expect(screen.getAllByRole('option').length).toBeGreaterThan(1));
    await press('ArrowUp');
    expect(line()).toContain('Enter takes 1.48 as it stands.');
    await press('Enter');
    await waitFor(() => expect(line()).toContain('Enter writes a reading: gravity 1.480'));
    await press('Enter');
    await waitFor(() => expect(answers.post).toHaveBeenCalledOnce());
  });

  it('asks which acid on a vessel that does not tell', async () => {
    await type('B1 6 g/L');
    await waitFor(() => expect(line()).toContain('counts as some acid'));
    await press('ArrowDown');
    await press('Enter');
    await waitFor(() => expect(line()).toContain('as malic'));
  });

  it('writes nothing on an empty vessel', async () => {
    answers.vesselAt.mockResolvedValue(
      shelfRow({ stage: 'empty', batchId: null, batchName: null, volumeUl: 0 }),
    );
    await type('B1 1.010');
    await waitFor(() => expect(line()).toContain('is empty'));
    await press('Enter');
    expect(answers.post).not.toHaveBeenCalled();
  });

  it('shows the gravity at 20 °C beside the one that was read warm', async () => {
    await type('B1 1.010 32C');
    await waitFor(() => expect(line()).toMatch(/gravity 1\.010 at 32\.0.°C \(1\.013 at 20\.0.°C\)/u));
  });

  it('asks about a level of nothing', async () => {
    await type('B1 0 L');
    await waitFor(() => expect(line()).toContain('A level is more than nothing.'));
    await press('Enter');
    expect(answers.post).not.toHaveBeenCalled();
  });

  it('searches when no vessel stands there, and says so', async () => {
    await type('Z9 1.010');
    await waitFor(() => expect(line()).toContain('No vessel stands at Z9. Nothing called “Z9 1.010”.'));
  });

  it('keeps the line when the book refuses, and says why', async () => {
    const refusal = { type: 'VesselRetired', field: 'vesselId', vesselNumber: 1 };
    answers.post.mockRejectedValue(new ORPCError('REFUSED', { defined: true, status: 422, data: refusal }));
    await type('B1 1.010');
    await waitFor(() => expect(line()).toContain('Enter writes'));
    await press('Enter');
    await waitFor(() => expect(line()).toContain('Vessel 1 is retired.'));
    expect(field().value).toBe('B1 1.010');
  });

  it('sends the same request again after no answer came', async () => {
    vi.spyOn(console, 'warn').mockImplementation(() => undefined);
    answers.post.mockRejectedValueOnce(new LostHostError('gone'));
    await type('B1 1.010');
    await waitFor(() => expect(line()).toContain('Enter writes'));
    await press('Enter');
    await waitFor(() => expect(line()).toContain('does not answer'));
    await press('Enter');
    await waitFor(() => expect(field().value).toBe(''));
    const [first, second] = answers.post.mock.calls as [{ requestId: string }][];
    expect(second?.[0].requestId).toBe(first?.[0].requestId);
  });
});

describe('the vessel of a chalked line', () => {
  it('is asked for as it was typed', async () => {
    await type('7 pH 3.4');
    await waitFor(() => expect(answers.vesselAt).toHaveBeenCalledWith({ code: '#7' }));
  });
});
