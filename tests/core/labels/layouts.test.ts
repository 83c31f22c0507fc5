import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { labelRoom } from '#core/labels/label-room.ts';
import { layoutProblems, OwnLayout, placesOnPage, type LayoutMeasures } from '#core/labels/layout.ts';
import { BUILT_IN_LAYOUTS } from '#core/labels/layouts.ts';
import { firstFree, isSameSheet, placesOf, runOfSheets } from '#core/labels/placing.ts';

/** ISO 216 gives A4 as 210 × 297 mm; US Letter is 8½ × 11 in and an inch 25.4 mm (by definition). */
const PAPERS: Record<string, readonly [number, number]> = {
  ...{ a4: [210, 297], a4Landscape: [297, 210] },
  ...{ letter: [215.9, 279.4], letterLandscape: [279.4, 215.9] },
};

describe('the built-in layouts', () => {
  it.each(BUILT_IN_LAYOUTS.map((layout) => [layout.key, layout] as const))(
    '%s fills its paper: margins left and right are alike and everything lies on it',
    (_, layout) => {
      const { columns, rows, labelWidthMm, labelHeightMm, leftMm, topMm, gapAcrossMm, gapDownMm } = layout;
      const across = 2 * leftMm + columns * labelWidthMm + (columns - 1) * gapAcrossMm;
      expect(across).toBeCloseTo(layout.pageWidthMm, 6);
      expect(topMm + rows * labelHeightMm + (rows - 1) * gapDownMm).toBeLessThanOrEqual(layout.pageHeightMm);
      expect(layoutProblems(layout)).toEqual([]);
      const paper = PAPERS[layout.paper];
      if (paper === undefined) expect(layout.roll).toBe(true);
      else {
        expect(layout.pageWidthMm).toBeCloseTo(paper[0], 9);
        expect(layout.pageHeightMm).toBeCloseTo(paper[1], 9);
      }
    },
  );

  it('have one key each, and so many labels a sheet as their name says', () => {
    expect(new Set(BUILT_IN_LAYOUTS.map(({ key }) => key)).size).toBe(BUILT_IN_LAYOUTS.length);
    const count = (key: string): number | undefined => {
      const layout = BUILT_IN_LAYOUTS.find((one) => one.key === key);
      return layout && placesOnPage(layout);
    };
    expect(
      ['a4-3x7', 'a4-2x4', 'a4-3x8', 'a4-round50', 'let-3x10', 'let-2x5', 'let-round2', 'a4-tag'].map(count),
    ).toEqual([21, 8, 24, 15, 30, 10, 12, 15]);
  });

  it('keep words 2 mm inside, 2.4 on the common sheet, and 5 mm from the edge of the paper', () => {
    const room = (key: string) => {
      const layout = BUILT_IN_LAYOUTS.find((one) => one.key === key);
      if (layout === undefined) throw new Error(key);
      return labelRoom(layout);
    };
    expect(room('a4-3x7')).toMatchObject({ xMm: 2.4, yMm: 2.4, widthMm: 63.5 - 4.8 });
    expect(room('let-2x5')).toMatchObject({ xMm: 2, yMm: 2 });
    expect(room('a4-3x8')).toMatchObject({ xMm: 5, yMm: 4.5, widthMm: 60 });
    expect(room('roll-62x29')).toMatchObject({ xMm: 2, yMm: 2 });
    expect(room('a4-tag').xMm).toBeGreaterThan(8.5);
  });
});

const OWN: LayoutMeasures = {
  ...{
    shape: 'rectangle',
    paper: 'own',
    pageWidthMm: 100,
    pageHeightMm: 100,
    labelWidthMm: 30,
    labelHeightMm: 20,
  },
  ...{
    columns: 3,
    rows: 4,
    leftMm: 5,
    topMm: 5,
    gapAcrossMm: 0,
    gapDownMm: 3.3,
    cutLines: false,
    roll: false,
  },
};

describe('a layout of the keeper’s own', () => {
  it('is told what is wrong with its measures, with the field to look at', () => {
    expect(layoutProblems(OWN)).toEqual([]);
    expect(layoutProblems({ ...OWN, labelWidthMm: 32 })).toEqual([
      { type: 'WiderThanPaper', field: 'labelWidthMm', overMm: 1 },
    ]);
    expect(layoutProblems({ ...OWN, rows: 5 })).toMatchObject([{ type: 'HigherThanPaper' }]);
    expect(layoutProblems({ ...OWN, shape: 'round' })).toMatchObject([{ type: 'RoundNotAsHighAsWide' }]);
    expect(layoutProblems({ ...OWN, roll: true })).toMatchObject([{ type: 'RollHoldsOne' }]);
  });

  it.each([
    ['no name', { name: ' ' }],
    ['a label wider than any paper', { labelWidthMm: 4000 }],
    ['half a column', { columns: 1.5 }],
    ['no rows', { rows: 0 }],
    ['NaN', { leftMm: NaN }],
    ['a negative margin', { leftMm: -1 }],
  ])('with %s is none', (_, change) => {
    expect(OwnLayout.safeParse({ ...OWN, key: '', name: 'Mine', told: 'mm', ...change }).success).toBe(false);
  });
});

