import type { Stage } from '#core/ledger/stage.ts';

/** One stroke or spot of a pattern tile. `strokeWidth` 0 means it is filled. Lengths in px at the tile's own size. */
export interface TileStroke {
  readonly d: string;
  readonly strokeWidth: number;
}

/** A repeating tile: drawn on the stage's fill in its pattern colour, turned by `turnDegrees` about the origin. */
export interface PatternTile {
  readonly width: number;
  readonly height: number;
  readonly turnDegrees: number;
  readonly strokes: readonly TileStroke[];
}

const circle = (x: number, y: number, r: number): string =>
  `M${x - r} ${y}a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0Z`;

const tile = (
  width: number,
  height: number,
  strokes: readonly TileStroke[],
  turnDegrees = 0,
): PatternTile => ({
  width,
  height,
  turnDegrees,
  strokes,
});

/**
 * The pattern of each stage, told apart by form alone so that it survives every kind of colour blindness and
 * black-only print. Null where the form is the absence of one: empty (outline only) and ready (solid).
 */
export const STAGE_PATTERNS: Readonly<Record<Stage, PatternTile | null>> = {
  empty: null,
  waiting: tile(12, 12, [{ d: circle(3, 3, 1.7) + circle(9, 9, 1.7), strokeWidth: 0 }]),
  yeast: tile(14, 14, [
    { d: circle(4.5, 9.5, 2.8), strokeWidth: 1.4 },
    { d: circle(10.8, 3.4, 1.6), strokeWidth: 1.3 },
  ]),
  settling: tile(12, 5, [{ d: 'M0 2.5H12', strokeWidth: 1.3 }]),
  vinegar: tile(14, 8, [{ d: 'M0 4q3.5 -4.4 7 0t7 0', strokeWidth: 1.6 }]),
  lactic: tile(12, 12, [{ d: 'M3 .8V5.2M.8 3H5.2M9 6.8V11.2M6.8 9H11.2', strokeWidth: 1.4 }]),
  maturing: tile(6, 12, [{ d: 'M3 0V12', strokeWidth: 1.5 }]),
  ready: null,
  held: tile(12, 12, [{ d: 'M0 0V12', strokeWidth: 5 }], 35),
  quarantine: tile(8, 8, [{ d: 'M0 4H8M4 0V8', strokeWidth: 1.4 }], 45),
  culture: tile(12, 10, [
    { d: 'M0 5a6 5 0 0 1 12 0M-6 10a6 5 0 0 1 12 0M6 10a6 5 0 0 1 12 0', strokeWidth: 1.3 },
  ]),
};

/** Under this width in px a pattern is mud: colour and letter remain. */
export const PATTERN_WIDTH_MIN = 16;

/**
 * How much to scale a tile on something `widthPx` wide: shrunk where fewer than two repeats would fit, never
 * enlarged beyond `zoom`.
 */
export function patternScale(tileWidth: number, widthPx: number, zoom = 1): number {
  return Math.min(Math.max(zoom, 0.6), widthPx / (2 * tileWidth));
}
