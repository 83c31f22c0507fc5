import type { CautionType } from './caution-box.ts';
import { SMALLEST_PT, type RowSizes } from './label-block.ts';
import type { LabelRoom } from './label-room.ts';
import { nearestDots } from './printer-dots.ts';
import type { LabelLayout } from './layout.ts';

/** How the same content may be laid out, from roomy to tight. */
export interface Manner extends RowSizes, CautionType {
  readonly namePt: readonly number[];
  readonly nameLines: number;
  readonly idPt: number;
  /** The mark of the stage; 0 where there is no room for show. */
  readonly markMm: number;
  /** Cautions in their shorter words, which say the same. */
  readonly briefly: boolean;
  /** Whole dots of the printer to a module of the code. */
  readonly moduleDots: number;
  /** Where the code stands: under the head beside the rows, beside all of it, or nowhere. */
  readonly code: 'under' | 'beside' | 'none';
}

/** Cautions are set in no smaller type, and in bold; the day it was started in no smaller than 9 pt (design, section 5.4). */
export const CAUTION_LEAST_PT = 7.5;
export const STARTED_LEAST_PT = 9;

type Size = Omit<Manner, 'code' | 'moduleDots'>;

const ROOMY: Size = {
  ...{
    namePt: [12.5, 11, 10, 9],
    nameLines: 2,
    rowPt: 7.5,
    startedPt: STARTED_LEAST_PT,
    idPt: 7,
    markMm: 7.4,
  },
  ...{ caution: 'generous', cautionPt: [8.5, 8, CAUTION_LEAST_PT], briefly: false },
};

const SIZES: readonly Size[] = [
  ROOMY,
  { ...ROOMY, caution: 'roomy' },
  { ...ROOMY, namePt: [10, 9], rowPt: 7, markMm: 7, caution: 'roomy' },
  {
    ...ROOMY,
    ...{ namePt: [10, 9], rowPt: SMALLEST_PT, markMm: 7, caution: 'tight' },
    cautionPt: [CAUTION_LEAST_PT],
  },
  {
    ...ROOMY,
    ...{ namePt: [9], nameLines: 1, rowPt: SMALLEST_PT, markMm: 0, caution: 'tight' },
    cautionPt: [CAUTION_LEAST_PT],
  },
  {
    ...ROOMY,
    ...{ namePt: [10, 9], rowPt: SMALLEST_PT, markMm: 0, caution: 'tight', briefly: true },
    cautionPt: [CAUTION_LEAST_PT],
  },
  {
    ...ROOMY,
    ...{ namePt: [9], nameLines: 1, rowPt: SMALLEST_PT, markMm: 0, caution: 'tight', briefly: true },
    cautionPt: [CAUTION_LEAST_PT],
  },
];

/** Modules on jar labels, and on tags, that are read at arm's length (design, section 5.4: 0.45 and 0.52), mm. */
const MODULE_MM = 0.43;
const TAG_MODULE_MM = 0.52;

/** The sizes above are for a room like this one, mm; a larger one takes larger type in steps, up to the most. */
const FOR_WIDTH_MM = 58;
const FOR_HEIGHT_MM = 34;
const LARGER_MOST = 1.6;
const LARGER_STEP = 0.15;
const LARGER_LEAST = 1.1;

/** Every manner to be tried, the one that reads best first. */
export function mannersFor(room: LabelRoom, layout: LabelLayout, withCode: boolean): readonly Manner[] {
  const moduleMm = layout.shape === 'tag' ? TAG_MODULE_MM : MODULE_MM;
  const codes = withCode ? (['under', 'beside', 'none'] as const) : (['none'] as const);
  const sizes = [
    ...largerSizes(room).map((by) => ({ ...enlarged(by), moduleDots: nearestDots(moduleMm * by) })),
    ...SIZES.map((size) => ({ ...size, moduleDots: nearestDots(moduleMm) })),
  ];
  return sizes.flatMap((size) => codes.map((code) => ({ ...size, code })));
}

function largerSizes({ widthMm, heightMm }: LabelRoom): readonly number[] {
  const most = Math.min(widthMm / FOR_WIDTH_MM, heightMm / FOR_HEIGHT_MM, LARGER_MOST);
  const sizes: number[] = [];
  for (let by = most; by >= LARGER_LEAST; by -= LARGER_STEP) sizes.push(by);
  return sizes;
}

/** The roomy manner, so many times as large. */
function enlarged(by: number): Size {
  const larger = (size: number): number => Math.round(size * by * 4) / 4;
  return {
    ...ROOMY,
    ...{ namePt: ROOMY.namePt.map(larger), cautionPt: ROOMY.cautionPt.map(larger) },
    ...{ rowPt: larger(ROOMY.rowPt), startedPt: larger(ROOMY.startedPt), idPt: larger(ROOMY.idPt) },
    markMm: ROOMY.markMm * by,
  };
}
