import { err, ok, type Result } from '../base/result.ts';
import { firstOutOfRange, type Limits, type OutOfRange } from '../quantities/validity.ts';

export interface Dilution {
  /** Litres of water that bring the measured strength to the target on average: half of such batches fall below it. */
  readonly naiveWaterLitres: number;
  /** Litres of water that keep at least the target with strength and volume at their low ends. */
  readonly guaranteedWaterLitres: number;
  /** Strength to expect after the guaranteed dilution, g/100 mL, from the measured values. */
  readonly expectedAfter: number;
}

export type DilutionError =
  | OutOfRange
  /** Even undiluted the strength at its low end is below the target. */
  | { readonly type: 'TooWeakToDilute'; readonly lowEnd: number; readonly target: number };

const SOURCE = 'mass balance c1 V1 = c2 V2';
const STRENGTH: Limits = { quantity: 'strength', low: 0, high: 20, unit: 'g/100 mL', source: SOURCE };
const VOLUME: Limits = { quantity: 'volumeLitres', low: 0, high: 100_000, unit: 'L', source: SOURCE };

/**
 * Water to add to so many litres of vinegar to reach a target strength and, apart from it, to *guarantee* the target: the
 * largest safe final volume is V (S − U)/T with V at its own low end. Strengths in g/100 mL with expanded uncertainty;
 * volumes taken as additive, which for vinegar and water errs by less than 0.1 %. What is calculated here never clears a
 * safety rule: measure again after the water went in.
 */
export function diluteToStrength(given: {
  readonly volumeLitres: number;
  readonly volumeUncertaintyLitres: number;
  readonly strength: number;
  readonly strengthUncertainty: number;
  readonly target: number;
}): Result<Dilution, DilutionError> {
  const { volumeLitres: volume, volumeUncertaintyLitres, strength, strengthUncertainty, target } = given;
  const outside = firstOutOfRange(
    [volume, VOLUME],
    [volumeUncertaintyLitres, { ...VOLUME, quantity: 'volumeUncertaintyLitres' }],
    [strength, STRENGTH],
    [strengthUncertainty, { ...STRENGTH, quantity: 'strengthUncertainty' }],
    [target, { ...STRENGTH, quantity: 'target', low: 0.1 }],
  );
  if (outside) return err(outside);
  const lowEnd = Math.max(0, strength - strengthUncertainty);
  if (lowEnd < target) return err({ type: 'TooWeakToDilute', lowEnd, target });
  // Beyond the volume's low end the same number of litres of water would weaken it too far.
  const lowVolume = Math.max(0, volume - volumeUncertaintyLitres);
  const guaranteedWaterLitres = Math.max(0, lowVolume * (lowEnd / target - 1));
  const total = volume + guaranteedWaterLitres;
  return ok({
    naiveWaterLitres: volume * (strength / target - 1),
    guaranteedWaterLitres,
    expectedAfter: total === 0 ? strength : (strength * volume) / total,
  });
}
