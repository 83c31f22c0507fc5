import { acidityFactor } from '../acid/acid-equivalents.ts';
import { effectiveUncertainty } from '../quantities/uncertainty.ts';
import type { Gauged } from './facts-of-uses.ts';
import type { Measurement } from './facts.ts';

/** A value and its expanded uncertainty, as a rule compares them. */
export interface Interval {
  readonly value: number;
  readonly uncertainty: number;
}

/** Density of vinegar, g/mL, for a percentage by mass. Source: OpenStax Chemistry 2e gives 1.007 at 5 %; ±1 %. */
const VINEGAR_DENSITY = 1.01;
const VINEGAR_DENSITY_UNCERTAINTY = 0.01;

/**
 * The number with its U as a rule compares it: acidity as acetic g/100 mL with the fixed acid off, others as they are. Null
 * where neither U nor method is known, or an acidity's acid or basis is not.
 */
export function intervalOf(measurement: Measurement): Interval | null {
  const { value, uncertainty, method } = measurement;
  const effective = effectiveUncertainty({ value, givenUncertainty: uncertainty, method });
  if (effective === null) return null;
  if (measurement.quantity !== 'acidity') return { value, uncertainty: effective.uncertainty };
  const { acid, basis, fixedAcidGramsPer100Ml } = measurement;
  if (acid === null || basis === null) return null;
  const factor = acidityFactor({ from: acid, to: 'acetic' }) * (basis === 'w/w' ? VINEGAR_DENSITY : 1);
  const total = value * factor;
  const densityPart = basis === 'w/w' ? total * VINEGAR_DENSITY_UNCERTAINTY : 0;
  return {
    value: total - (fixedAcidGramsPer100Ml ?? 0),
    uncertainty: Math.hypot(effective.uncertainty * factor, densityPart),
  };
}

/** A gauged number with the U that rule MEAS-02 gives it; null where it is missing, not finite, or without U and method. */
export function intervalOfGauged(gauged: Gauged | null | undefined): Interval | null {
  if (!gauged || !Number.isFinite(gauged.value)) return null;
  const { value, uncertainty, method } = gauged;
  const effective = effectiveUncertainty({ value, givenUncertainty: uncertainty, method });
  return effective && { value, uncertainty: effective.uncertainty };
}

export function lowOf(interval: Interval): number {
  return interval.value - interval.uncertainty;
}

export function highOf(interval: Interval): number {
  return interval.value + interval.uncertainty;
}
