import { roundedText } from '../quantities/round.ts';

/**
 * A number as it is written in a line of working: so many decimals, or five significant digits where none are said, without
 * noughts at the end.
 */
export function figure(value: number, decimals?: number): string {
  const size = Math.abs(value);
  const wanted = decimals ?? (size === 0 ? 0 : Math.max(0, Math.min(9, 4 - Math.floor(Math.log10(size)))));
  const text = roundedText(value, wanted);
  return wanted > 0 ? text.replace(/\.?0+$/u, '') : text;
}

/** A specific gravity in a line of working, with the five decimals that the formulas keep. */
export function gravityFigure(value: number): string {
  return roundedText(value, Math.abs(value * 1000 - Math.round(value * 1000)) < 1e-6 ? 3 : 5);
}

/** Something taken off in a line of working; a negative amount is put on instead of taken off twice. */
export function lessFigure(value: number): string {
  return value < 0 ? `+ ${figure(-value)}` : `− ${figure(value)}`;
}
