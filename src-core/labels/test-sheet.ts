import { RULER_MM } from './calibration.ts';
import type { LabelDrawing } from './drawing.ts';
import { fitText } from './fit-text.ts';
import { newInk, type Ink } from './ink.ts';
import { labelOutline } from './label-room.ts';
import type { LabelLayout } from './layout.ts';
import { placesOf } from './placing.ts';
import type { Typesetter } from './typesetter.ts';

const TICK_MM = 10;
const CROSS_MM = 4;
const THIN_MM = 0.2;

/** What stands on a test sheet beside its lines. */
export interface TestSheetWords {
  readonly title: string;
  readonly note: string;
}

/** One mark of the sheet and where on the paper its upper left corner is. */
export interface SheetMark {
  readonly drawing: LabelDrawing;
  readonly xMm: number;
  readonly yMm: number;
}

/**
 * The marks of a test sheet, to be printed on plain paper and held against a sheet of labels: the outline of every label, a
 * cross on the middle of those at the corners, and a ruler of 100 mm each way where the paper is large enough.
 */
export function testSheet(
  layout: LabelLayout,
  words: TestSheetWords,
  type: Typesetter,
): readonly SheetMark[] {
  const places = placesOf(layout, 'across');
  const outline = onlyFigure(labelOutline(layout));
  return [
    ...places.map(({ xMm, yMm }) => ({ drawing: outline, xMm, yMm })),
    ...cornerPlaces(layout).map((place) => {
      const at = places[place - 1] ?? { xMm: 0, yMm: 0 };
      const drawing = cross();
      return { drawing, xMm: at.xMm + layout.labelWidthMm / 2, yMm: at.yMm + layout.labelHeightMm / 2 };
    }),
    ...rulers(layout, type),
    { drawing: said(layout, words, type), ...{ xMm: 0, yMm: 0 } },
  ];
}

/** The numbers of the places at the corners, counted row by row; fewer than four on a sheet of one row or column. */
export function cornerPlaces({ columns, rows }: Pick<LabelLayout, 'columns' | 'rows'>): readonly number[] {
  const corners = [1, columns, (rows - 1) * columns + 1, rows * columns];
  return [...new Set(corners)];
}

/** How long a ruler can be on a paper of this length: whole centimetres up to 100 mm, away from its edges. */
export function rulerMm(paperMm: number): number {
  const room = Math.floor((paperMm - 2 * CROSS_MM) / TICK_MM) * TICK_MM;
  return Math.max(0, Math.min(RULER_MM, room));
}

function onlyFigure(d: string): LabelDrawing {
  return { texts: [], rules: [], code: null, figures: [{ d, weightMm: THIN_MM, within: null }] };
}

function cross(): LabelDrawing {
  const ink = newInk();
  ink.rule({ x1Mm: -CROSS_MM, y1Mm: 0, x2Mm: CROSS_MM, y2Mm: 0, weightMm: THIN_MM });
  ink.rule({ x1Mm: 0, y1Mm: -CROSS_MM, x2Mm: 0, y2Mm: CROSS_MM, weightMm: THIN_MM });
  return ink.drawing;
}

function rulers(layout: LabelLayout, type: Typesetter): SheetMark[] {
  const across = rulerMm(layout.pageWidthMm);
  const down = rulerMm(layout.pageHeightMm);
  const middle = { x: layout.pageWidthMm / 2, y: layout.pageHeightMm / 2 };
  return [
    { drawing: ruler(across, 'across', type), xMm: middle.x - across / 2, yMm: middle.y },
    { drawing: ruler(down, 'down', type), xMm: middle.x, yMm: middle.y - down / 2 },
  ].filter((_, index) => (index === 0 ? across : down) > 0);
}

function ruler(lengthMm: number, way: 'across' | 'down', type: Typesetter): LabelDrawing {
  const ink = newInk();
  const point = (along: number, beside: number) =>
    way === 'across' ? { x: along, y: beside } : { x: beside, y: along };
  const draw = (a: { x: number; y: number }, b: { x: number; y: number }): void => {
    ink.rule({ x1Mm: a.x, y1Mm: a.y, x2Mm: b.x, y2Mm: b.y, weightMm: THIN_MM });
  };
  draw(point(0, 0), point(lengthMm, 0));
  for (let at = 0; at <= lengthMm; at += TICK_MM) {
    const long = at === 0 || at === lengthMm ? 3 : 1.5;
    draw(point(at, -long), point(at, long));
  }
  const end = point(lengthMm, 3);
  write(ink, type, `${lengthMm} mm`, end.x - (way === 'across' ? 14 : 0), end.y + 0.5, 14);
  return ink.drawing;
}

function said(layout: LabelLayout, words: TestSheetWords, type: Typesetter): LabelDrawing {
  const ink = newInk();
  const width = layout.pageWidthMm - 2 * layout.leftMm - 8;
  const at = { x: layout.leftMm + 4, y: layout.topMm + 4 };
  write(ink, type, words.title, at.x, at.y, width);
  if (layout.labelHeightMm > 14) write(ink, type, words.note, at.x, at.y + 4, width);
  return ink.drawing;
}

function write(ink: Ink, type: Typesetter, text: string, xMm: number, topMm: number, widthMm: number): void {
  const give = { bold: false, sizesPt: [8, 6.5], linesMax: 1, mayCut: true };
  for (const line of fitText(type, text, [widthMm], give)?.lines ?? []) {
    ink.line(line, { xMm, topMm, widthMm }, 'left');
  }
}
