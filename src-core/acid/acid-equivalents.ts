import { err, ok, type Result } from '../base/result.ts';
import { MOLAR_MASS } from '../must/stoichiometry.ts';
import type { Acid } from '../quantities/understood.ts';
import { within, type OutOfRange } from '../quantities/validity.ts';

/**
 * Grams of an acid that give one mole of hydrogen ions in a titration: molar mass over the protons titrated. Citric is
 * anhydrous. Source: IUPAC 2021 abridged atomic weights.
 */
export const EQUIVALENT_MASS: Readonly<Record<Acid, number>> = {
  acetic: MOLAR_MASS.acetic,
  lactic: MOLAR_MASS.lactic,
  malic: MOLAR_MASS.malic / 2,
  tartaric: MOLAR_MASS.tartaric / 2,
  citric: MOLAR_MASS.citric / 3,
  sulfuric: MOLAR_MASS.sulfuric / 2,
};

/**
 * Density of vinegar in g/mL, by which grams in 100 g become grams in 100 mL, and how far it strays. Source: OpenStax Chemistry
 * 2e gives 1.007 at 5 %; ±1 % is policy.
 */
export const VINEGAR_DENSITY = { gramsPerMl: 1.01, relativeUncertainty: 0.01 } as const;

/** What an acidity counted as one acid is multiplied by to be counted as another: E of `to` over E of `from`. */
export function acidityFactor(given: { readonly from: Acid; readonly to: Acid }): number {
  return EQUIVALENT_MASS[given.to] / EQUIVALENT_MASS[given.from];
}

/** An acidity of at least 0, counted as another acid, in the unit it came in. */
export function convertAcidity(given: {
  readonly acidity: number;
  readonly from: Acid;
  readonly to: Acid;
}): Result<number, OutOfRange> {
  const checked = within(given.acidity, {
    quantity: 'acidity',
    low: 0,
    high: 1000,
    unit: 'g/L or g/100 mL',
    source: 'a concentration is not negative',
  });
  return checked.ok ? ok(given.acidity * acidityFactor(given)) : err(checked.error);
}
