import type { LabelLayout } from './layout.ts';

/** Where words may stand on a label, mm from its upper left corner. */
export interface LabelRoom {
  readonly xMm: number;
  readonly yMm: number;
  readonly widthMm: number;
  readonly heightMm: number;
}

/** Nothing prints nearer to the cut than this. */
const INSET_MM = 2;
/** On the common sheet of 63.5 × 38.1 mm, whose sheets are cut less exactly (design, section 5.2). */
const INSET_TIGHT_MM = 2.4;
/** No printer for sheets reaches nearer to the edge of its paper: common practice, no source. */
const PAPER_EDGE_MM = 5;

/** The hole of a tag: its middle from the left edge, and its radius. */
export const TAG_HOLE = { fromLeftMm: 6, radiusMm: 2.5 } as const;
/** On a tag words begin to the right of the hole. */
const TAG_LEFT_MM = 11;

/**
 * The room for words on every label of a layout: alike on all its places, so that labels that are alike look alike. Where
 * labels reach the paper's edge it keeps away from it.
 */
export function labelRoom(layout: LabelLayout): LabelRoom {
  const { labelWidthMm: width, labelHeightMm: height, roll, shape } = layout;
  const inset = width === 63.5 && height === 38.1 ? INSET_TIGHT_MM : INSET_MM;
  const edge = roll ? 0 : PAPER_EDGE_MM;
  const right =
    layout.pageWidthMm - layout.leftMm - layout.columns * width - (layout.columns - 1) * layout.gapAcrossMm;
  const foot =
    layout.pageHeightMm - layout.topMm - layout.rows * height - (layout.rows - 1) * layout.gapDownMm;
  const across = Math.max(inset, edge - Math.min(layout.leftMm, right));
  const down = Math.max(inset, edge - Math.min(layout.topMm, foot));
  const left = shape === 'tag' ? Math.max(across, TAG_LEFT_MM) : across;
  return { xMm: left, yMm: down, widthMm: width - left - across, heightMm: height - 2 * down };
}

/** The outline of a label as path data from its own corner: what the die cut, or what is to be cut. */
export function labelOutline({ shape, labelWidthMm: w, labelHeightMm: h }: LabelLayout): string {
  if (shape === 'round') return circle(w / 2, h / 2, w / 2);
  if (shape === 'tag') {
    const { fromLeftMm, radiusMm } = TAG_HOLE;
    const slant = Math.min(9, w / 4, h / 3);
    return `M${slant} 0H${w}V${h}H${slant}L0 ${h - slant}V${slant}Z${circle(fromLeftMm, h / 2, radiusMm)}`;
  }
  return `M0 0H${w}V${h}H0Z`;
}

/** A circle as path data in two arcs. */
export function circle(x: number, y: number, r: number): string {
  return `M${x - r} ${y}A${r} ${r} 0 1 0 ${x + r} ${y}A${r} ${r} 0 1 0 ${x - r} ${y}Z`;
}
