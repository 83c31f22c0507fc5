import { describe, expect, test } from 'vitest';
import type { Pedigree, PedigreeNode, PedigreeRoot, PedigreeStep } from '#core/contract/pedigree.ts';
import { BatchId, EntryId, VesselId } from '#core/ledger/ids.ts';
import { drawPedigree, DRAWN_MAX, SIZES } from '#renderer/pedigree/pedigree-drawing.ts';
import { SHEET, tilePedigree } from '#renderer/pedigree/pedigree-tiles.ts';
import { saySheet } from '#renderer/words/pedigree-words.ts';
import { byGeneration, generationsOf, joinSteps } from '#renderer/pedigree/pedigree-shape.ts';

const id = (n: number): string => `018f0000-0000-7000-8000-${n.toString(16).padStart(12, '0')}`;
const AT = Date.UTC(2026, 4, 3, 9);
const node = (n: number, over: Partial<PedigreeNode> = {}): PedigreeNode => ({
  ...{ key: `n${n}`, kind: 'batch', batchId: BatchId.parse(id(n)), lotId: null, cultureId: null },
  ...{ vesselId: VesselId.parse(id(1000 + n)), vesselNumber: n, name: `Batch ${n}`, code: `26-${n}` },
  ...{ atMs: AT, standingUl: 1_000_000, stage: 'ready', bottlesLeft: null, bottleUl: null },
  keptApartFor: '',
  ...over,
});
const step = (from: number, to: number, over: Partial<PedigreeStep> = {}): PedigreeStep => ({
  ...{ from: `n${from}`, to: `n${to}`, atMs: AT, volumeUl: 2_000_000, entryId: null },
  ...over,
});
const pedigree = (
  direction: Pedigree['direction'],
  nodes: readonly PedigreeNode[],
  steps: readonly PedigreeStep[],
): Pedigree => ({ direction, nodes: [...nodes], steps: [...steps], more: false });
const batch = (n: number): PedigreeRoot => ({ kind: 'batch', batchId: BatchId.parse(id(n)) });

describe('generations', () => {
  test('count the fewest steps from what was asked of, either way', () => {
    const nodes = [node(1), node(2), node(3)];
    const onward = pedigree('onward', nodes, [step(1, 2), step(2, 3), step(1, 3)]);
    expect([...generationsOf(onward, batch(1)).values()]).toEqual([0, 1, 1]);
    const back = pedigree('back', nodes, [step(2, 1), step(3, 2)]);
    expect([...generationsOf(back, batch(1))]).toEqual([
      ['n1', 0],
      ['n2', 1],
      ['n3', 2],
    ]);
  });

  test('a batch racked on begins where it began; one that only goes in circles still has a beginning', () => {
    const own = { batchId: BatchId.parse(id(1)) };
    const racked = pedigree('onward', [node(1), node(2, own)], [step(1, 2)]);
    expect([...generationsOf(racked, batch(1)).values()]).toEqual([0, 1]);
    const circle = pedigree('onward', [node(1), node(2)], [step(1, 2), step(2, 1)]);
    expect([...generationsOf(circle, batch(1)).values()]).toEqual([0, 1]);
  });

  test('bottles of the batch that is asked of lie on its other side', () => {
    const lot = node(9, { kind: 'lot', ...{ lotId: EntryId.parse(id(9)), batchId: BatchId.parse(id(1)) } });
    const traced = pedigree('back', [node(1), lot, node(2)], [step(1, 9), step(2, 1)]);
    expect(byGeneration(traced, batch(1)).map(({ number, nodes }) => [number, nodes.length])).toEqual([
      [-1, 1],
      [0, 1],
      [1, 1],
    ]);
  });

  test('steps between the same two are one line with the sum of them', () => {
    const joined = joinSteps([step(1, 2, { atMs: AT + 5 }), step(1, 2), step(2, 3)]);
    expect(joined).toHaveLength(2);
    expect(joined.find(({ to }) => to === 'n2')).toMatchObject({
      ...{ count: 2, volumeUl: 4_000_000, firstMs: AT, lastMs: AT + 5 },
    });
  });
});

