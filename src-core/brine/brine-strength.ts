import { err, ok, type Result } from '../base/result.ts';
import { firstOutOfRange, type Limits, type OutOfRange } from '../quantities/validity.ts';

const SOURCE = 'mass balance; a saturated brine at 20 °C holds 26.4 % m/m';
const MASS: Limits = { quantity: 'grams', low: 0, high: 1e9, unit: 'g', source: SOURCE };
/** Per cent by mass of a saturated salt solution at 20 °C. Source: CRC Handbook, from memory. */
export const SATURATED_PERCENT = 26.4;
const PERCENT: Limits = {
  quantity: 'saltPercent',
  low: 0,
  high: SATURATED_PERCENT,
  unit: '% m/m',
  source: SOURCE,
};

/**
 * Per cent of salt in the whole: salt over salt, water and vegetables together, by mass in grams. This is the figure that the
 * rules speak of; a percentage of the water alone is another and larger number.
 */
export function saltPercentOfTotal(given: {
  readonly saltGrams: number;
  readonly waterGrams: number;
  readonly vegetableGrams: number;
}): Result<number, OutOfRange> {
  const { saltGrams, waterGrams, vegetableGrams } = given;
  const outside = firstOutOfRange(
    [saltGrams, { ...MASS, quantity: 'saltGrams' }],
    [waterGrams, { ...MASS, quantity: 'waterGrams' }],
    [vegetableGrams, { ...MASS, quantity: 'vegetableGrams' }],
    [saltGrams + waterGrams + vegetableGrams, { ...MASS, quantity: 'total', low: 1e-6, high: 3e9 }],
  );
  if (outside) return err(outside);
  return ok((100 * saltGrams) / (saltGrams + waterGrams + vegetableGrams));
}

/** Grams of salt in a brine of so many per cent by mass (0–26.4) made with so much water. */
export function saltForBrine(given: {
  readonly waterGrams: number;
  readonly saltPercent: number;
}): Result<number, OutOfRange> {
  const outside = firstOutOfRange(
    [given.waterGrams, { ...MASS, quantity: 'waterGrams' }],
    [given.saltPercent, PERCENT],
  );
  return outside ? err(outside) : ok((given.waterGrams * given.saltPercent) / (100 - given.saltPercent));
}
