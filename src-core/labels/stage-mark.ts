import type { FilledStage } from '../ledger/stage.ts';
import { fitText } from './fit-text.ts';
import { rectangle, type Ink } from './ink.ts';
import { STAGE_LETTERS } from './stage-letters.ts';
import type { Typesetter } from './typesetter.ts';

/** Between the mark and the name beside it. */
export const MARK_GAP_MM = 1.4;

const FRAME_MM = 0.5;

/** The letter of the stage in a frame, as on the shelf: in black alone the letter tells the stage. */
export function drawMark(
  ink: Ink,
  type: Typesetter,
  stage: FilledStage,
  at: { readonly xMm: number; readonly yMm: number; readonly sizeMm: number },
): void {
  const half = FRAME_MM / 2;
  const { xMm, yMm, sizeMm } = at;
  ink.figure({
    d: rectangle(xMm + half, yMm + half, sizeMm - FRAME_MM, sizeMm - FRAME_MM),
    ...{ weightMm: FRAME_MM, within: null },
  });
  const give = { bold: true, sizesPt: [13], linesMax: 1, mayCut: false };
  const letter = fitText(type, STAGE_LETTERS[stage], [sizeMm], give);
  const [line] = letter?.lines ?? [];
  if (line !== undefined) ink.line(line, { xMm, topMm: yMm + (sizeMm - 5.6) / 2, widthMm: sizeMm }, 'middle');
}