describe('the drawing', () => {
  const xs = (traced: Pedigree) =>
    Object.fromEntries(drawPedigree(traced, batch(1)).nodes.map((drawn) => [drawn.node.key, drawn.x]));

  test('goes from left to right as time does, whichever way is asked', () => {
    const onward = xs(pedigree('onward', [node(1), node(2)], [step(1, 2)]));
    expect(onward['n1']).toBeLessThan(onward['n2'] ?? 0);
    const back = xs(pedigree('back', [node(1), node(2)], [step(2, 1)]));
    expect(back['n2']).toBeLessThan(back['n1'] ?? 0);
  });

  test('puts no node over another, and says how many it leaves out', () => {
    const many = Array.from({ length: 3000 }, (_, n) => node(n + 1));
    const steps = many.slice(1).map((_, n) => step(1, n + 2));
    const drawing = drawPedigree(pedigree('onward', many, steps), batch(1));
    expect(drawing.nodes).toHaveLength(DRAWN_MAX);
    expect(drawing.leftOut).toBe(3000 - DRAWN_MAX);
    const ys = drawing.nodes.filter(({ x }) => x > SIZES.margin).map(({ y }) => y);
    const sorted = ys.toSorted((a, b) => a - b);
    expect(sorted.every((y, i) => i === 0 || y - (sorted[i - 1] ?? 0) >= SIZES.height)).toBe(true);
    expect(Math.max(...ys) + SIZES.height).toBeLessThanOrEqual(drawing.height);
    expect(drawing.nodes[0]?.node.key).toBe('n1');
  });

  test('of many lines into one, as many are labelled as have room', () => {
    const nodes = [1, 2, 3, 4, 5, 6].map((n) => node(n));
    const steps = [2, 3, 4, 5].flatMap((n) => [step(1, n), step(n, 6)]);
    const drawing = drawPedigree(pedigree('onward', nodes, steps), batch(1));
    const intoLast = drawing.steps.filter(({ step: { to } }) => to === 'n6');
    expect(intoLast.map(({ label }) => label !== null)).toEqual([true, true, true, false]);
  });
});

describe('a drawing wider or higher than a page', () => {
  test('that fits one sheet is left whole', () => {
    expect(tilePedigree({ width: SHEET.width, height: SHEET.height })).toBeNull();
    expect(tilePedigree({ width: 100, height: 100 })).toBeNull();
  });

  test('lies on sheets that cover it and overlap alike, with each mark on two of them', () => {
    for (const [width, height] of [
      [984, 300],
      [2100, 400],
      [700, 2500],
      [3200, 4100],
    ] as const) {
      const tiling = tilePedigree({ width, height });
      if (tiling === null) throw new Error('one sheet would be too small');
      const { tiles, columns, rows, marks } = tiling;
      expect(tiles).toHaveLength(columns * rows);
      expect(tiling.width).toBe(Math.min(width, SHEET.width));
      expect(tiling.height).toBe(Math.min(height, SHEET.height));
      const last = tiles.at(-1);
      expect((last?.x ?? 0) + SHEET.width).toBeGreaterThanOrEqual(width);
      expect((last?.y ?? 0) + SHEET.height).toBeGreaterThanOrEqual(height);
      // No sheet more than is needed.
      expect((last?.x ?? 0) + (columns > 1 ? SHEET.overlap : 0)).toBeLessThan(width);
      expect((last?.y ?? 0) + (rows > 1 ? SHEET.overlap : 0)).toBeLessThan(height);
      for (const tile of tiles) {
        const left = tiles.find((one) => one.y === tile.y && one.x === tile.x - SHEET.width + SHEET.overlap);
        expect(tile.joinsLeftAt).toBe(left === undefined ? null : left.x + SHEET.width);
        const above = tiles.find(
          (one) => one.x === tile.x && one.y === tile.y - SHEET.height + SHEET.overlap,
        );
        expect(tile.joinsAboveAt).toBe(above === undefined ? null : above.y + SHEET.height);
      }
      expect(marks.length).toBeGreaterThanOrEqual(2);
      for (const { x, y } of marks) {
        const on = tiles.filter(
          (tile) => x > tile.x && x < tile.x + tiling.width && y > tile.y && y < tile.y + tiling.height,
        );
        expect(on).toHaveLength(2);
      }
    }
  });

  test('says on each sheet which it is', () => {
    expect(saySheet(2, { columns: 3, rows: 1 })).toMatch(/^Sheet 2 of 3\. /);
    expect(saySheet(5, { columns: 3, rows: 2 })).toMatch(/^Sheet 5 of 6, row 2, from the left 2\. /);
  });
});
