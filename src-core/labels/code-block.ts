import type { LabelTools } from './attempt.ts';
import type { Fitted } from './fit-text.ts';
import { fitText } from './fit-text.ts';
import { BASELINE, CAPITALS, lineMm, type Ink } from './ink.ts';
import { rowBlock, SMALLEST_PT, wordColumnMm } from './label-block.ts';
import { QUIET_MODULES } from './label-code.ts';
import type { LabelContent } from './label-content.ts';
import type { LabelRoom } from './label-room.ts';
import type { Manner } from './manner.ts';
import { dotsMm } from './printer-dots.ts';
import { fitWithin, heightOf, setLines } from './set-lines.ts';
import { POINT_MM, type Typesetter } from './typesetter.ts';

/** Between the parts of a label. */
export const GAP_MM = 0.6;

/** The id may be so much wider than the code it stands under, as a part of it, before it is set narrow. */
const ID_OVER = 0.2;
/** How much smaller it is set before it is given more width. */
const ID_SMALLER = 0.93;

/** The square with the id under it: its quiet zone of four modules is kept free on every side. */
export function codeBlock(
  content: LabelContent,
  manner: Manner,
  room: LabelRoom,
  { type, makeCode }: LabelTools,
) {
  if (manner.code === 'none') return null;
  const { idPt } = manner;
  const rows = makeCode(content.code);
  const moduleMm = dotsMm(manner.moduleDots);
  const sideMm = rows.length * moduleMm;
  const quietMm = QUIET_MODULES * moduleMm;
  const id = idUnder(type, content.id, sideMm, room.widthMm / 3, idPt);
  const widthMm = Math.max(sideMm, id.lines[0]?.widthMm ?? 0);
  // What is free within a line above its capitals belongs to the quiet zone.
  const above = (BASELINE - CAPITALS) * idPt * POINT_MM;
  const heightMm = sideMm + quietMm - above + lineMm(idPt);
  return {
    ...{ moduleMm, modules: rows.length, heightMm, takenMm: widthMm + quietMm, idCut: id.cut },
    // Over it the quiet zone reaches up to the rule under the head.
    underHeadMm: heightMm + quietMm - GAP_MM,
    draw(ink: Ink, topMm: number, rightMm: number): void {
      const yMm = topMm + (manner.code === 'beside' ? 0 : quietMm);
      ink.code({
        text: content.code,
        xMm: rightMm - widthMm / 2 - sideMm / 2,
        yMm,
        moduleMm,
        rows: [...rows],
      });
      setLines(ink, id, rightMm - widthMm, yMm + sideMm + quietMm - above, widthMm, 'middle');
    },
  };
}

/** Hardly wider than the code where it can be, so that labels with longer and shorter ids look alike; else as wide as it needs. */
function idUnder(type: Typesetter, id: string, sideMm: number, mostMm: number, idPt: number): Fitted {
  const sizesPt = [idPt, Math.max(SMALLEST_PT, idPt * ID_SMALLER)];
  const give = { bold: true, sizesPt, linesMax: 1, mayCut: false };
  return (
    fitText(type, id, [Math.min(sideMm * (1 + ID_OVER), mostMm)], give) ??
    fitWithin(type, id, Math.max(sideMm, mostMm), true, sizesPt, 1)
  );
}

/** The id where there is no code: at the end of the line of the day it was started, or on a line of its own. */
export function idBlock(content: LabelContent, widthMm: number, manner: Manner, { type }: LabelTools) {
  const { idPt, rowPt, startedPt } = manner;
  const fit = fitWithin(type, content.id, widthMm, true, [idPt, SMALLEST_PT], 1);
  const besideMm = (fit.lines[0]?.widthMm ?? 0) + GAP_MM * 2;
  const started = content.rows.find(({ part }) => part === 'started');
  const wordMm = wordColumnMm(type, content.rows, rowPt);
  const column = { widthMm: widthMm - besideMm, wordMm };
  const isBeside = started !== undefined && rowBlock(type, started, column, { rowPt, startedPt }) !== null;
  const lower = (startedPt - idPt) * POINT_MM * BASELINE;
  return {
    ...{ heightMm: isBeside ? 0 : heightOf(fit), besideMm: isBeside ? besideMm : 0, cut: fit.cut },
    draw: (ink: Ink, xMm: number, topMm: number): void => {
      setLines(ink, fit, xMm, topMm + (isBeside ? lower : 0), widthMm, isBeside ? 'right' : 'start');
    },
  };
}
