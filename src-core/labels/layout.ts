import { z } from 'zod';

/** Papers a printer is fed with. A roll's paper is one label wide and one label high. */
export const PAPERS = ['a4', 'a4Landscape', 'letter', 'letterLandscape', 'own'] as const;

/** What a label is cut to: its outline decides where words may stand. */
export const LABEL_SHAPES = ['rectangle', 'round', 'tag', 'wrap', 'strip'] as const;
export type LabelShape = (typeof LABEL_SHAPES)[number];

const millimetres = (low: number, high: number) => z.number().min(low).max(high);

/** Where labels lie on a page. Every length in millimetres, whatever the keeper measured in. */
export const LayoutMeasures = z.strictObject({
  shape: z.enum(LABEL_SHAPES),
  paper: z.enum(PAPERS),
  pageWidthMm: millimetres(15, 450),
  pageHeightMm: millimetres(10, 450),
  labelWidthMm: millimetres(10, 450),
  labelHeightMm: millimetres(8, 450),
  columns: z.int().min(1).max(40),
  rows: z.int().min(1).max(80),
  leftMm: millimetres(0, 200),
  topMm: millimetres(0, 200),
  gapAcrossMm: millimetres(0, 100),
  gapDownMm: millimetres(0, 100),
  /** Printed as a line to cut along: for plain paper and card, that have no die. */
  cutLines: z.boolean(),
  /** One label a page, fed from a roll. */
  roll: z.boolean(),
});
export type LayoutMeasures = z.infer<typeof LayoutMeasures>;

export const LAYOUT_KEY = /^[a-z0-9][a-z0-9.-]{0,39}$/u;

/** A layout as it is chosen. A built-in one is named by its sizes; one of the keeper's own has the name they gave it. */
export const LabelLayout = LayoutMeasures.extend({
  key: z.string().regex(LAYOUT_KEY),
  /** The keeper's own name; '' for a built-in layout. */
  name: z.string(),
  own: z.boolean(),
  /** The unit its sizes are told in. */
  told: z.enum(['mm', 'in']),
  /** Starting values only: makers differ, so they are to be measured first. */
  measureFirst: z.boolean(),
});
export type LabelLayout = z.infer<typeof LabelLayout>;

/** A layout as the keeper measured it: a key of '' makes a new one, another key changes that one. */
export const OwnLayout = LayoutMeasures.extend({
  key: z.union([z.literal(''), z.string().regex(LAYOUT_KEY)]),
  name: z
    .string()
    .trim()
    .min(1)
    .max(60)
    .refine((name) => name.isWellFormed(), { error: 'whole characters' }),
  told: z.enum(['mm', 'in']),
});
export type OwnLayout = z.infer<typeof OwnLayout>;

/** What is wrong with measures that were typed; `field` is the one to look at. */
export type LayoutProblem =
  /** Labels and gaps reach so many millimetres over the paper's edge. */
  | { readonly type: 'WiderThanPaper'; readonly field: 'labelWidthMm'; readonly overMm: number }
  | { readonly type: 'HigherThanPaper'; readonly field: 'labelHeightMm'; readonly overMm: number }
  | { readonly type: 'RoundNotAsHighAsWide'; readonly field: 'labelHeightMm' }
  | { readonly type: 'RollHoldsOne'; readonly field: 'columns' };

/** Paper is cut, and lengths are typed, to a tenth of a millimetre. */
const TOLERANCE_MM = 0.05;

/** Everything that keeps these measures from being printed; empty when they fit their paper. */
export function layoutProblems(measures: LayoutMeasures): LayoutProblem[] {
  const problems: LayoutProblem[] = [];
  const overRight = reach(measures, 'across') - measures.pageWidthMm;
  const overFoot = reach(measures, 'down') - measures.pageHeightMm;
  if (overRight > TOLERANCE_MM) {
    problems.push({ type: 'WiderThanPaper', field: 'labelWidthMm', overMm: overRight });
  }
  if (overFoot > TOLERANCE_MM) {
    problems.push({ type: 'HigherThanPaper', field: 'labelHeightMm', overMm: overFoot });
  }
  if (measures.shape === 'round' && measures.labelWidthMm !== measures.labelHeightMm) {
    problems.push({ type: 'RoundNotAsHighAsWide', field: 'labelHeightMm' });
  }
  if (measures.roll && placesOnPage(measures) !== 1)
    problems.push({ type: 'RollHoldsOne', field: 'columns' });
  return problems;
}

export function placesOnPage({ columns, rows }: Pick<LayoutMeasures, 'columns' | 'rows'>): number {
  return columns * rows;
}

/** How far the last label reaches from the left or upper edge of the paper, mm. */
function reach(measures: LayoutMeasures, way: 'across' | 'down'): number {
  const { leftMm, topMm, labelWidthMm, labelHeightMm, columns, rows, gapAcrossMm, gapDownMm } = measures;
  return way === 'across'
    ? leftMm + columns * labelWidthMm + (columns - 1) * gapAcrossMm
    : topMm + rows * labelHeightMm + (rows - 1) * gapDownMm;
}
