import { err, ok, type Result } from '../base/result.ts';
import type { Acid } from '../quantities/understood.ts';
import { firstOutOfRange, within, type Limits, type OutOfRange } from '../quantities/validity.ts';
import { EQUIVALENT_MASS } from './acid-equivalents.ts';

const SOURCE = 'AOAC 930.35J';
const BASE_ML: Limits = { quantity: 'baseMl', low: 0, high: 500, unit: 'mL', source: SOURCE };
const NORMALITY: Limits = { quantity: 'normality', low: 0.001, high: 2, unit: 'mol/L', source: SOURCE };
const SAMPLE_ML: Limits = { quantity: 'sampleMl', low: 0.1, high: 500, unit: 'mL', source: SOURCE };

/**
 * Titratable acidity in g/100 mL counted as `acid`: V · N · E / (10 · sample). Sodium hydroxide of normality N (0.001–2
 * mol/L), sample in mL. The end point of vinegar is pH 8.1–8.3 (phenolphthalein, or a meter at 8.2); total acidity of
 * *wine* is titrated to pH 7.0, so state which. Carbon dioxide counts as acid: 1 g/L of it up to 0.14 g/100 mL as
 * acetic; boil or shake it out first. Weak, old NaOH makes the acid look stronger. Source: AOAC 930.35J.
 */
export function titratableAcidity(given: {
  readonly baseMl: number;
  readonly normality: number;
  readonly sampleMl: number;
  readonly acid: Acid;
}): Result<number, OutOfRange> {
  const { baseMl, normality, sampleMl, acid } = given;
  const outside = firstOutOfRange([baseMl, BASE_ML], [normality, NORMALITY], [sampleMl, SAMPLE_ML]);
  return outside ? err(outside) : ok((baseMl * normality * EQUIVALENT_MASS[acid]) / (10 * sampleMl));
}

/** The same by the mass of the sample: grams of acid in 100 g. */
export function titratableAcidityByMass(given: {
  readonly baseMl: number;
  readonly normality: number;
  readonly sampleGrams: number;
  readonly acid: Acid;
}): Result<number, OutOfRange> {
  const { baseMl, normality, sampleGrams, acid } = given;
  const outside = firstOutOfRange(
    [baseMl, BASE_ML],
    [normality, NORMALITY],
    [sampleGrams, { ...SAMPLE_ML, quantity: 'sampleGrams', unit: 'g' }],
  );
  return outside ? err(outside) : ok((baseMl * normality * EQUIVALENT_MASS[acid]) / (10 * sampleGrams));
}

/** Moles of acid in a litre of a monoprotic acid: V · N / sample. Source: definition; OpenStax Chemistry 2e, 4.5. */
export function molarityByTitration(given: {
  readonly baseMl: number;
  readonly normality: number;
  readonly sampleMl: number;
}): Result<number, OutOfRange> {
  const { baseMl, normality, sampleMl } = given;
  const outside = firstOutOfRange([baseMl, BASE_ML], [normality, NORMALITY], [sampleMl, SAMPLE_ML]);
  return outside ? err(outside) : ok((baseMl * normality) / sampleMl);
}

/**
 * Strength of sodium hydroxide, mol/L, from grams of potassium hydrogen phthalate and mL used: 1000 m P/(M V), P the
 * purity. M defaults to 204.2212 g/mol. Source: EURACHEM/CITAC QUAM, example A2.
 */
export function baseStrengthFromPhthalate(given: {
  readonly phthalateGrams: number;
  readonly baseMl: number;
  readonly purity?: number;
  readonly molarMass?: number;
}): Result<number, OutOfRange> {
  const source = 'EURACHEM/CITAC QUAM example A2';
  const purity = given.purity ?? 1;
  const molarMass = given.molarMass ?? 204.2212;
  const outside = firstOutOfRange(
    [given.phthalateGrams, { quantity: 'phthalateGrams', low: 0, high: 100, unit: 'g', source }],
    [given.baseMl, { ...BASE_ML, low: 0.1, source }],
    [purity, { quantity: 'purity', low: 0.5, high: 1, unit: '1', source }],
    [molarMass, { quantity: 'molarMass', low: 204.1, high: 204.3, unit: 'g/mol', source }],
  );
  return outside ? err(outside) : ok((1000 * given.phthalateGrams * purity) / (molarMass * given.baseMl));
}

/** Fixed acidity of vinegar in g/L as acetic from a 10 mL sample and 0.1 mol/L NaOH: 0.6 V. Source: OIV-MA-VI-02. */
export function fixedAcidityOfVinegar(baseMl: number): Result<number, OutOfRange> {
  const checked = within(baseMl, { ...BASE_ML, high: 100, source: 'OIV-MA-VI-02:R2000' });
  return checked.ok ? ok(0.6 * baseMl) : checked;
}

/** Grain strength, 10 × g/100 mL: forty grain is 4 %. Source: laboratory sheet after AOAC 930.35J. */
export function grainStrength(acidityGramsPer100Ml: number): number {
  return 10 * acidityGramsPer100Ml;
}
