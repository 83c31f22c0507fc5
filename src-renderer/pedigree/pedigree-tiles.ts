import type { Drawing } from './pedigree-drawing.ts';

/**
 * What a sheet of paper holds of a drawing, in its units. A unit is 0.22 mm on paper, so that its smallest words are
 * 7.5 pt; a sheet's part is then 172 × 220 mm, which A4 and Letter both have between their margins.
 */
export const SHEET = { width: 780, height: 1000, overlap: 60, mmPerUnit: 0.2205 } as const;
/** So much wider or higher a drawing may be and is still drawn on one sheet, a little smaller. */
const SHRINKS_BY = 1.15;

export interface Tile {
  /** Counted from 1, row after row. */
  readonly number: number;
  readonly x: number;
  readonly y: number;
  /** Where the sheet before it, to the left or above, ends on this one; null where none does. */
  readonly joinsLeftAt: number | null;
  readonly joinsAboveAt: number | null;
}

export interface Tiling {
  readonly tiles: readonly Tile[];
  readonly columns: number;
  readonly rows: number;
  /** What each sheet holds; no higher or wider than the drawing itself. */
  readonly width: number;
  readonly height: number;
  /** Marks that stand on two sheets at the same place of the drawing: laid over each other they join the sheets. */
  readonly marks: readonly { readonly x: number; readonly y: number }[];
}

/** How a drawing lies on sheets that overlap; null when one sheet holds it. */
export function tilePedigree({ width, height }: Pick<Drawing, 'width' | 'height'>): Tiling | null {
  if (width <= SHEET.width * SHRINKS_BY && height <= SHEET.height * SHRINKS_BY) return null;
  const columns = sheetsFor(width, SHEET.width);
  const rows = sheetsFor(height, SHEET.height);
  const sheet = { width: Math.min(width, SHEET.width), height: Math.min(height, SHEET.height) };
  const [stepX, stepY] = [SHEET.width - SHEET.overlap, SHEET.height - SHEET.overlap];
  const tiles = Array.from({ length: columns * rows }, (_, index): Tile => {
    const [column, row] = [index % columns, Math.floor(index / columns)];
    const [x, y] = [column * stepX, row * stepY];
    return {
      ...{ number: index + 1, x, y },
      joinsLeftAt: column === 0 ? null : x + SHEET.overlap,
      joinsAboveAt: row === 0 ? null : y + SHEET.overlap,
    };
  });
  const seam = (index: number, step: number): number => (index + 1) * step + SHEET.overlap / 2;
  const across = Array.from({ length: columns - 1 }, (_, index) => seam(index, stepX));
  const down = Array.from({ length: rows - 1 }, (_, index) => seam(index, stepY));
  const marks = [
    ...across.flatMap((x) => spread(rows, stepY, sheet.height).map((y) => ({ x, y }))),
    ...down.flatMap((y) => spread(columns, stepX, sheet.width).map((x) => ({ x, y }))),
  ];
  return { tiles, columns, rows, marks, ...sheet };
}

function sheetsFor(length: number, sheet: number): number {
  return Math.max(1, Math.ceil((length - SHEET.overlap) / (sheet - SHEET.overlap)));
}

/** Two places along each sheet, away from its seams. */
function spread(sheets: number, step: number, sheet: number): number[] {
  return Array.from({ length: sheets }, (_, index) => [
    index * step + sheet * 0.25,
    index * step + sheet * 0.75,
  ]).flat();
}
