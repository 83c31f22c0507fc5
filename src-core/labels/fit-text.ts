import { POINT_MM, type SetLine, type TextStyle, type Typesetter } from './typesetter.ts';

/** A line that fits, in the style and size it came to. */
export interface FittedLine {
  readonly set: SetLine;
  readonly style: TextStyle;
  readonly sizePt: number;
  readonly widthMm: number;
}

export interface Fitted {
  readonly lines: readonly FittedLine[];
  readonly narrowed: boolean;
  readonly madeSmaller: boolean;
  readonly cut: boolean;
  readonly missing: readonly string[];
}

/** How a text may give way to its room, in this order: narrower, smaller, more lines, cut. */
export interface Give {
  readonly bold: boolean;
  /** Sizes to try, the largest first. */
  readonly sizesPt: readonly number[];
  readonly linesMax: number;
  /** False for what may not be shortened: then nothing is given back where it does not fit. */
  readonly mayCut: boolean;
}

export const ELLIPSIS = '\u2026';

/** Room of each line, mm, from the first: a disc has other widths at other heights. Beyond its end the last one counts. */
export type RoomMm = readonly number[];

/**
 * Fits a text into its room: set narrow, then smaller, then over more lines, and only then cut with … between whole
 * characters as a reader counts them. Null when it may not be cut and does not fit.
 */
export function fitText(type: Typesetter, text: string, roomMm: RoomMm, give: Give): Fitted | null {
  const [full = 0] = give.sizesPt;
  for (let lines = 1; lines <= give.linesMax; lines += 1) {
    for (const sizePt of give.sizesPt) {
      for (const narrow of [false, true]) {
        const style = { narrow, bold: give.bold };
        const broken = breakInto(type, text, roomMm, style, sizePt, lines);
        if (broken !== null) return fitted(broken, sizePt < full, false);
      }
    }
  }
  if (!give.mayCut) return null;
  const sizePt = give.sizesPt.at(-1) ?? 0;
  return fitted(
    cutInto(type, text, roomMm, { narrow: true, bold: give.bold }, sizePt, give.linesMax),
    sizePt < full,
    true,
  );
}

function fitted(lines: readonly FittedLine[], madeSmaller: boolean, cut: boolean): Fitted {
  return {
    ...{ lines, madeSmaller, cut, narrowed: lines.some(({ style }) => style.narrow) },
    missing: lines.flatMap(({ set }) => set.missing),
  };
}

const roomAt = (roomMm: RoomMm, line: number): number => roomMm[line] ?? roomMm.at(-1) ?? 0;

function setAt(type: Typesetter, text: string, style: TextStyle, sizePt: number): FittedLine {
  const set = type.line(text, style);
  return { set, style, sizePt, widthMm: set.widthEm * sizePt * POINT_MM };
}

/** Words laid into lines one after another; null when they need more lines, or a word is wider than its line. */
function breakInto(
  type: Typesetter,
  text: string,
  roomMm: RoomMm,
  style: TextStyle,
  sizePt: number,
  linesMax: number,
): readonly FittedLine[] | null {
  const { words, widthEm } = wordsOf(type, text, style);
  const ends: number[] = [];
  const fits = (from: number, to: number): boolean =>
    widthEm(from, to) * sizePt * POINT_MM <= roomAt(roomMm, ends.length);
  let from = 0;
  for (let to = 1; to <= words.length; to += 1) {
    if (fits(from, to)) continue;
    if (to - 1 === from) return null;
    ends.push(to - 1);
    if (ends.length === linesMax) return null;
    from = to - 1;
    if (!fits(from, to)) return null;
  }
  return [...ends, words.length].map((end, line) =>
    setAt(type, words.slice(ends[line - 1] ?? 0, end).join(' '), style, sizePt),
  );
}

/** A text in words, and how wide any run of them is. */
interface Words {
  readonly words: readonly string[];
  readonly widthEm: (from: number, to: number) => number;
}

const TEXTS_KEPT_MOST = 400;
const wordsBy = new WeakMap<Typesetter, Map<string, Map<string, Words>>>();

/**
 * The same text is tried at many widths and sizes: what its words measure is remembered for a while, which changes no answer,
 * since a typesetter always sets a text alike.
 */
function wordsOf(type: Typesetter, text: string, style: TextStyle): Words {
  const known = wordsBy.get(type) ?? new Map<string, Map<string, Words>>();
  wordsBy.set(type, known);
  const styled = `${style.narrow ? 'narrow' : 'wide'} ${style.bold ? 'bold' : 'regular'}`;
  const ofStyle = known.get(styled) ?? new Map<string, Words>();
  known.set(styled, ofStyle);
  const before = ofStyle.get(text);
  if (before !== undefined) return before;
  const words = text.split(' ');
  const widths = new Map<number, number>();
  const measured: Words = {
    words,
    widthEm: (from, to) => {
      const key = from * (words.length + 1) + to;
      const width = widths.get(key) ?? type.line(words.slice(from, to).join(' '), style).widthEm;
      widths.set(key, width);
      return width;
    },
  };
  if (ofStyle.size >= TEXTS_KEPT_MOST) ofStyle.clear();
  ofStyle.set(text, measured);
  return measured;
}

/** As many whole characters as the lines hold, and … */
function cutInto(
  type: Typesetter,
  text: string,
  roomMm: RoomMm,
  style: TextStyle,
  sizePt: number,
  linesMax: number,
): readonly FittedLine[] {
  const lines: FittedLine[] = [];
  let rest = graphemes(text);
  while (lines.length < linesMax - 1 && rest.length > 0) {
    const took = takeLine(type, rest, roomAt(roomMm, lines.length), style, sizePt);
    if (took === 0) break;
    lines.push(setAt(type, rest.slice(0, took).join('').trim(), style, sizePt));
    rest = rest.slice(took);
    while (rest[0] === ' ') rest = rest.slice(1);
  }
  const room = roomAt(roomMm, lines.length);
  const fits = (count: number): boolean =>
    setAt(type, `${rest.slice(0, count).join('').trimEnd()}${ELLIPSIS}`, style, sizePt).widthMm <= room;
  const kept = largest(rest.length, fits);
  lines.push(setAt(type, `${rest.slice(0, kept).join('').trimEnd()}${ELLIPSIS}`, style, sizePt));
  return lines;
}

/** How many characters one line takes: up to the last space where there is one in its second half, else up to its edge. */
function takeLine(
  type: Typesetter,
  rest: readonly string[],
  room: number,
  style: TextStyle,
  sizePt: number,
): number {
  const most = largest(
    rest.length,
    (n) => setAt(type, rest.slice(0, n).join(''), style, sizePt).widthMm <= room,
  );
  if (most === rest.length) return most;
  const space = rest.slice(0, most + 1).lastIndexOf(' ');
  return space > most / 2 ? space : most;
}

/** The largest count that fits, given that every smaller one does; a set line never shrinks much when it grows by a character. */
function largest(count: number, fits: (n: number) => boolean): number {
  let low = 0;
  let high = count;
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    if (fits(middle)) low = middle;
    else high = middle - 1;
  }
  return low;
}

const segmenter = new Intl.Segmenter('und', { granularity: 'grapheme' });

/** The characters of a text as a reader counts them: an emoji of several code points is one, and so is a letter with its accents. */
export function graphemes(text: string): readonly string[] {
  return [...segmenter.segment(text)].map(({ segment }) => segment);
}
