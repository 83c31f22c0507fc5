import type { ReadingRow } from '#core/contract/shelves.ts';
import { acidityFactor } from '#core/acid/acid-equivalents.ts';
import { gravityToBrix } from '#core/quantities/gravity.ts';
import type { HouseUnits } from '#core/quantities/house-units.ts';
import type { Acid } from '#core/quantities/understood.ts';
import { MS_PER_DAY } from './time-axis.ts';
import type { ValueScale } from './value-axis.ts';

export const MEASURES = ['gravity', 'acidity', 'ph', 'temperature'] as const;
export type Measure = (typeof MEASURES)[number] | 'score';

/** One mark on a panel: `x` in days since the epoch, `y` in the unit of the panel. */
export interface PanelPoint {
  readonly x: number;
  readonly y: number;
  readonly atMs: number;
  readonly entryId: string;
  /** Drawn hollow: something about the reading keeps it from being compared with the others. */
  readonly doubtful: boolean;
}

export interface ReadingPanel {
  readonly measure: Measure;
  readonly title: string;
  readonly unit: string;
  readonly decimals: number;
  readonly scale: ValueScale;
  readonly points: readonly PanelPoint[];
  /** Two readings further apart than this many days are not joined by a line. */
  readonly gapDays: number;
}

/** A gap of more than so many times the median interval breaks the line. */
const GAP_TIMES_MEDIAN = 3;

/**
 * The readings as panels over one time axis, in the order they are stacked. Gravity, acidity and temperature always
 * have a panel once any reading is there with a value of it; a measure never taken has none.
 */
export function readingPanels(readings: readonly ReadingRow[], house: HouseUnits): readonly ReadingPanel[] {
  const acid = acidShown(readings);
  const asBrix = house.gravity === 'Bx' && readings.every(hasBrix);
  const panels: Omit<ReadingPanel, 'gapDays'>[] = [
    {
      ...{ measure: 'gravity', title: 'Gravity', decimals: asBrix ? 1 : 3 },
      unit: asBrix ? '°Bx at 20 °C' : 'SG at 20 °C',
      scale: asBrix
        ? { fromNothing: false, leastSpan: 2, stepsMost: 4, decimalsLeast: 0 }
        : { fromNothing: false, leastSpan: 0.01, stepsMost: 4, decimalsLeast: 3 },
      points: pointsOf(readings, (reading) => gravityPoint(reading, asBrix)),
    },
    {
      ...{ measure: 'acidity', title: 'Acidity', decimals: 1 },
      scale: { fromNothing: true, leastSpan: 2, stepsMost: 4, decimalsLeast: 0 },
      unit: acid === null ? 'g in 100 mL, acid not named' : `g in 100 mL as ${acid} acid`,
      points: pointsOf(readings, (reading) => acidityPoint(reading, acid)),
    },
    {
      ...{ measure: 'ph', title: 'pH', decimals: 2, unit: '' },
      scale: { fromNothing: false, leastSpan: 0.4, stepsMost: 3, decimalsLeast: 1 },
      points: pointsOf(readings, ({ ph, phMethod }) =>
        ph === null ? null : { y: ph, doubtful: phMethod === null || phMethod === 'meterUnknown' },
      ),
    },
    {
      ...{ measure: 'temperature', title: 'Temperature', decimals: 1 },
      scale: { fromNothing: false, leastSpan: 6, stepsMost: 3, decimalsLeast: 0 },
      unit: house.temperature === 'C' ? '°C' : '°F',
      points: pointsOf(readings, ({ temperatureCelsius: celsius }) =>
        celsius === null
          ? null
          : { y: house.temperature === 'C' ? celsius : (celsius * 9) / 5 + 32, doubtful: false },
      ),
    },
  ];
  return panels
    .filter(({ points }) => points.length > 0)
    .map((panel) => ({ ...panel, gapDays: gapDays(panel.points.map(({ x }) => x)) }));
}

/** The acid the acidity panel counts as: the one every reading names, acetic when they differ, null when none is named. */
export function acidShown(readings: readonly ReadingRow[]): Acid | null {
  const named = new Set<Acid | null>();
  for (const { acidityGramsPer100Ml, acidityAs } of readings) {
    if (acidityGramsPer100Ml !== null && acidityAs !== null) named.add(acidityAs);
  }
  if (named.size > 1) return 'acetic';
  return [...named][0] ?? null;
}

/** Days between two points beyond which the line is broken: three times the median interval, at least three days. */
export function gapDays(days: readonly number[]): number {
  const intervals = days
    .slice(1)
    .map((day, i) => day - (days[i] ?? day))
    .filter((interval) => interval > 0)
    .sort((a, b) => a - b);
  const middle = intervals[Math.floor((intervals.length - 1) / 2)];
  // With one or two intervals a median says nothing about a habit, so nothing is broken.
  if (middle === undefined || intervals.length < 3) return Infinity;
  return Math.max(GAP_TIMES_MEDIAN, GAP_TIMES_MEDIAN * middle);
}

interface Drawn {
  readonly y: number;
  readonly doubtful: boolean;
}

function pointsOf(
  readings: readonly ReadingRow[],
  draw: (reading: ReadingRow) => Drawn | null,
): PanelPoint[] {
  return readings
    .flatMap((reading) => {
      const drawn = draw(reading);
      if (drawn === null || !Number.isFinite(drawn.y)) return [];
      const { atMs, entryId } = reading;
      return [{ x: atMs / MS_PER_DAY, ...drawn, atMs, entryId }];
    })
    .sort((a, b) => a.x - b.x);
}

const gravityOf = (reading: ReadingRow): number | null => reading.gravityCorrectedSg ?? reading.gravitySg;

/** Below water there is no Brix: one such gravity, and the whole panel is told as specific gravity. */
function hasBrix(reading: ReadingRow): boolean {
  const sg = gravityOf(reading);
  return sg === null || gravityToBrix(sg).ok;
}

function gravityPoint(reading: ReadingRow, asBrix: boolean): Drawn | null {
  const sg = gravityOf(reading);
  if (sg === null) return null;
  const doubtful = reading.gravityCorrectedSg === null;
  if (!asBrix) return { y: sg, doubtful };
  const brix = gravityToBrix(sg);
  return brix.ok ? { y: brix.value, doubtful } : null;
}

function acidityPoint(reading: ReadingRow, shown: Acid | null): Drawn | null {
  const { acidityGramsPer100Ml: grams, acidityAs } = reading;
  if (grams === null) return null;
  if (acidityAs === null || shown === null) return { y: grams, doubtful: true };
  return { y: grams * acidityFactor({ from: acidityAs, to: shown }), doubtful: false };
}
