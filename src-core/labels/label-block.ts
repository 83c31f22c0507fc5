import { fitText, type Fitted } from './fit-text.ts';
import { BASELINE, lineMm, type Ink } from './ink.ts';
import type { ContentRow } from './label-content.ts';
import type { LabelPart } from './label-part.ts';
import { fitWithin, heightOf, setLines } from './set-lines.ts';
import { POINT_MM, type Typesetter } from './typesetter.ts';

/** One part of a label, fitted into the width of its column: how high it is, what had to give, and how it is drawn. */
export interface LabelBlock {
  readonly part: LabelPart;
  readonly heightMm: number;
  /** What was fitted, for what there is to say of it. */
  readonly fits: readonly Fitted[];
  draw(ink: Ink, xMm: number, topMm: number): void;
}

/** A column that rows stand in: its width, and how much of it the words in front take. */
export interface Column {
  readonly widthMm: number;
  readonly wordMm: number;
}

/** The type of rows, and of the day it was started, which stands out. */
export interface RowSizes {
  readonly rowPt: number;
  readonly startedPt: number;
}

/** Smallest type: 6.5 pt (design, section 5.4). */
export const SMALLEST_PT = 6.5;
/** Words in front of rows, and the day beside another, are set a little smaller than the rows. */
const WORD_SMALLER = 0.93;
/** A row that has no room is set so much smaller before it is said shorter. */
const ROW_SMALLER = 0.867;
const WORD_MM = 10;
const WORD_GAP_MM = 1.2;
/** The size of rows that these widths are for; larger ones take more. */
const WORD_MM_FOR_PT = 7.5;
/** Ruled lines for the pen are so far apart. */
const BLANK_LINE_MM = 6;

/** How wide the words in front of the rows are: as the widest of them. */
export function wordColumnMm(type: Typesetter, rows: readonly ContentRow[], rowPt: number): number {
  const widths = rows.map(({ word }) => wordOf(type, word, rowPt).lines[0]?.widthMm ?? 0);
  const larger = Math.max(1, rowPt / WORD_MM_FOR_PT);
  return Math.max(WORD_MM * larger, ...widths) + WORD_GAP_MM * larger;
}

function wordOf(type: Typesetter, word: string, rowPt: number): Fitted {
  return fitWithin(type, word, 40, false, [wordPt(rowPt)], 1);
}

function wordPt(rowPt: number): number {
  return Math.max(SMALLEST_PT, Math.round(rowPt * WORD_SMALLER * 4) / 4);
}

/**
 * A row: a word in front, and what it tells. Where it is too long it is said shorter before it is cut. Null for what may not be
 * cut and has no room.
 */
export function rowBlock(
  type: Typesetter,
  row: ContentRow,
  column: Column,
  { rowPt, startedPt }: RowSizes,
): LabelBlock | null {
  const isStart = row.part === 'started';
  const sizes = isStart ? [startedPt] : [rowPt, Math.max(SMALLEST_PT, rowPt * ROW_SMALLER)];
  const room = column.widthMm - column.wordMm;
  const word = wordOf(type, row.word, rowPt);
  const value = sayFitting(type, row, room, sizes, isStart);
  if (value === null) return null;
  return {
    part: row.part,
    heightMm: heightOf(value),
    fits: [value],
    draw(ink, xMm, topMm) {
      const [wordLine] = word.lines;
      const lower = baselineMm(value.lines[0]?.sizePt ?? 0) - baselineMm(wordLine?.sizePt ?? 0);
      // Both stand on one baseline, though one is set larger than the other.
      if (wordLine !== undefined)
        ink.line(wordLine, { xMm, topMm: topMm + lower, widthMm: column.wordMm }, 'left');
      setLines(ink, value, xMm + column.wordMm, topMm, room);
    },
  };
}

const baselineMm = (sizePt: number): number => sizePt * POINT_MM * BASELINE;

function sayFitting(
  type: Typesetter,
  row: ContentRow,
  roomMm: number,
  sizesPt: readonly number[],
  bold: boolean,
): Fitted | null {
  const give = { bold, sizesPt, linesMax: row.linesMax, mayCut: false };
  for (const [at, text] of [row.value, ...row.shorter].entries()) {
    const fit = fitText(type, text, [roomMm], give);
    if (fit !== null) return at === 0 ? fit : { ...fit, cut: true };
  }
  if (!row.mayCut) return null;
  return fitWithin(type, row.shorter.at(-1) ?? row.value, roomMm, bold, sizesPt, row.linesMax);
}

/**
 * The day of the batch behind the day it was started, on one line; null where it has no room there. It is drawn where the row
 * before it stands.
 */
export function besideStarted(
  type: Typesetter,
  started: ContentRow,
  batch: ContentRow,
  column: Column,
  { rowPt, startedPt }: RowSizes,
): LabelBlock | null {
  const day = fitText(type, started.value, [column.widthMm], {
    ...{ bold: true, sizesPt: [startedPt], linesMax: 1, mayCut: false },
  });
  const dayMm = day?.lines[0]?.widthMm ?? column.widthMm;
  const fromMm = column.wordMm + dayMm + 2 * WORD_GAP_MM;
  const fit = fitText(type, `${batch.word}\u00A0${batch.value}`, [column.widthMm - fromMm], {
    ...{ bold: false, sizesPt: [wordPt(rowPt), SMALLEST_PT], linesMax: 1, mayCut: false },
  });
  if (fit === null) return null;
  return {
    ...{ part: batch.part, heightMm: 0, fits: [] },
    draw(ink, xMm, topMm) {
      const rowTop = topMm - lineMm(startedPt);
      const lower = baselineMm(startedPt) - baselineMm(fit.lines[0]?.sizePt ?? 0);
      setLines(ink, fit, xMm + fromMm, rowTop + lower, column.widthMm - fromMm);
    },
  };
}

/** A line of the keeper's own. */
export function freeLineBlock(type: Typesetter, text: string, widthMm: number, rowPt: number): LabelBlock {
  const fit = fitWithin(type, text, widthMm, false, [rowPt, SMALLEST_PT], 2);
  return {
    ...{ part: 'freeLine', heightMm: heightOf(fit), fits: [fit] },
    draw: (ink, xMm, topMm) => {
      setLines(ink, fit, xMm, topMm, widthMm);
    },
  };
}

/** Ruled lines for the pen. */
export function blankLinesBlock(count: number, widthMm: number): LabelBlock {
  return {
    ...{ part: 'blankLines', heightMm: count * BLANK_LINE_MM, fits: [] },
    draw(ink, xMm, topMm) {
      for (let line = 1; line <= count; line += 1) {
        const yMm = topMm + line * BLANK_LINE_MM - 0.6;
        ink.rule({ x1Mm: xMm, y1Mm: yMm, x2Mm: xMm + widthMm, y2Mm: yMm });
      }
    },
  };
}
