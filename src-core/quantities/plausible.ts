import type { QuantityKind } from './understood.ts';

export interface PlausibleRange {
  readonly low: number;
  readonly high: number;
  readonly unit: string;
}

/**
 * The range outside which a typed number is asked about (rule MEAS-09; policy, with slips seen in hobby records). In
 * the canonical unit of the kind. Volume and mass are our own bounds of a home cellar: 10 000 L and 10 t; free sulfite
 * likewise, 500 mg/L.
 */
export const PLAUSIBLE: Readonly<Record<QuantityKind, PlausibleRange>> = {
  gravity: { low: 0.98, high: 1.2, unit: 'SG' },
  acidity: { low: 0, high: 15, unit: 'g/100 mL' },
  pH: { low: 1.8, high: 9, unit: 'pH' },
  volume: { low: 0, high: 10_000_000_000, unit: 'µL' },
  temperature: { low: -5, high: 100, unit: '°C' },
  mass: { low: 0, high: 10_000_000_000_000, unit: 'µg' },
  freeSulfite: { low: 0, high: 500, unit: 'mg/L' },
  alcohol: { low: 0, high: 20, unit: '% vol' },
  salt: { low: 0, high: 30, unit: '%' },
};

/** A sucrose scale is asked about outside 0–50 °Bx, whatever gravity that is (MEAS-09). */
export const PLAUSIBLE_BRIX: PlausibleRange = { low: 0, high: 50, unit: '°Bx' };

/** Between two entries of one vessel a gravity may not fall by more than this (MEAS-09). */
export const LARGEST_GRAVITY_DROP = 0.13;

export function isPlausible(kind: QuantityKind, value: number): boolean {
  const range = PLAUSIBLE[kind];
  return value >= range.low && value <= range.high;
}
