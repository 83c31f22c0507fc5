import type { Calibration } from '#core/contract/labels.ts';

/** The length of the ruler on the test sheet, as it is drawn. */
const RULER_MM = 100;

/**
 * What a printer's calibration does to a page, as an SVG transform: stretched from the upper left corner so that the ruler
 * comes out as 100 mm, then shifted.
 */
export function correctionMatrix(calibration: Calibration | null): string | undefined {
  if (calibration === null) return undefined;
  const { shiftAcrossMm, shiftDownMm, rulerAcrossMm, rulerDownMm } = calibration;
  const numbers = [RULER_MM / rulerAcrossMm, 0, 0, RULER_MM / rulerDownMm, shiftAcrossMm, shiftDownMm];
  return `matrix(${numbers.join(' ')})`;
}
