import type { LabelLayout, LayoutMeasures } from './layout.ts';

const INCH_MM = 25.4;
const inches = (n: number): number => n * INCH_MM;

const A4 = { paper: 'a4', pageWidthMm: 210, pageHeightMm: 297 } as const;
const A4_LANDSCAPE = { paper: 'a4Landscape', pageWidthMm: 297, pageHeightMm: 210 } as const;
const LETTER = { paper: 'letter', pageWidthMm: inches(8.5), pageHeightMm: inches(11) } as const;
const LETTER_LANDSCAPE = {
  paper: 'letterLandscape',
  pageWidthMm: inches(11),
  pageHeightMm: inches(8.5),
} as const;

type Paper = typeof A4 | typeof A4_LANDSCAPE | typeof LETTER | typeof LETTER_LANDSCAPE;

interface Grid {
  readonly label: readonly [widthMm: number, heightMm: number];
  readonly grid: readonly [columns: number, rows: number];
  readonly at: readonly [leftMm: number, topMm: number];
  readonly gaps: readonly [acrossMm: number, downMm: number];
}

const builtIn = (
  key: string,
  told: 'mm' | 'in',
  shape: LayoutMeasures['shape'],
  paper: Paper,
  { label, grid, at, gaps }: Grid,
): LabelLayout => ({
  ...{ key, name: '', own: false, told, shape, ...paper, roll: false },
  ...{ labelWidthMm: label[0], labelHeightMm: label[1], columns: grid[0], rows: grid[1] },
  ...{ leftMm: at[0], topMm: at[1], gapAcrossMm: gaps[0], gapDownMm: gaps[1] },
  cutLines: shape === 'tag' || shape === 'wrap' || shape === 'strip',
  measureFirst: shape === 'round',
});

const roll = (key: string, told: 'mm' | 'in', widthMm: number, heightMm: number): LabelLayout => ({
  ...{ key, name: '', own: false, told, shape: 'rectangle', paper: 'own', roll: true },
  ...{ pageWidthMm: widthMm, pageHeightMm: heightMm, labelWidthMm: widthMm, labelHeightMm: heightMm },
  ...{ columns: 1, rows: 1, leftMm: 0, topMm: 0, gapAcrossMm: 0, gapDownMm: 0 },
  ...{ cutLines: false, measureFirst: false },
});

/** A grid of tags of 58 × 50 mm with 4 mm between them, in the middle of the paper. */
const tags = (paper: Paper): Grid => ({
  label: [58, 50],
  grid: [3, 5],
  at: [(paper.pageWidthMm - 3 * 58 - 2 * 4) / 2, (paper.pageHeightMm - 5 * 50 - 4 * 4) / 2],
  gaps: [4, 4],
});

/** Strips for the shelf edge, 18 mm high, as many as the paper holds within 10 mm of its edges. */
const strips = (paper: Paper): Grid => ({
  label: [paper.pageWidthMm - 20, 18],
  grid: [1, Math.floor((paper.pageHeightMm - 20 + 2) / 20)],
  at: [10, 10],
  gaps: [0, 2],
});

/**
 * The layouts that are always there, named by their sizes: common practice, no source. Those of round labels are starting
 * values. In each, the margins left and right are alike.
 */
export const BUILT_IN_LAYOUTS: readonly LabelLayout[] = [
  builtIn('a4-3x7', 'mm', 'rectangle', A4, {
    ...{ label: [63.5, 38.1], grid: [3, 7], at: [7.25, 15.15], gaps: [2.5, 0] },
  }),
  builtIn('a4-2x4', 'mm', 'rectangle', A4, {
    ...{ label: [99.1, 67.7], grid: [2, 4], at: [4.65, 13.1], gaps: [2.5, 0] },
  }),
  builtIn('a4-3x8', 'mm', 'rectangle', A4, {
    ...{ label: [70, 37], grid: [3, 8], at: [0, 0.5], gaps: [0, 0] },
  }),
  builtIn('a4-round50', 'mm', 'round', A4, {
    ...{ label: [50, 50], grid: [3, 5], at: [20, 13.5], gaps: [10, 5] },
  }),
  builtIn('let-3x10', 'in', 'rectangle', LETTER, {
    label: [inches(2 + 5 / 8), inches(1)],
    grid: [3, 10],
    at: [inches(3 / 16), inches(1 / 2)],
    gaps: [inches(1 / 8), 0],
  }),
  builtIn('let-2x5', 'in', 'rectangle', LETTER, {
    label: [inches(4), inches(2)],
    grid: [2, 5],
    at: [inches(5 / 32), inches(1 / 2)],
    gaps: [inches(3 / 16), 0],
  }),
  builtIn('let-round2', 'in', 'round', LETTER, {
    label: [inches(2), inches(2)],
    grid: [3, 4],
    at: [inches(5 / 8), inches(5 / 8)],
    gaps: [inches(5 / 8), inches(7 / 12)],
  }),
  builtIn('a4-tag', 'mm', 'tag', A4, tags(A4)),
  builtIn('let-tag', 'mm', 'tag', LETTER, tags(LETTER)),
  builtIn('a4-wrap', 'mm', 'wrap', A4_LANDSCAPE, {
    ...{ label: [277, 60], grid: [1, 3], at: [10, 15], gaps: [0, 0] },
  }),
  builtIn('let-wrap', 'in', 'wrap', LETTER_LANDSCAPE, {
    label: [inches(10), inches(2.25)],
    grid: [1, 3],
    at: [inches(1 / 2), inches(7 / 8)],
    gaps: [0, 0],
  }),
  builtIn('a4-strip', 'mm', 'strip', A4, strips(A4)),
  builtIn('let-strip', 'mm', 'strip', LETTER, strips(LETTER)),
  roll('roll-62x29', 'mm', 62, 29),
  roll('roll-89x36', 'mm', 89, 36),
  roll('roll-57x32', 'mm', 57, 32),
  roll('roll-4x2', 'in', inches(4), inches(2)),
];
