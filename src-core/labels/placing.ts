import type { LayoutMeasures } from './layout.ts';
import { placesOnPage } from './layout.ts';

/** Whether places are counted row by row, or column by column. */
export type FillingOrder = 'across' | 'down';

/** A place by where it is on its sheet, counted from 1: it stays the same one whichever way places are counted. */
export interface Cell {
  readonly row: number;
  readonly column: number;
}

/** A place of a sheet: its number from 1 in the order of filling, and its upper left corner on the paper. */
export interface Place extends Cell {
  readonly place: number;
  readonly xMm: number;
  readonly yMm: number;
}

/** How a sheet that was begun is gone on with. */
export interface Filling {
  readonly filled: FillingOrder;
  /** The first place that gets a label, in that order; places before it stay free of any. */
  readonly startAt: number;
  /** Places that have no label on them any more. */
  readonly taken: readonly Cell[];
}

/** All places of one sheet, in the order they are filled. */
export function placesOf(measures: LayoutMeasures, filled: FillingOrder): Place[] {
  const { columns, rows, leftMm, topMm, labelWidthMm, labelHeightMm, gapAcrossMm, gapDownMm } = measures;
  return Array.from({ length: placesOnPage(measures) }, (_, index) => {
    const column = filled === 'across' ? index % columns : Math.floor(index / rows);
    const row = filled === 'across' ? Math.floor(index / columns) : index % rows;
    return {
      ...{ place: index + 1, row: row + 1, column: column + 1 },
      xMm: leftMm + column * (labelWidthMm + gapAcrossMm),
      yMm: topMm + row * (labelHeightMm + gapDownMm),
    };
  });
}

/** The number of a place in an order of filling; null when the sheet has no such place. */
export function placeOfCell(
  { columns, rows }: Pick<LayoutMeasures, 'columns' | 'rows'>,
  filled: FillingOrder,
  { row, column }: Cell,
): number | null {
  if (row > rows || column > columns) return null;
  return filled === 'across' ? (row - 1) * columns + column : (column - 1) * rows + row;
}

/** The first place that is free; null when all are taken. */
export function firstFree(
  measures: LayoutMeasures,
  filled: FillingOrder,
  taken: readonly Cell[],
): number | null {
  const gone = takenPlaces(measures, { filled, taken });
  return placesOf(measures, filled).find(({ place }) => !gone.has(place))?.place ?? null;
}

/** Where the labels of an order go, one after another. */
export interface SheetRun {
  /** Where the nth label goes, counted from 0. */
  at(nth: number): { readonly page: number; readonly place: number };
  /** How many sheets so many labels take, and the last place used on the last of them (0 when there are none). */
  sheetsFor(labels: number): { readonly pages: number; readonly usedUpTo: number };
  /** The places without a label on the sheet that is left over; none when it is used up, for then a new one is taken. */
  takenAfter(labels: number): readonly Cell[];
}

/**
 * Goes on with a sheet from a place on: taken places are passed over on the first sheet, later sheets are whole. Where nothing
 * is free from there on, a new sheet is begun.
 */
export function runOfSheets(measures: LayoutMeasures, filling: Filling): SheetRun {
  const { filled, startAt, taken } = filling;
  const gone = takenPlaces(measures, filling);
  const places = placesOf(measures, filled);
  const left = places.filter(({ place }) => place >= startAt && !gone.has(place));
  const first = left.length > 0 ? left : places;
  const at = (nth: number): { readonly page: number; readonly place: number } => {
    const onFirst = first[nth];
    if (onFirst !== undefined) return { page: 1, place: onFirst.place };
    const beyond = nth - first.length;
    return { page: Math.floor(beyond / places.length) + 2, place: (beyond % places.length) + 1 };
  };
  const sheetsFor = (labels: number): { readonly pages: number; readonly usedUpTo: number } => {
    if (labels === 0) return { pages: 0, usedUpTo: 0 };
    const last = at(labels - 1);
    return { pages: last.page, usedUpTo: last.place };
  };
  return {
    at,
    sheetsFor,
    takenAfter(labels) {
      if (labels === 0) return taken;
      const { pages, usedUpTo } = sheetsFor(labels);
      const before = (place: number): boolean => left.length > 0 && (place < startAt || gone.has(place));
      const used = places.filter(({ place }) => place <= usedUpTo || (pages === 1 && before(place)));
      return used.length === places.length ? [] : used.map(({ row, column }) => ({ row, column }));
    },
  };
}

function takenPlaces(
  measures: LayoutMeasures,
  { filled, taken }: Pick<Filling, 'filled' | 'taken'>,
): ReadonlySet<number> {
  return new Set(taken.flatMap((cell) => placeOfCell(measures, filled, cell) ?? []));
}

/** What makes a sheet the one it is: its paper and its grid. Measured a little better, it still is the same. */
export type SheetKind = Pick<
  LayoutMeasures,
  'shape' | 'paper' | 'pageWidthMm' | 'pageHeightMm' | 'columns' | 'rows'
>;

export function sheetKind({ shape, paper, pageWidthMm, pageHeightMm, columns, rows }: SheetKind): SheetKind {
  return { shape, paper, pageWidthMm, pageHeightMm, columns, rows };
}

export function isSameSheet(a: SheetKind, b: SheetKind): boolean {
  return JSON.stringify(sheetKind(a)) === JSON.stringify(sheetKind(b));
}
