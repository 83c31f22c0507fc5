import { fitText, type Fitted } from './fit-text.ts';
import { lineMm, rectangle, type Ink } from './ink.ts';
import { heightOf, setLines } from './set-lines.ts';
import type { Typesetter } from './typesetter.ts';

const BOX_MM = 0.5;
const BOX_PAD_MM = 0.7;
/** A narrower box has no triangle. */
const TRIANGLE_FROM_MM = 44;
const TRIANGLE_LINES = 1.75;

export interface CautionBox {
  readonly fit: Fitted;
  readonly heightMm: number;
  readonly triangleMm: number;
  readonly fits: boolean;
}

/** How much room a caution may take: as large as it reads best, in as few lines as it can, or as little as it must. */
export type Ease = 'generous' | 'roomy' | 'tight';

export interface CautionType {
  readonly caution: Ease;
  /** The sizes they may have, the largest first. */
  readonly cautionPt: readonly number[];
}

/**
 * Cautions in bold within a frame, over as many lines as they need; where there is room, with a triangle and in larger type.
 * They are never cut: what cannot be set does not fit.
 */
export function cautionBox(
  type: Typesetter,
  cautions: readonly string[],
  widthMm: number,
  { caution: ease, cautionPt: sizes }: CautionType,
): CautionBox {
  const text = cautions.join(' ');
  const lineOf = lineMm(sizes[0] ?? 0);
  // As high as two lines of it, and no higher than the line where there is but one.
  const most = ease !== 'tight' && widthMm >= TRIANGLE_FROM_MM ? TRIANGLE_LINES * lineOf : 0;
  const inner = (triangleMm: number): number => widthMm - 2 * (BOX_MM + BOX_PAD_MM) - indentOf(triangleMm);
  const room = inner(most);
  const fewest = fewestLines(type, text, room, sizes);
  const fit = ease === 'generous' ? (inFullWidth(type, text, room, sizes) ?? fewest) : fewest;
  const triangleMm = fit?.lines.length === 1 ? Math.min(most, lineOf * 1.15) : most;
  const heightMm =
    (fit === null ? 0 : Math.max(heightOf(fit), triangleMm * 0.87)) + 2 * (BOX_MM + BOX_PAD_MM);
  return {
    ...{ heightMm, triangleMm, fits: fit !== null },
    fit: fit ?? { lines: [], narrowed: false, madeSmaller: false, cut: false, missing: [] },
  };
}

const indentOf = (triangleMm: number): number => (triangleMm === 0 ? 0 : triangleMm + 1);

/** In the largest type and not narrowed, where that takes no more than a few lines; null where it would. */
function inFullWidth(
  type: Typesetter,
  text: string,
  widthMm: number,
  sizes: readonly number[],
): Fitted | null {
  for (let linesMax = 1; linesMax <= GENEROUS_LINES; linesMax += 1) {
    const give = { bold: true, sizesPt: sizes.slice(0, 1), linesMax, mayCut: false };
    const fit = fitText(type, text, [widthMm], give);
    if (fit !== null && !fit.narrowed) return fit;
  }
  return null;
}
const GENEROUS_LINES = 4;

/** The largest type that needs no more lines than the smallest does. */
function fewestLines(
  type: Typesetter,
  text: string,
  widthMm: number,
  sizesPt: readonly number[],
): Fitted | null {
  for (let linesMax = 1; linesMax <= 12; linesMax += 1) {
    const fit = fitText(type, text, [widthMm], { bold: true, sizesPt, linesMax, mayCut: false });
    if (fit !== null) return fit;
  }
  return null;
}

export function drawCaution(
  ink: Ink,
  { fit, heightMm, triangleMm }: CautionBox,
  xMm: number,
  yMm: number,
  widthMm: number,
): void {
  const half = BOX_MM / 2;
  ink.figure({
    ...{
      d: rectangle(xMm + half, yMm + half, widthMm - BOX_MM, heightMm - BOX_MM),
      weightMm: BOX_MM,
      within: null,
    },
  });
  const pad = BOX_MM + BOX_PAD_MM;
  if (triangleMm > 0) {
    const top = yMm + (heightMm - triangleMm * 0.87) / 2;
    warningTriangle(ink, xMm + pad, top, triangleMm);
  }
  const indent = indentOf(triangleMm);
  const free = heightMm - 2 * pad - heightOf(fit);
  setLines(ink, fit, xMm + pad + indent, yMm + pad + free / 2, widthMm - 2 * pad - indent);
}

/** The triangle with its stroke and dot, `side` wide; its marks are lines and not type, so it needs no font. */
function warningTriangle(ink: Ink, x: number, y: number, side: number): void {
  const height = side * 0.87;
  ink.figure({
    d: `M${x + side / 2} ${y + 0.3}L${x + side - 0.3} ${y + height - 0.2}H${x + 0.3}Z`,
    ...{ weightMm: Math.max(0.4, side * 0.083), within: null },
  });
  const middle = x + side / 2;
  ink.figure({
    d: `M${middle} ${y + height * 0.38}V${y + height * 0.66}`,
    weightMm: Math.max(0.5, side * 0.1),
    within: null,
  });
  ink.figure({
    d: rectangle(middle - side * 0.053, y + height * 0.75, side * 0.107, side * 0.107),
    weightMm: 0,
    within: null,
  });
}
