import { err, ok, type Result } from '../base/result.ts';
import { firstOutOfRange, type OutOfRange } from '../quantities/validity.ts';
import { ACETIC_PER_PERCENT_THEORY, SURFACE_YIELD } from './acetification.ts';

/** What a base may become, in g/100 mL counted as acetic. A forecast: it never clears a safety rule. */
export interface ForeseenVinegar {
  /** All alcohol turned by the equation, on top of the acid there is. */
  readonly theory: number;
  /** Low: the lower strength at the lower plan yield. High: the upper strength at the upper. */
  readonly planLow: number;
  readonly planMid: number;
  readonly planHigh: number;
}

/**
 * The acidity to expect when the alcohol of a base has become acetic acid, from its strength (0–20 % vol) with U and the
 * acid already in it (0–15 g/100 mL counted as acetic, with U). Fruit acid counts as acid in a titration and is carried
 * through unchanged, although bacteria may use some of it. Theory 1.0288 g/100 mL per 1 % vol; plan 0.75–0.90 of that.
 */
export function foreseeVinegar(given: {
  readonly alcoholPercentVol: number;
  readonly alcoholUncertainty: number;
  readonly acidityGramsPer100Ml: number;
  readonly acidityUncertainty: number;
}): Result<ForeseenVinegar, OutOfRange> {
  const { alcoholPercentVol: alcohol, alcoholUncertainty, acidityGramsPer100Ml: acid } = given;
  const source = 'stoichiometry with plan yields of a still surface';
  const strength = { quantity: 'alcoholPercentVol', low: 0, high: 20, unit: '% vol', source };
  const acidity = { quantity: 'acidityGramsPer100Ml', low: 0, high: 15, unit: 'g/100 mL', source };
  const outside = firstOutOfRange(
    [alcohol, strength],
    [alcoholUncertainty, { ...strength, quantity: 'alcoholUncertainty' }],
    [acid, acidity],
    [given.acidityUncertainty, { ...acidity, quantity: 'acidityUncertainty' }],
  );
  if (outside) return err(outside);
  const fromAlcohol = (percentVol: number, share: number) =>
    Math.max(0, percentVol) * ACETIC_PER_PERCENT_THEORY * share;
  return ok({
    theory: acid + fromAlcohol(alcohol, 1),
    planLow:
      Math.max(0, acid - given.acidityUncertainty) +
      fromAlcohol(alcohol - alcoholUncertainty, SURFACE_YIELD.low),
    planMid: acid + fromAlcohol(alcohol, SURFACE_YIELD.mid),
    planHigh: acid + given.acidityUncertainty + fromAlcohol(alcohol + alcoholUncertainty, SURFACE_YIELD.high),
  });
}
