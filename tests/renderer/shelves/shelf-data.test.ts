import { describe, expect, it } from 'vitest';
import type { ShelfRow } from '#core/contract/shelves.ts';
import { groupKeyOf, ShelfData, UNPLACED } from '#renderer/shelves/shelf-data.ts';
import { emptyRow, loose, row, shelf, shelfId, vesselId } from './rows-for-tests.ts';

const today = { startMs: 1000 * 86_400_000, endMs: 1001 * 86_400_000 };
const numbers = (data: ShelfData): number[] => [...data.rows()].map(({ row: r }) => r.number);

function twoShelves(): ShelfData {
  const data = new ShelfData('place');
  data.takeGroups([shelf(1, 6, 3), shelf(2, 4, 1)]);
  data.takePage(shelfId(1), 0, [row(1), row(2), row(4)], 3);
  data.takePage(shelfId(2), 0, [row(9, { shelfId: shelfId(2), position: 2, spot: 'B2' })], 1);
  return data;
}

describe('what has been read of the shelves', () => {
  it('stands at its position, with free places between', () => {
    const data = twoShelves();
    expect([0, 1, 2, 3, 4, 5].map((slot) => data.at(0, slot)?.number ?? data.at(0, slot))).toEqual([
      ...[1, 2, null, 4, null, null],
    ]);
    expect(data.spotOf(vesselId(9))).toEqual({ group: 1, slot: 1 });
    expect(data.rowOf(vesselId(4))?.spot).toBe('A4');
    expect(data.isComplete()).toBe(true);
  });

  it('is not known before it has been read', () => {
    const data = new ShelfData('place');
    data.takeGroups([shelf(1, 3, 2)]);
    expect(data.at(0, 0)).toBeUndefined();
    expect(data.isComplete()).toBe(false);
    expect(data.rowOf(vesselId(1))).toBeNull();
  });

  it('asks first for what is in sight, then for the rest, page by page', () => {
    const data = new ShelfData('place');
    data.takeGroups([shelf(1, 3, 2), shelf(2, 900, 600), shelf(3, 5, 0)]);
    expect(data.wanted([1])).toEqual({ key: shelfId(2), offset: 0 });
    const at = (from: number, count: number): ShelfRow[] =>
      Array.from({ length: count }, (_, i) =>
        row(100 + from + i, { shelfId: shelfId(2), position: from + i + 1 }),
      );
    data.takePage(shelfId(2), 0, at(0, 240), 600);
    expect(data.wanted([1])).toEqual({ key: shelfId(2), offset: 240 });
    data.takePage(shelfId(2), 240, at(240, 360), 600);
    expect(data.wanted([1])).toEqual({ key: shelfId(1), offset: 0 });
    data.takePage(shelfId(1), 0, [row(1), row(2)], 2);
    expect(data.wanted([])).toBeNull();
    expect(data.at(2, 0)).toBeNull();
    expect(data.at(1, 700)).toBeNull();
  });

  it('replaces a changed vessel where it stands', () => {
    const data = twoShelves();
    data.applyRows([row(2, { volumeUl: 5 })], [], today);
    expect(data.rowOf(vesselId(2))?.volumeUl).toBe(5);
    expect(numbers(data)).toEqual([1, 2, 4, 9]);
    expect(data.isComplete()).toBe(true);
  });

  it('moves a vessel to its new place at once, and leaves the old one free', () => {
    const data = twoShelves();
    data.applyRows([row(2, { shelfId: shelfId(2), position: 4, spot: 'B4' })], [], today);
    expect(data.at(0, 1)).toBeNull();
    expect(data.spotOf(vesselId(2))).toEqual({ group: 1, slot: 3 });
  });

  it('takes a retired vessel away', () => {
    const data = twoShelves();
    data.applyRows([], [vesselId(1)], today);
    expect(data.at(0, 0)).toBeNull();
    expect(data.spotOf(vesselId(1))).toBeNull();
  });

  it('keeps what it has when the overview comes again, and reads anew where counts differ', () => {
    const data = twoShelves();
    data.takeGroups([shelf(1, 8, 3), shelf(2, 4, 2)]);
    expect(data.rowOf(vesselId(4))?.number).toBe(4);
    expect(data.at(0, 7)).toBeNull();
    expect(data.wanted([])).toEqual({ key: shelfId(2), offset: 0 });
  });

  it('forgets the vessels of a shelf that is gone', () => {
    const data = twoShelves();
    data.takeGroups([shelf(2, 4, 1)]);
    expect(data.spotOf(vesselId(1))).toBeNull();
    expect(data.spotOf(vesselId(9))).toEqual({ group: 0, slot: 1 });
  });

  it('reads both groups again when a vessel changes stage', () => {
    const data = new ShelfData('stage');
    data.takeGroups([loose('vinegar', 3), loose('ready', 1)]);
    data.takePage('vinegar', 0, [row(1), row(2), row(3)], 3);
    data.takePage('ready', 0, [row(7, { stage: 'ready' })], 1);
    data.applyRows([row(2, { stage: 'ready' })], [], today);
    data.takeGroups([loose('vinegar', 2), loose('ready', 2)]);
    expect(numbers(data)).toEqual([1, 3, 7]);
    expect(data.spotOf(vesselId(3))).toEqual({ group: 0, slot: 1 });
    expect(data.wanted([])).toEqual({ key: 'vinegar', offset: 0 });
    data.takePage('vinegar', 0, [row(1), row(3)], 2);
    data.takePage('ready', 0, [row(2, { stage: 'ready' }), row(7, { stage: 'ready' })], 2);
    expect(numbers(data)).toEqual([1, 3, 2, 7]);
    expect(data.isComplete()).toBe(true);
  });

  it('ignores a page of a group that is no longer there', () => {
    const data = twoShelves();
    data.takePage('nowhere', 0, [row(5)], 1);
    expect(numbers(data)).toEqual([1, 2, 4, 9]);
  });

  it('knows the group of a vessel under each grouping', () => {
    expect(groupKeyOf(row(1), 'place', today)).toBe(shelfId(1));
    expect(groupKeyOf(row(1, { shelfId: null }), 'place', today)).toBe(UNPLACED);
    expect(groupKeyOf(emptyRow(1), 'stage', today)).toBe('empty');
    expect(groupKeyOf(row(1), 'due', today)).toBe('nothing');
    const due = { act: 'rack', earliestMs: 0, idealMs: 0, latestMs: today.startMs - 1, why: 'rule' } as const;
    expect(groupKeyOf(row(1, { due }), 'due', today)).toBe('late');
  });
});
