/** What was measured on a printer's test sheet. */
export interface Measured {
  readonly shiftAcrossMm: number;
  readonly shiftDownMm: number;
  readonly rulerAcrossMm: number;
  readonly rulerDownMm: number;
}

/** How a point of the drawing is moved on the paper: first stretched from the upper left corner, then shifted. */
export interface Correction {
  readonly scaleAcross: number;
  readonly scaleDown: number;
  readonly shiftAcrossMm: number;
  readonly shiftDownMm: number;
}

export const NO_CORRECTION: Correction = { scaleAcross: 1, scaleDown: 1, shiftAcrossMm: 0, shiftDownMm: 0 };

/** The length of the ruler on the test sheet, as it is drawn. */
export const RULER_MM = 100;

/** Below this a printer is shrinking pages, and is better told to print at actual size. */
export const RULER_SHRUNK_MM = 99;

/** What makes a ruler that came out too short or too long come out as 100 mm, and moves the print as asked. */
export function correctionFor(measured: Measured | null): Correction {
  if (measured === null) return NO_CORRECTION;
  return {
    scaleAcross: RULER_MM / measured.rulerAcrossMm,
    scaleDown: RULER_MM / measured.rulerDownMm,
    shiftAcrossMm: measured.shiftAcrossMm,
    shiftDownMm: measured.shiftDownMm,
  };
}

/** Where a point drawn at `xMm`, `yMm` has to be printed. */
export function corrected(
  correction: Correction,
  at: { readonly xMm: number; readonly yMm: number },
): { readonly xMm: number; readonly yMm: number } {
  return {
    xMm: at.xMm * correction.scaleAcross + correction.shiftAcrossMm,
    yMm: at.yMm * correction.scaleDown + correction.shiftDownMm,
  };
}
