import { NO_CORRECTION, type Correction } from './calibration.ts';
import type { CodeSquare } from './drawing.ts';

/**
 * What a code's modules are counted in: the dots of a printer of 300 dpi, the coarsest in use for labels; one of 600 dpi puts two
 * of its dots in each. Modules of whole dots come out all alike (ISO/IEC 18004 asks for the same width of every module).
 */
export const PRINTER_DPI = 300;

/** So many dots, mm. */
export function dotsMm(dots: number): number {
  return (dots * 25.4) / PRINTER_DPI;
}

/** How many whole dots come nearest to a length, mm. */
export function nearestDots(lengthMm: number): number {
  return Math.round((lengthMm * PRINTER_DPI) / 25.4);
}

/**
 * The code of a label at a place of the page, moved by less than a dot so that its modules begin on whole dots of the paper, where
 * a correction moves it as well. One that stretches is for a printer that shrinks pages: after it they are whole dots again.
 */
export function codeOnDots(
  code: CodeSquare,
  place: { readonly xMm: number; readonly yMm: number },
  { scaleAcross, scaleDown, shiftAcrossMm, shiftDownMm }: Correction = NO_CORRECTION,
): CodeSquare {
  const snapped = (ownMm: number, placeMm: number): number => dotsMm(nearestDots(ownMm + placeMm)) - placeMm;
  return {
    ...code,
    xMm: snapped(code.xMm, place.xMm + shiftAcrossMm / scaleAcross),
    yMm: snapped(code.yMm, place.yMm + shiftDownMm / scaleDown),
  };
}
