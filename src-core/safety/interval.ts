import { acidityFactor, VINEGAR_DENSITY } from '../acid/acid-equivalents.ts';
import { brixToGravity, gravityToBrix } from '../quantities/gravity.ts';
import {
  defaultUncertainty,
  effectiveUncertainty,
  smallestUncertainty,
  smallestUncertaintyOfAny,
} from '../quantities/uncertainty.ts';
import type { Gauged } from './facts-of-uses.ts';
import type { Measurement } from './facts.ts';

/** A value and its expanded uncertainty, as a rule compares them. */
export interface Interval {
  readonly value: number;
  readonly uncertainty: number;
}

interface Uncertainty {
  readonly uncertainty: number;
  /** Whose error it is: the keeper's own, or the default of the method. */
  readonly from: 'keeper' | 'default';
}

/**
 * The U of a measurement after MEAS-02, in the unit of its value. A refractometer's error is in °Bx and is turned into SG at the
 * gravity itself. Where the method is not known the keeper's own U counts from the largest floor of the quantity's methods on.
 */
export function uncertaintyOf(
  measurement: Pick<Measurement, 'quantity' | 'value' | 'uncertainty' | 'method'>,
): Uncertainty | null {
  const { quantity, value, method, uncertainty: givenUncertainty } = measurement;
  if (method === 'refractometer' && quantity === 'gravity') {
    const floor = brixErrorAsGravity(value, smallestUncertainty(method, 0));
    const byDefault = brixErrorAsGravity(value, defaultUncertainty(method, 0));
    const own = givenUncertainty !== null && givenUncertainty >= floor && givenUncertainty < Infinity;
    return own
      ? { uncertainty: givenUncertainty, from: 'keeper' }
      : { uncertainty: byDefault, from: 'default' };
  }
  const effective = effectiveUncertainty({ value, givenUncertainty, method });
  // A pH without a method is withheld by MEAS-08, which says what to do about it.
  if (method !== null || effective === null || quantity === 'pH') return effective;
  return effective.uncertainty >= smallestUncertaintyOfAny(quantity, value) ? effective : null;
}

/** An error of so many °Bx in SG, at a gravity; below SG 1.000 as at 1.000. */
function brixErrorAsGravity(gravity: number, errorBrix: number): number {
  const brix = gravityToBrix(Math.max(1, gravity));
  const [here, above] = [
    brixToGravity(brix.ok ? brix.value : 0),
    brixToGravity((brix.ok ? brix.value : 0) + errorBrix),
  ];
  // Beyond 60 °Bx there is no table, and no must.
  return here.ok && above.ok ? above.value - here.value : errorBrix;
}

/**
 * The number with its U as a rule compares it: acidity as acetic g/100 mL with the fixed acid off, others as they are. Null
 * where neither U nor method is known, an acidity's acid or basis is not, or its fixed acid is no amount.
 */
export function intervalOf(measurement: Measurement): Interval | null {
  const { value } = measurement;
  const effective = uncertaintyOf(measurement);
  if (effective === null) return null;
  if (measurement.quantity !== 'acidity') return { value, uncertainty: effective.uncertainty };
  const { acid, basis, fixedAcidGramsPer100Ml } = measurement;
  if (acid === null || basis === null) return null;
  // Only ever taken off: an amount below nought would make the vinegar look stronger.
  if (fixedAcidGramsPer100Ml !== null && !(fixedAcidGramsPer100Ml >= 0)) return null;
  const factor =
    acidityFactor({ from: acid, to: 'acetic' }) * (basis === 'w/w' ? VINEGAR_DENSITY.gramsPerMl : 1);
  const total = value * factor;
  const densityPart = basis === 'w/w' ? total * VINEGAR_DENSITY.relativeUncertainty : 0;
  return {
    value: total - (fixedAcidGramsPer100Ml ?? 0),
    uncertainty: Math.hypot(effective.uncertainty * factor, densityPart),
  };
}

/** A gauged number with the U that rule MEAS-02 gives it; null where it is missing, not finite, or without U and method. */
export function intervalOfGauged(
  gauged: Gauged | null | undefined,
  quantity: 'temperature' | 'pH',
): Interval | null {
  if (!gauged || !Number.isFinite(gauged.value)) return null;
  const { value } = gauged;
  const effective = uncertaintyOf({ quantity, ...gauged });
  const tooFine = effective !== null && effective.uncertainty < smallestUncertaintyOfAny(quantity, value);
  if (gauged.method === null && tooFine) return null;
  return effective && { value, uncertainty: effective.uncertainty };
}

export function lowOf(interval: Interval): number {
  return interval.value - interval.uncertainty;
}

export function highOf(interval: Interval): number {
  return interval.value + interval.uncertainty;
}
