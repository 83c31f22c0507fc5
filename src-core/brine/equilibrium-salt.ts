import { err, ok, type Result } from '../base/result.ts';
import { firstOutOfRange, type Limits, type OutOfRange } from '../quantities/validity.ts';
import { SATURATED_PERCENT } from './brine-strength.ts';

const SOURCE = 'mass balance at equilibrium';
const MASS: Limits = { quantity: 'grams', low: 0, high: 1e9, unit: 'g', source: SOURCE };

/**
 * Grams of salt that bring vegetables and water to a percentage of the whole (0–15 %) once salt has spread evenly: total
 * other than salt × p/(100 − p).
 */
export function saltForTotal(given: {
  readonly vegetableGrams: number;
  readonly waterGrams: number;
  readonly percentOfTotal: number;
}): Result<number, OutOfRange> {
  const outside = firstOutOfRange(
    [given.vegetableGrams, { ...MASS, quantity: 'vegetableGrams' }],
    [given.waterGrams, { ...MASS, quantity: 'waterGrams' }],
    [given.percentOfTotal, { quantity: 'percentOfTotal', low: 0, high: 15, unit: '%', source: SOURCE }],
  );
  if (outside) return err(outside);
  const rest = given.vegetableGrams + given.waterGrams;
  return ok((rest * given.percentOfTotal) / (100 - given.percentOfTotal));
}

/**
 * What a brine poured over vegetables comes to at rest: the salt of the brine spread over brine and the water of the
 * vegetables. Gives the percentage of the whole, and that of the liquid (brine and the vegetables' own water), in % by
 * mass. The share of water in the vegetables is 0.5–0.98; cucumber is about 0.95, cabbage 0.92 (USDA SR Legacy, memory).
 */
export function equilibriumSalt(given: {
  readonly brineGrams: number;
  readonly brinePercent: number;
  readonly vegetableGrams: number;
  readonly vegetableWaterShare: number;
}): Result<{ readonly percentOfTotal: number; readonly percentOfLiquid: number }, OutOfRange> {
  const { brineGrams, brinePercent, vegetableGrams, vegetableWaterShare } = given;
  const outside = firstOutOfRange(
    [brineGrams, { ...MASS, quantity: 'brineGrams', low: 1e-6 }],
    [brinePercent, { quantity: 'brinePercent', low: 0, high: SATURATED_PERCENT, unit: '%', source: SOURCE }],
    [vegetableGrams, { ...MASS, quantity: 'vegetableGrams' }],
    [
      vegetableWaterShare,
      { quantity: 'vegetableWaterShare', low: 0.5, high: 0.98, unit: '1', source: SOURCE },
    ],
  );
  if (outside) return err(outside);
  const salt = (brineGrams * brinePercent) / 100;
  return ok({
    percentOfTotal: (100 * salt) / (brineGrams + vegetableGrams),
    percentOfLiquid: (100 * salt) / (brineGrams + vegetableGrams * vegetableWaterShare),
  });
}
