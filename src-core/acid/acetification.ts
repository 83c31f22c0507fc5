import { err, ok, type Result } from '../base/result.ts';
import { ETHANOL_GRAMS_PER_LITRE_PER_PERCENT } from '../must/alcohol.ts';
import { THEORETICAL_YIELD } from '../must/stoichiometry.ts';
import { firstOutOfRange, within, type Limits, type OutOfRange } from '../quantities/validity.ts';

/** Grams of acetic acid in 100 mL from 1 % vol of alcohol when nothing is lost: 1.0288. Source: stoichiometry. */
export const ACETIC_PER_PERCENT_THEORY =
  (ETHANOL_GRAMS_PER_LITRE_PER_PERCENT * THEORETICAL_YIELD.aceticFromEthanol) / 10;

/**
 * Share of theory to plan with for a still surface at home, low to high. From memory; a well run submerged plant reached
 * 0.94 (Qi et al. 2014).
 */
export const SURFACE_YIELD = { low: 0.75, mid: 0.825, high: 0.9 } as const;

const STRENGTH: Limits = {
  quantity: 'alcoholPercentVol',
  low: 0,
  high: 20,
  unit: '% vol',
  source: 'strengths that acetic bacteria meet; Romero et al. 1994 stop near 19 % vol',
};
const ACIDITY: Limits = {
  quantity: 'acidityGramsPer100Ml',
  low: 0,
  high: 20,
  unit: 'g/100 mL',
  source: 'acidity of vinegars; the strongest class in German law is 15.5',
};

export interface AceticRange {
  /** g/100 mL as acetic if all alcohol became acid by the equation. Cannot be exceeded but by evaporation. */
  readonly theory: number;
  readonly planLow: number;
  readonly planMid: number;
  readonly planHigh: number;
}

/**
 * Acetic acid in g/100 mL that so much alcohol (0–20 % vol) makes, at constant volume: theory 1.0288 per 1 % vol, and a
 * plan of 0.75 to 0.90 of it for a still surface.
 */
export function aceticFromAlcohol(alcoholPercentVol: number): Result<AceticRange, OutOfRange> {
  const checked = within(alcoholPercentVol, STRENGTH);
  if (!checked.ok) return checked;
  const theory = alcoholPercentVol * ACETIC_PER_PERCENT_THEORY;
  return ok({
    theory,
    planLow: theory * SURFACE_YIELD.low,
    planMid: theory * SURFACE_YIELD.mid,
    planHigh: theory * SURFACE_YIELD.high,
  });
}

/**
 * Total concentration GK (German *Gesamtkonzentration*): % vol of alcohol plus g acetic acid in 100 mL. By convention it
 * stays constant while acetification loses nothing; by stoichiometry it would rise by 2.9 % of the alcohol oxidised, so
 * a constant GK already hides a loss of 2.8 %. A falling GK means evaporation or over-oxidation. Source: vinegar texts
 * of the Ebner school.
 */
export function totalConcentration(given: {
  readonly alcoholPercentVol: number;
  readonly acidityGramsPer100Ml: number;
}): Result<number, OutOfRange> {
  const outside = firstOutOfRange([given.alcoholPercentVol, STRENGTH], [given.acidityGramsPer100Ml, ACIDITY]);
  return outside ? err(outside) : ok(given.alcoholPercentVol + given.acidityGramsPer100Ml);
}

/** Alcohol left in % vol when the acidity has reached a value and GK has held; never below 0. Same source. */
export function alcoholLeftByTotalConcentration(given: {
  readonly totalConcentration: number;
  readonly acidityGramsPer100Ml: number;
}): Result<number, OutOfRange> {
  const outside = firstOutOfRange(
    [given.totalConcentration, { ...ACIDITY, quantity: 'totalConcentration', high: 40, unit: 'GK' }],
    [given.acidityGramsPer100Ml, ACIDITY],
  );
  return outside ? err(outside) : ok(Math.max(0, given.totalConcentration - given.acidityGramsPer100Ml));
}

/** Concentration yield: GK of the vinegar over GK of the mash, 0–1.2. Same source. */
export function concentrationYield(given: {
  readonly vinegar: number;
  readonly mash: number;
}): Result<number, OutOfRange> {
  const limits: Limits = { ...ACIDITY, quantity: 'totalConcentration', high: 40, unit: 'GK' };
  const outside = firstOutOfRange([given.vinegar, limits], [given.mash, { ...limits, low: 0.1 }]);
  return outside ? err(outside) : ok(given.vinegar / given.mash);
}

/** Grams of oxygen to acetify a litre of a base of this strength, 5.48 per 1 % vol. Source: stoichiometry. */
export function oxygenGramsPerLitre(alcoholPercentVol: number): Result<number, OutOfRange> {
  const checked = within(alcoholPercentVol, STRENGTH);
  return checked.ok
    ? ok(alcoholPercentVol * ETHANOL_GRAMS_PER_LITRE_PER_PERCENT * THEORETICAL_YIELD.oxygenPerEthanol)
    : checked;
}
