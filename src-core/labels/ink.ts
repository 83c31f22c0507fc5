import type { CodeSquare, Figure, LabelDrawing, Rule, TextRun } from './drawing.ts';
import type { FittedLine } from './fit-text.ts';
import { POINT_MM } from './typesetter.ts';

/** How much higher than its type a line is, and where in it the baseline lies, as parts of the size. */
const LINE = 1.16;
export const BASELINE = 0.9;
/** How high capitals are, as a part of the size (Archivo). */
export const CAPITALS = 0.69;

/** No line on a label is thinner (design: rules from 0.3 mm on). */
export const RULE_MM = 0.3;

/** How high a line of type is, mm. */
export function lineMm(sizePt: number): number {
  return sizePt * POINT_MM * LINE;
}

/** Collects the marks of one label. */
export interface Ink {
  /** Puts a fitted line with its upper edge at `topMm`. In a room wider than the line it stands at its left, middle or right. */
  line(line: FittedLine, room: Room, align: Align): void;
  rule(rule: Omit<Rule, 'weightMm'> & { readonly weightMm?: number }): void;
  figure(figure: Figure): void;
  code(code: CodeSquare): void;
  readonly drawing: LabelDrawing;
  readonly smallestPt: () => number;
}

export interface Room {
  readonly xMm: number;
  readonly topMm: number;
  readonly widthMm: number;
}

/** `start` is where a reader of that line begins: at the right for one read from right to left. */
export type Align = 'start' | 'left' | 'middle' | 'right';

export function newInk(): Ink {
  const texts: TextRun[] = [];
  const rules: Rule[] = [];
  const figures: Figure[] = [];
  const drawing: LabelDrawing = { texts, rules, figures, code: null };
  return {
    drawing,
    smallestPt: () => (texts.length === 0 ? 0 : Math.min(...texts.map(({ sizePt }) => sizePt))),
    line({ set, sizePt, widthMm }, room, align) {
      const em = sizePt * POINT_MM;
      const free = room.widthMm - widthMm;
      const side = align === 'start' ? (set.rightToLeft ? 'right' : 'left') : align;
      const x = room.xMm + (side === 'left' ? 0 : side === 'right' ? free : free / 2);
      const y = room.topMm + em * BASELINE;
      for (const { text, font, bold, xEm, widthEm, direction } of set.runs) {
        texts.push({
          ...{ text, font, bold, sizePt, direction },
          ...{ xMm: x + xEm * em, yMm: y, widthMm: widthEm * em },
        });
      }
      for (const box of set.boxes) figures.push(emptyBox(x + box.xEm * em, y, box.widthEm * em, em));
    },
    rule: ({ weightMm = RULE_MM, ...ends }) => {
      rules.push({ ...ends, weightMm });
    },
    figure: (figure) => {
      figures.push(figure);
    },
    code: (code) => {
      drawing.code = code;
    },
  };
}

/** Stands for a character that no font has. */
function emptyBox(x: number, baseline: number, width: number, em: number): Figure {
  const side = Math.min(width * 0.8, em * 0.6);
  return {
    d: rectangle(x + width * 0.1, baseline - em * 0.65, side, em * 0.65),
    weightMm: 0.2,
    within: null,
  };
}

/** Path data of a rectangle, mm. */
export function rectangle(x: number, y: number, width: number, height: number): string {
  return `M${mm(x)} ${mm(y)}H${mm(x + width)}V${mm(y + height)}H${mm(x)}Z`;
}

/** A length as it stands in path data: to a hundredth of a micrometre nobody prints. */
export function mm(length: number): string {
  return String(Math.round(length * 1000) / 1000);
}
