import { err, ok, type Result } from '../base/result.ts';
import { firstOutOfRange, type OutOfRange } from '../quantities/validity.ts';
import { ETHANOL_GRAMS_PER_LITRE_PER_PERCENT } from './alcohol.ts';
import { THEORETICAL_YIELD } from './stoichiometry.ts';

/** Grams of hexose in a litre for 1 % vol when nothing is lost: 7.8924/0.5114 = 15.43. Source: stoichiometry. */
export const SUGAR_PER_PERCENT_THEORY =
  ETHANOL_GRAMS_PER_LITRE_PER_PERCENT / THEORETICAL_YIELD.ethanolFromHexose;

/**
 * Grams of sugar in a litre for 1 % vol by the EU and OIV convention, 91.7 % of theory. Source: French arrêté of
 * 14 September 2011, annex IV column 6. Older books use 17, 17.5 or 18.
 */
export const SUGAR_PER_PERCENT_PLAN = 16.83;

/** Older conventions, g/L per 1 % vol. Source: the same arrêté column 7 (17.5); 17 and 18 from memory. */
export const SUGAR_PER_PERCENT_OLD = { low: 17, high: 18 } as const;

export interface PotentialAlcohol {
  /** % vol if every gram of sugar became alcohol by the equation. Cannot be exceeded. */
  readonly theoryPercentVol: number;
  /** % vol to plan with. */
  readonly planPercentVol: number;
  /** Expanded uncertainty of the plan: the sugar's own, joined with ±4 % for how far real yields stray. */
  readonly planUncertaintyPercentVol: number;
}

/**
 * Plan yields of alcohol run from 0.90 to 0.92 of theory, and 17.5 against 16.83 g/L is another 4 %; the larger
 * spread is taken as U. Sources: the OIV convention and the older French one.
 */
const PLAN_RELATIVE_UNCERTAINTY = 0.04;

/**
 * The alcohol a must can reach, from its fermentable sugar in g/L (0–400) and the U of that sugar. Two named figures:
 * theory at 15.43 g/L per 1 % vol and plan at 16.83. Sugar is not 10 × °Brix × density in a fruit juice: see
 * `fermentableSugar`.
 */
export function potentialAlcohol(given: {
  readonly sugarGramsPerLitre: number;
  readonly sugarUncertaintyGramsPerLitre: number;
}): Result<PotentialAlcohol, OutOfRange> {
  const sugarLimits = {
    quantity: 'sugarGramsPerLitre',
    low: 0,
    high: 400,
    unit: 'g/L',
    source: 'range of OIV-MA-AS2-02 Table II and honey musts',
  };
  const uncertaintyLimits = { ...sugarLimits, quantity: 'sugarUncertaintyGramsPerLitre' };
  const { sugarGramsPerLitre: sugar, sugarUncertaintyGramsPerLitre: u } = given;
  const outside = firstOutOfRange([sugar, sugarLimits], [u, uncertaintyLimits]);
  if (outside) return err(outside);
  const plan = sugar / SUGAR_PER_PERCENT_PLAN;
  return ok({
    theoryPercentVol: sugar / SUGAR_PER_PERCENT_THEORY,
    planPercentVol: plan,
    planUncertaintyPercentVol: Math.hypot(u / SUGAR_PER_PERCENT_PLAN, PLAN_RELATIVE_UNCERTAINTY * plan),
  });
}
