import type { Silhouette } from '#core/ledger/stage.ts';
import { SHAPES, type ProfilePoint } from './shapes.ts';

/** Below this width in px a vessel stops shrinking, and above this capacity in litres it stops growing. */
export const DRAWN_WIDTH_MIN_PX = 22;
export const DRAWN_CAPACITY_MAX_L = 60;
/** Standard zoom: one px of screen is so many mm of cellar. */
export const MM_PER_PX = 2.95;

const UL_PER_L = 1_000_000;
const CUBIC_MM_PER_L = 1_000_000;
/** Steps of the volume integral: at 400 the level is right to a quarter of a per cent of the height. */
const STEPS = 400;

/** Slopes of the monotone cubic through a profile (Fritsch and Carlson 1980): no bulge that the points do not ask for. */
function slopesOf(profile: readonly ProfilePoint[]): readonly number[] {
  const steps = profile.slice(1).map((point, i) => {
    const before = profile[i] ?? point;
    return (point[1] - before[1]) / (point[0] - before[0] || 1e-6);
  });
  return profile.map((_, i) => {
    const left = steps[i - 1];
    const right = steps[i];
    if (left === undefined) return right ?? 0;
    if (right === undefined) return left;
    return left * right <= 0 ? 0 : (2 * left * right) / (left + right);
  });
}

const slopesBySilhouette = new Map<Silhouette, readonly number[]>();

/** Half-width (0 to 1) of a silhouette at a height (0 at the base to 1 at the rim). */
export function halfWidthAt(silhouette: Silhouette, height: number): number {
  const { profile, round } = SHAPES[silhouette];
  let slopes = slopesBySilhouette.get(silhouette);
  if (slopes === undefined) {
    slopes = slopesOf(profile);
    slopesBySilhouette.set(silhouette, slopes);
  }
  for (let i = 1; i < profile.length; i++) {
    const above = profile[i];
    const below = profile[i - 1];
    if (above === undefined || below === undefined || height > above[0]) continue;
    const span = above[0] - below[0] || 1e-6;
    const q = (height - below[0]) / span;
    if (!round) return below[1] + (above[1] - below[1]) * q;
    const q2 = q * q;
    const q3 = q2 * q;
    return (
      below[1] * (2 * q3 - 3 * q2 + 1) +
      (slopes[i - 1] ?? 0) * span * (q3 - 2 * q2 + q) +
      above[1] * (3 * q2 - 2 * q3) +
      (slopes[i] ?? 0) * span * (q3 - q2)
    );
  }
  return profile[profile.length - 1]?.[1] ?? 0;
}

/** Running volume up to each step of the height, up to the brim, as a share of the full volume; with the total. */
interface VolumeTable {
  readonly total: number;
  readonly upTo: Float64Array;
}
const volumeBySilhouette = new Map<Silhouette, VolumeTable>();

function volumeTable(silhouette: Silhouette): VolumeTable {
  const known = volumeBySilhouette.get(silhouette);
  if (known !== undefined) return known;
  const { brim } = SHAPES[silhouette];
  const upTo = new Float64Array(STEPS + 1);
  for (let i = 0; i < STEPS; i++) {
    const height = ((i + 0.5) / STEPS) * brim;
    upTo[i + 1] = (upTo[i] ?? 0) + halfWidthAt(silhouette, height) ** 2 / STEPS;
  }
  const sum = upTo[STEPS] ?? 1;
  const table = { total: sum * brim, upTo: upTo.map((v) => v / sum) };
  volumeBySilhouette.set(silhouette, table);
  return table;
}

/**
 * True size of a vessel in mm from its capacity in µL: width and height follow by the cube root, so that vessels
 * stand beside each other as in the cellar. Above 60 L the size no longer grows.
 */
export function sizeMm(
  silhouette: Silhouette,
  capacityUl: number,
): { readonly width: number; readonly height: number } {
  const litres = Math.min(capacityUl / UL_PER_L, DRAWN_CAPACITY_MAX_L);
  const { aspect } = SHAPES[silhouette];
  const width = Math.cbrt(
    (litres * CUBIC_MM_PER_L) / ((Math.PI / 4) * volumeTable(silhouette).total * aspect),
  );
  return { width, height: width * aspect };
}

/** Size of a vessel in px at a scale, never narrower than 22 px. */
export function sizePx(
  silhouette: Silhouette,
  capacityUl: number,
  mmPerPx: number = MM_PER_PX,
): { readonly width: number; readonly height: number } {
  const mm = sizeMm(silhouette, capacityUl);
  const width = Math.max(DRAWN_WIDTH_MIN_PX, mm.width / mmPerPx);
  return { width, height: width * SHAPES[silhouette].aspect };
}

/**
 * Height (0 to 1) at which the surface of the liquid stands when the vessel holds `share` (0 to 1) of its capacity:
 * found by integrating the profile, so that a half-full demijohn is drawn at its half-volume line.
 */
export function levelAt(silhouette: Silhouette, share: number): number {
  const { brim } = SHAPES[silhouette];
  const wanted = Math.min(1, Math.max(0, share));
  const { upTo } = volumeTable(silhouette);
  let low = 0;
  let high = STEPS;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((upTo[middle] ?? 1) < wanted) low = middle + 1;
    else high = middle;
  }
  if (low === 0) return 0;
  const below = upTo[low - 1] ?? 0;
  const above = upTo[low] ?? 1;
  const part = above === below ? 1 : (wanted - below) / (above - below);
  return ((low - 1 + part) / STEPS) * brim;
}

const round2 = (x: number): number => Math.round(x * 100) / 100;

/**
 * The closed outline of a silhouette between two heights as path data, standing on (0, 0) with y upwards negative,
 * `width` and `height` in px. Canvas (`new Path2D`) and SVG (`<path d>`) draw the same string.
 */
export function outlinePath(silhouette: Silhouette, width: number, height: number, from = 0, to = 1): string {
  const { profile } = SHAPES[silhouette];
  const samples = 90;
  const heights = new Set<number>([from, to]);
  for (const [t] of profile) if (t > from && t < to) heights.add(t);
  for (let i = 1; i < samples; i++) heights.add(from + ((to - from) * i) / samples);
  const points = [...heights]
    .sort((a, b) => a - b)
    .map((t) => [(halfWidthAt(silhouette, t) * width) / 2, -t * height] as const);
  const left = points.map(([x, y]) => `${round2(-x)} ${round2(y)}`);
  const right = points.map(([x, y]) => `${round2(x)} ${round2(y)}`).reverse();
  return `M${[...left, ...right].join('L')}Z`;
}