describe('placing', () => {
  it('goes across, then down; or down, then across', () => {
    const across = placesOf(OWN, 'across');
    expect(across[1]).toEqual({ place: 2, row: 1, column: 2, xMm: 35, yMm: 5 });
    expect(across[3]).toEqual({ place: 4, row: 2, column: 1, xMm: 5, yMm: expect.closeTo(28.3) as number });
    const down = placesOf(OWN, 'down');
    expect(down[1]).toEqual({ place: 2, row: 2, column: 1, xMm: 5, yMm: expect.closeTo(28.3) as number });
    expect(down[4]).toEqual({ place: 5, row: 1, column: 2, xMm: 35, yMm: 5 });
  });

  it('starts at the place that was asked for and goes on to new sheets', () => {
    const run = runOfSheets(OWN, { filled: 'across', startAt: 5, taken: [] });
    expect([0, 7, 8].map((nth) => run.at(nth))).toEqual([
      { page: 1, place: 5 },
      { page: 1, place: 12 },
      { page: 2, place: 1 },
    ]);
    expect(run.sheetsFor(9)).toEqual({ pages: 2, usedUpTo: 1 });
    expect(run.sheetsFor(0)).toEqual({ pages: 0, usedUpTo: 0 });
    const beyond = runOfSheets(OWN, { filled: 'across', startAt: 13, taken: [] });
    expect(beyond.at(0)).toEqual({ page: 1, place: 1 });
  });

  it('passes over places that are used, which stay the same ones in either order', () => {
    // A sheet of three columns and four rows, whose first row and one place more were used row by row.
    const taken = runOfSheets(OWN, { filled: 'across', startAt: 1, taken: [] }).takenAfter(4);
    expect(taken).toHaveLength(4);
    expect(firstFree(OWN, 'across', taken)).toBe(5);
    // Counted down the columns they are places 1, 2, 5 and 9.
    const run = runOfSheets(OWN, { filled: 'down', startAt: 3, taken });
    expect([0, 1, 2, 3, 7, 8].map((nth) => run.at(nth))).toEqual([
      { page: 1, place: 3 },
      { page: 1, place: 4 },
      { page: 1, place: 6 },
      { page: 1, place: 7 },
      { page: 1, place: 12 },
      { page: 2, place: 1 },
    ]);
    expect(run.takenAfter(2)).toHaveLength(6);
    // A sheet that is used up is thrown away.
    expect(run.takenAfter(8)).toEqual([]);
    expect(run.takenAfter(9)).toEqual([{ row: 1, column: 1 }]);
    expect(run.takenAfter(0)).toEqual(taken);
  });

  it('knows a sheet by its paper and its grid', () => {
    const shifted = { ...OWN, leftMm: OWN.leftMm + 0.3 };
    expect(isSameSheet(OWN, shifted)).toBe(true);
    expect(isSameSheet(OWN, { ...OWN, columns: OWN.rows, rows: OWN.columns })).toBe(false);
  });

  it('never puts two labels on one place, and none on another’s', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...BUILT_IN_LAYOUTS),
        fc.integer({ min: 1, max: 30 }),
        fc.integer({ min: 1, max: 80 }),
        fc.constantFrom('across' as const, 'down' as const),
        fc.array(fc.integer({ min: 1, max: 30 }), { maxLength: 12 }),
        (layout, startAt, labels, filled, holes) => {
          const places = placesOf(layout, filled);
          const taken = places.filter(({ place }) => holes.includes(place));
          const run = runOfSheets(layout, { filled, startAt, taken });
          const used = Array.from({ length: labels }, (_, nth) => run.at(nth));
          const free = places.some(({ place }) => place >= startAt && !holes.includes(place));
          if (free) {
            for (const { page, place } of used) expect(page === 1 && holes.includes(place)).toBe(false);
          }
          expect(new Set(used.map(({ page, place }) => `${page}/${place}`)).size).toBe(labels);
          for (const [at, a] of places.entries()) {
            const b = places[at + 1];
            if (b === undefined) continue;
            const apart =
              Math.abs(a.xMm - b.xMm) >= layout.labelWidthMm - 1e-9 ||
              Math.abs(a.yMm - b.yMm) >= layout.labelHeightMm - 1e-9;
            expect(apart).toBe(true);
          }
        },
      ),
    );
  });
});
