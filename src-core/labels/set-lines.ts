import { fitText, type Fitted } from './fit-text.ts';
import { lineMm, type Align, type Ink } from './ink.ts';
import type { Typesetter } from './typesetter.ts';

/** How high the lines are together, mm. */
export function heightOf(fit: Fitted): number {
  return fit.lines.reduce((sum, { sizePt }) => sum + lineMm(sizePt), 0);
}

/** A text in its room, cut where nothing else helps. */
export function fitWithin(
  type: Typesetter,
  text: string,
  widthMm: number,
  bold: boolean,
  sizesPt: readonly number[],
  linesMax: number,
): Fitted {
  const fit = fitText(type, text, [Math.max(0, widthMm)], { bold, sizesPt, linesMax, mayCut: true });
  if (fit === null) throw new Error('what may be cut always fits');
  return fit;
}

/** Puts lines one under another; returns where the next would stand. */
export function setLines(
  ink: Ink,
  fit: Fitted,
  xMm: number,
  topMm: number,
  widthMm: number,
  align: Align = 'start',
): number {
  let y = topMm;
  for (const line of fit.lines) {
    ink.line(line, { xMm, topMm: y, widthMm }, align);
    y += lineMm(line.sizePt);
  }
  return y;
}
