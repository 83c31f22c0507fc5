import { fireEvent, render, screen, within } from '@testing-library/svelte';
import { afterEach, describe, expect, test, vi } from 'vitest';
import type { BottleLot } from '#core/contract/book.ts';
import { HOUSE_RULES_AT_FIRST } from '#core/contract/house-rules.ts';
import type { EntryRow } from '#core/contract/ledger.ts';
import { Act } from '#core/ledger/act.ts';
import { BatchId, EntryId } from '#core/ledger/ids.ts';
import { acts } from '#renderer/acts/acts-state.svelte.ts';
import { idOf } from './sample-readings.ts';

vi.mock('#renderer/backend/call.ts', () => ({ client: {}, backend: {} }));
const { default: LotsCard } = await import('#renderer/cellar-book/LotsCard.svelte');
const { lotStory } = await import('#renderer/cellar-book/lot-story.ts');

const rules = HOUSE_RULES_AT_FIRST;
const batchId = BatchId.parse(idOf(9));
const AT = Date.UTC(2026, 10, 12, 9);
const lot = (n: number, over: Partial<BottleLot> = {}): BottleLot => ({
  ...{
    entryId: EntryId.parse(idOf(n)),
    bottles: 24,
    left: 24,
    bottleUl: 750_000,
    atMs: AT,
    keptApartFor: '',
  },
  ...over,
});
const line = (n: number, act: object, over: Partial<EntryRow> = {}): EntryRow => ({
  ...{ entryId: EntryId.parse(idOf(n)), sequence: n, struck: false, restated: null, reversed: null },
  ...{ names: {}, typed: {}, postings: [], happenedAtMs: AT + n * 3_600_000, writtenAtMs: AT },
  act: Act.parse(act),
  ...over,
});
const taken = (how: string, bottles: number, holder = '') => ({
  ...{ kind: 'takeBottles', lotId: idOf(1), bottles, how, holder, note: '' },
});
const textOf = (element: Element): string =>
  element.textContent.replaceAll('\u00A0', ' ').replace(/\s+/gu, ' ').trim();

afterEach(() => {
  acts.close();
});

describe('what became of bottles', () => {
  test('is told oldest first, by what a line now says, without those struck', () => {
    const back = { kind: 'returnBottles', lotId: idOf(1), bottles: 3, toVesselId: idOf(5) };
    const restated = {
      act: Act.parse(taken('broken', 2)),
      happenedAtMs: AT,
      names: {},
      correctedAtMs: AT,
      reason: '',
    };
    const told = lotStory(
      [
        line(40, { ...back, lossUl: 0, toStage: null, note: 'cloudy' }),
        line(30, taken('given', 6, 'the neighbour')),
        line(20, taken('opened', 1), { struck: true }),
        line(10, taken('opened', 1), { restated }),
        line(5, { ...taken('opened', 1), lotId: idOf(2) }),
      ],
      EntryId.parse(idOf(1)),
    );
    expect(told.map(({ says }) => says.replace(/, \S+ \S+(?= \(|$)/u, ''))).toEqual([
      ...['2 broken', '6 given to the neighbour', '3 emptied back (cloudy)'],
    ]);
  });
});

describe('the card of bottles', () => {
  test('says how many are left of each filling, and opens each act for the right one', async () => {
    const lots = [lot(1, { left: 12 }), lot(2, { left: 0, bottles: 1, atMs: AT + 86_400_000 })];
    const { container } = render(LotsCard, {
      batchId,
      lots,
      entries: [line(30, taken('opened', 12))],
      rules,
    });
    expect(textOf(container)).toContain('12 left of 25');
    expect(textOf(container)).toContain('12 left of 24 bottles of 750 ml');
    expect(textOf(container)).toContain('none left of 1 bottle of 750 ml');
    expect(textOf(container)).toMatch(/12 opened, /u);
    const group = within(screen.getByRole('group', { name: 'Bottles of 2026-11-12' }));
    for (const [name, how] of [
      ['Open…', 'opened'],
      ['Give…', 'given'],
      ['Broken…', 'broken'],
      ['Empty back…', 'returned'],
    ] as const) {
      await fireEvent.click(group.getByRole('button', { name }));
      expect(acts.request).toEqual({ kind: 'bottles', batchId, lotId: idOf(1), how });
    }
    expect(screen.getAllByRole('group')).toHaveLength(1);
  });

  test('is not there without bottles', () => {
    render(LotsCard, { batchId, lots: [], entries: [], rules });
    expect(screen.queryByRole('heading')).toBeNull();
  });
});
