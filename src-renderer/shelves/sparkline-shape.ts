import type { Headline, ReadingRow } from '#core/contract/shelves.ts';

export interface SparkPoint {
  readonly atMs: number;
  readonly value: number;
}

/** The readings of one quantity: gravity as corrected to 20 °C, acidity as acetic, pH. Oldest first. */
export function pointsOf(readings: readonly ReadingRow[], kind: Headline['kind']): SparkPoint[] {
  return readings
    .flatMap((reading) => {
      const value = valueOf(reading, kind);
      return value === null ? [] : [{ atMs: reading.atMs, value }];
    })
    .sort((a, b) => a.atMs - b.atMs);
}

function valueOf(reading: ReadingRow, kind: Headline['kind']): number | null {
  switch (kind) {
    case 'gravity':
      return reading.gravityCorrectedSg ?? reading.gravitySg;
    case 'acidity':
      return reading.acidityAsAceticGramsPer100Ml;
    case 'ph':
      return reading.ph;
  }
}

/** The quantity worth a curve: the headline's, else whichever has most readings; null when none has two. */
export function mainQuantity(
  readings: readonly ReadingRow[],
  headline: Headline | null,
): Headline['kind'] | null {
  const kinds = ['gravity', 'acidity', 'ph'] as const;
  const ranked = [...kinds].sort((a, b) => pointsOf(readings, b).length - pointsOf(readings, a).length);
  const first = headline === null ? ranked : [headline.kind, ...ranked];
  return first.find((kind) => pointsOf(readings, kind).length >= 2) ?? null;
}

export interface SparkScale {
  readonly low: number;
  readonly high: number;
  readonly ticks: readonly number[];
}

const STEPS = {
  gravity: [0.002, 0.005, 0.01, 0.02, 0.05, 0.1],
  acidity: [0.5, 1, 2, 5, 10, 20],
  ph: [0.1, 0.2, 0.5, 1, 2],
} as const;

/** A scale with round marks around the values, at most five of them. Acidity begins at nothing; gravity need not. */
export function scaleOf(points: readonly SparkPoint[], kind: Headline['kind']): SparkScale {
  const values = points.map((point) => point.value);
  const least = kind === 'acidity' ? 0 : Math.min(...values);
  const most = Math.max(...values);
  const steps = STEPS[kind];
  const step = steps.find((one) => spanOf(least, most, one) <= 4) ?? steps[steps.length - 1] ?? 1;
  const from = Math.floor(least / step + 1e-9);
  const to = Math.max(from + 1, Math.ceil(most / step - 1e-9));
  const ticks = Array.from({ length: to - from + 1 }, (_, i) => (from + i) * step);
  return { low: from * step, high: to * step, ticks };
}

function spanOf(least: number, most: number, step: number): number {
  return Math.ceil(most / step - 1e-9) - Math.floor(least / step + 1e-9);
}
