import { describe, expect, it, vi } from 'vitest';
import type { Leaf } from '#core/contract/book.ts';
import { HOUSE_RULES_AT_FIRST } from '#core/contract/house-rules.ts';
import { compareCurves } from '#renderer/cellar-book/compare-curves.ts';
import { compareGroups, dayOf, untilMs } from '#renderer/cellar-book/compare-rows.ts';
import { destinationOf, hashOf } from '#renderer/navigation/destination.ts';
import { uuid } from '../fake-cellar.ts';
import { readingOn } from './sample-readings.ts';

vi.mock('#renderer/backend/call.ts', () => ({ client: {}, backend: {} }));

const DAY = 86_400_000;
/** Noon, as the sample readings are. */
const START = Date.UTC(2026, 8, 1, 12);
const read = (day: number, sg: number) => readingOn(day, { gravitySg: sg, gravityCorrectedSg: sg });
const NOW = START + 100 * DAY;
const cost = { lines: [], soFar: { parts: 0, priced: 0, of: 0 }, standing: null, lots: [], followed: true };
const leafOf = (n: number, more: object = {}): Leaf =>
  ({
    ...{ batchId: uuid(n), code: `DW-26-00${n}`, name: `Damson ${n}`, ferment: 'wine', note: '' },
    ...{ startedAtMs: START, startedUl: 5_000_000, ingredients: [], standing: [], spans: [], readings: [] },
    ...{ verdicts: [], due: [], foresight: null, origins: [], culture: null, keepsCultureId: null, kin: [] },
    ...{ lots: [], cost, repeats: null, repeatedBy: [] },
    ...more,
  }) as unknown as Leaf;
const plain = (lines: readonly string[] | undefined): string[] =>
  (lines ?? []).map((line) => line.replaceAll('\u00A0', ' '));
const cellsOf = (leaves: readonly Leaf[], title: string): string[][] => {
  const groups = compareGroups(leaves, { rules: { ...HOUSE_RULES_AT_FIRST, currency: 'kr' }, nowMs: NOW });
  const row = groups.flatMap(({ rows }) => rows).find((one) => one.title === title);
  return (row?.cells ?? []).map(plain);
};

describe('batches side by side', () => {
  it('count their days from their own starts', () => {
    const early = leafOf(1, { readings: [read(0, 1.08), read(10, 1.02)] });
    const late = leafOf(2, {
      startedAtMs: START + 30 * DAY,
      readings: [read(31, 1.09)],
    });
    const [gravity] = compareCurves([early, late], HOUSE_RULES_AT_FIRST);
    expect(gravity?.curves.map(({ points }) => points.map(({ x }) => x))).toEqual([[0, 10], [1]]);
    expect(cellsOf([early, late], 'First gravity')).toEqual([['1.080, day 0'], ['1.090, day 1']]);
    expect(cellsOf([early, late], 'Last gravity')[0]).toEqual(['1.020, day 10']);
    expect(dayOf(untilMs(early, NOW), early)).toBe(10);
  });

  it('say what is not known by an empty cell, and leave out rows nobody fills', () => {
    const one = leafOf(1, { ingredients: [{ name: 'damsons', amountTyped: '3 kg', massUg: null }] });
    expect(cellsOf([one, leafOf(2)], 'Ingredients')).toEqual([['3 kg damsons'], []]);
    expect(cellsOf([one, leafOf(2)], 'Last pH')).toEqual([]);
  });

  it('never call a cost whole where a part of it is missing', () => {
    const priced = leafOf(1, { cost: { ...cost, soFar: { parts: 12_340_000, priced: 3, of: 5 } } });
    expect(cellsOf([priced, leafOf(2)], 'Cost so far')).toEqual([
      ['at least 12.34 kr', '3 of 5 ingredients have a cost'],
      [],
    ]);
  });

  it('have an address of their own, with two to four of them, none twice', () => {
    const batchIds = [uuid(1), uuid(2)] as never[];
    expect(destinationOf(hashOf({ place: 'compare', batchIds }))).toEqual({ place: 'compare', batchIds });
    expect(destinationOf(`#/compare/${uuid(1)}/${uuid(1)}`)).toEqual({
      place: 'compare',
      batchIds: [uuid(1)],
    });
    expect(destinationOf('#/compare/nothing')).toEqual({ place: 'shelves' });
  });
});
