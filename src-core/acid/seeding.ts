import { err, ok, type Result } from '../base/result.ts';
import { blend } from '../must/blend.ts';
import { firstOutOfRange, type Limits, type OutOfRange } from '../quantities/validity.ts';

/** What a starting mash should be like. Advice with its source; strains differ. */
export const SEEDING_ADVICE = {
  /** g/100 mL as acetic. Cruess and Joslyn 1934, Farmers’ Bulletin 1424; passages from memory; other texts up to 3. */
  startAcidity: { low: 1, high: 2 },
  /** % vol. Vinegar texts, memory; one text seen says at least 4, at most 10. */
  startAlcohol: { low: 5, high: 9 },
  /** % vol at which acetic bacteria slow, by strain. Romero et al. 1994: inhibition above 50 g/L = 6.3 % vol. */
  slowingAlcohol: { low: 6.3, high: 10 },
  /** Litres of raw vinegar in a litre of base. US extension bulletins, memory. */
  seedShare: { low: 0.1, high: 0.25 },
  /** °C. Vinegar texts, memory; a student text seen gives 28–35. */
  temperature: { low: 25, high: 32 },
  /** °C beyond which it is not worth trying. Memory. */
  temperatureLimit: { low: 15, high: 34 },
  /** g/L a day on a still surface. Order of magnitude from Orléans practice, memory. */
  surfaceRate: { low: 0.5, high: 3 },
  /** % vol of alcohol kept in reserve so that the bacteria do not burn the acid. Ebner, memory. */
  reserveAlcohol: { low: 0.2, high: 0.5 },
} as const;

export interface SeedPart {
  readonly alcoholPercentVol: number;
  readonly acidityGramsPer100Ml: number;
}

export interface SeedPlan {
  readonly seedLitres: number;
  readonly totalLitres: number;
  readonly acidityGramsPer100Ml: number;
  readonly alcoholPercentVol: number;
  readonly notes: readonly SeedNote[];
}

export type SeedNote =
  | 'alcoholBelowAdvice'
  | 'alcoholAboveAdvice'
  | 'moreSeedThanUsual'
  | 'lessSeedThanUsual'
  | 'baseIsAcidEnough';

export type SeedError =
  | OutOfRange
  /** The seed is not more acid than the start that is wanted. */
  | { readonly type: 'SeedTooWeak'; readonly seed: number; readonly wanted: number };

const SOURCE = 'mass balance';
const STRENGTH: Limits = { quantity: 'alcoholPercentVol', low: 0, high: 20, unit: '% vol', source: SOURCE };
const ACIDITY: Limits = {
  quantity: 'acidityGramsPer100Ml',
  low: 0,
  high: 15,
  unit: 'g/100 mL',
  source: SOURCE,
};

/**
 * How much raw vinegar brings a base to a wanted starting acidity (g/100 mL as acetic, 0.1–4), and what the mash then is:
 * the acid and alcohol decide, not a fixed ratio. Acidity of base and seed count as one acid. Volumes in litres at 20 °C.
 */
export function seedToAcidity(given: {
  readonly baseLitres: number;
  readonly base: SeedPart;
  readonly seed: SeedPart;
  readonly startAcidity: number;
}): Result<SeedPlan, SeedError> {
  const { baseLitres, base, seed, startAcidity } = given;
  const outside = firstOutOfRange(
    [baseLitres, { quantity: 'baseLitres', low: 0.001, high: 100_000, unit: 'L', source: SOURCE }],
    [base.alcoholPercentVol, STRENGTH],
    [base.acidityGramsPer100Ml, ACIDITY],
    [seed.alcoholPercentVol, STRENGTH],
    [seed.acidityGramsPer100Ml, ACIDITY],
    [startAcidity, { ...ACIDITY, quantity: 'startAcidity', low: 0.1, high: 4 }],
  );
  if (outside) return err(outside);
  const lacking = startAcidity - base.acidityGramsPer100Ml;
  if (lacking > 0 && seed.acidityGramsPer100Ml <= startAcidity) {
    return err({ type: 'SeedTooWeak', seed: seed.acidityGramsPer100Ml, wanted: startAcidity });
  }
  const seedLitres = lacking > 0 ? (baseLitres * lacking) / (seed.acidityGramsPer100Ml - startAcidity) : 0;
  return mashOf({ baseLitres, base, seedLitres, seed });
}

/** What a mash is when so many litres of seed go in: acidity, alcohol and how they stand to the advice. */
export function mashOf(given: {
  readonly baseLitres: number;
  readonly base: SeedPart;
  readonly seedLitres: number;
  readonly seed: SeedPart;
}): Result<SeedPlan, OutOfRange> {
  const { baseLitres, base, seedLitres, seed } = given;
  const mash = blend([
    { ...base, volumeLitres: baseLitres, sugarGramsPerLitre: 0 },
    { ...seed, volumeLitres: seedLitres, sugarGramsPerLitre: 0 },
  ]);
  if (!mash.ok) return mash;
  const share = seedLitres / baseLitres;
  const { startAlcohol, seedShare } = SEEDING_ADVICE;
  const notes: SeedNote[] = [];
  if (seedLitres === 0) notes.push('baseIsAcidEnough');
  if (mash.value.alcoholPercentVol < startAlcohol.low) notes.push('alcoholBelowAdvice');
  if (mash.value.alcoholPercentVol > startAlcohol.high) notes.push('alcoholAboveAdvice');
  if (share > seedShare.high) notes.push('moreSeedThanUsual');
  if (seedLitres > 0 && share < seedShare.low) notes.push('lessSeedThanUsual');
  return ok({
    seedLitres,
    totalLitres: mash.value.volumeLitres,
    acidityGramsPer100Ml: mash.value.acidityGramsPer100Ml,
    alcoholPercentVol: mash.value.alcoholPercentVol,
    notes,
  });
}
