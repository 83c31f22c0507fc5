import type { LayoutMeasures } from './layout.ts';
import { placesOnPage } from './layout.ts';

/** Whether places are counted row by row, or column by column. */
export type FillingOrder = 'across' | 'down';

/** A place of a sheet: its number from 1 in the order of filling, and its upper left corner on the paper. */
export interface Place {
  readonly place: number;
  readonly xMm: number;
  readonly yMm: number;
}

/** All places of one sheet, in the order they are filled. */
export function placesOf(measures: LayoutMeasures, filled: FillingOrder): Place[] {
  const { columns, rows, leftMm, topMm, labelWidthMm, labelHeightMm, gapAcrossMm, gapDownMm } = measures;
  return Array.from({ length: placesOnPage(measures) }, (_, index) => {
    const column = filled === 'across' ? index % columns : Math.floor(index / rows);
    const row = filled === 'across' ? Math.floor(index / columns) : index % rows;
    return {
      place: index + 1,
      xMm: leftMm + column * (labelWidthMm + gapAcrossMm),
      yMm: topMm + row * (labelHeightMm + gapDownMm),
    };
  });
}

/** Where the nth label goes, counted from 0, when the first goes to `startAt`. A start beyond the sheet begins a new one. */
export function pageAndPlace(
  measures: LayoutMeasures,
  startAt: number,
  nth: number,
): { readonly page: number; readonly place: number } {
  const places = placesOnPage(measures);
  const index = firstIndex(places, startAt) + nth;
  return { page: Math.floor(index / places) + 1, place: (index % places) + 1 };
}

/** How many sheets so many labels take, and the last place used on the last of them (0 when there are none). */
export function sheetsFor(
  measures: LayoutMeasures,
  startAt: number,
  labels: number,
): { readonly pages: number; readonly usedUpTo: number } {
  if (labels === 0) return { pages: 0, usedUpTo: 0 };
  const last = pageAndPlace(measures, startAt, labels - 1);
  return { pages: last.page, usedUpTo: last.place };
}

function firstIndex(places: number, startAt: number): number {
  return startAt > places ? 0 : startAt - 1;
}
