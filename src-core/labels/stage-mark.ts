import type { FilledStage } from '../ledger/stage.ts';
import { fitText } from './fit-text.ts';
import { BASELINE, CAPITALS, rectangle, type Ink } from './ink.ts';
import { stagePattern } from './stage-pattern.ts';
import { STAGE_LETTERS } from './stage-letters.ts';
import { POINT_MM, type Typesetter } from './typesetter.ts';

/** Between the mark and the name beside it. */
export const MARK_GAP_MM = 1.4;

const FRAME_MM = 0.5;
/** The letter in a mark of 7.4 mm is of 11 pt, and grows with it. */
const LETTER_PT_PER_MM = 11 / 7.4;
const LETTER_LEAST_PT = 10.5;
/** From the top of a line to the middle of its capitals, as a part of the size. */
const MIDDLE = BASELINE - CAPITALS / 2;
/** The pattern shows in a band this wide within the frame; the middle is left to the letter. */
const BAND = 0.19;

/** The stage as on the shelf, in black: its pattern within a frame, and its letter in the middle. */
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
  const band = sizeMm * BAND;
  const pattern = stagePattern(stage, xMm, yMm, sizeMm);
  const inner = sizeMm - 2 * band;
  // The letter stands on bare paper, so the pattern is drawn round about it: above, below, left and right.
  const bands = [
    { xMm, yMm, widthMm: sizeMm, heightMm: band },
    { xMm, yMm: yMm + sizeMm - band, widthMm: sizeMm, heightMm: band },
    { xMm, yMm: yMm + band, widthMm: band, heightMm: inner },
    { xMm: xMm + sizeMm - band, yMm: yMm + band, widthMm: band, heightMm: inner },
  ];
  for (const within of bands) ink.figure({ ...pattern, within });
  const letterPt = Math.max(LETTER_LEAST_PT, sizeMm * LETTER_PT_PER_MM);
  const give = { bold: true, sizesPt: [letterPt], linesMax: 1, mayCut: false };
  const letter = fitText(type, STAGE_LETTERS[stage], [sizeMm], give);
  const [line] = letter?.lines ?? [];
  if (line !== undefined)
    ink.line(
      line,
      { xMm, topMm: yMm + sizeMm / 2 - letterPt * POINT_MM * MIDDLE, widthMm: sizeMm },
      'middle',
    );
}
