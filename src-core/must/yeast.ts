import { err, ok, type Result } from '../base/result.ts';
import { firstOutOfRange, type Limits, type OutOfRange } from '../quantities/validity.ts';
import { MOLAR_MASS } from './stoichiometry.ts';

/** A range that practice keeps to: advice for hints, never a reason to refuse. */
export interface AdviceRange {
  readonly low: number;
  readonly high: number;
  readonly unit: string;
  readonly source: string;
}

/** Advice on pitching and temperature. Sources by entry; "memory" is to be confirmed. */
export const YEAST_ADVICE = {
  dryYeastDose: { low: 20, high: 30, unit: 'g/hL', source: 'oenology textbooks, memory; 25 seen' },
  rehydrationCelsius: { low: 35, high: 43, unit: '°C', source: 'yeast-supplier protocol; 20 minutes' },
  cellsAt25GramsPerHl: { low: 3e6, high: 4e6, unit: 'cells/mL', source: 'yeast-supplier protocol' },
  fermentationCelsius: { low: 12, high: 30, unit: '°C', source: 'oenology textbooks, memory' },
  lagHours: { low: 12, high: 96, unit: 'h', source: 'oenology textbooks, memory' },
  wildYeastFadesPercentVol: { low: 4, high: 7, unit: '% vol', source: 'Fleet 1993, memory' },
  wineYeastTolerancePercentVol: { low: 13, high: 17, unit: '% vol', source: 'oenology textbooks, memory' },
} as const satisfies Readonly<Record<string, AdviceRange>>;

/** Least yeast-assimilable nitrogen, mg N/L. Source: yeast-supplier note; probably Bely, Sablayrolles and Barre 1990. */
export const NITROGEN_MINIMUM = 140;
/** Nitrogen that strong musts of 24 °Bx and more want, mg N/L. From memory. */
export const NITROGEN_STRONG_MUST = { low: 200, high: 250 } as const;
/** Average yeast-assimilable nitrogen of honey must, mg N/L. Source: table in a yeast-supplier note. */
export const NITROGEN_HONEY_MUST = 50;

/** Grams of nitrogen in a gram of diammonium phosphate. Source: molar masses. */
export const NITROGEN_IN_PHOSPHATE = (2 * MOLAR_MASS.nitrogen) / MOLAR_MASS.diammoniumPhosphate;

/** Most diammonium phosphate that EU practice allows, g/L. Source: Regulation (EU) 2019/934, from memory. */
export const PHOSPHATE_MAXIMUM_GRAMS_PER_LITRE = 1;

const VOLUME: Limits = { quantity: 'volumeLitres', low: 0, high: 100_000, unit: 'L', source: 'a cellar' };

/** Grams of active dry yeast for a volume, by the advised 20–30 g/hL. */
export function dryYeastGrams(
  volumeLitres: number,
): Result<{ readonly low: number; readonly high: number }, OutOfRange> {
  const outside = firstOutOfRange([volumeLitres, VOLUME]);
  if (outside) return err(outside);
  const { low, high } = YEAST_ADVICE.dryYeastDose;
  return ok({ low: (volumeLitres * low) / 100, high: (volumeLitres * high) / 100 });
}

export interface NutrientDose {
  readonly nitrogenShortMgPerLitre: number;
  readonly phosphateGrams: number;
  /** True when that is more diammonium phosphate than EU practice allows: feed in other ways as well. */
  readonly aboveMaximum: boolean;
}

/**
 * Grams of diammonium phosphate that lift a must to a nitrogen target, mg N/L (0–400). Source: molar masses; 21.2 % of the
 * salt is nitrogen.
 */
export function phosphateForNitrogen(given: {
  readonly volumeLitres: number;
  readonly nitrogenMgPerLitre: number;
  readonly targetMgPerLitre: number;
}): Result<NutrientDose, OutOfRange> {
  const nitrogen: Limits = {
    quantity: 'nitrogenMgPerLitre',
    low: 0,
    high: 1000,
    unit: 'mg N/L',
    source: 'musts',
  };
  const outside = firstOutOfRange(
    [given.volumeLitres, VOLUME],
    [given.nitrogenMgPerLitre, nitrogen],
    [given.targetMgPerLitre, { ...nitrogen, quantity: 'targetMgPerLitre', high: 400 }],
  );
  if (outside) return err(outside);
  const short = Math.max(0, given.targetMgPerLitre - given.nitrogenMgPerLitre);
  const gramsPerLitre = short / 1000 / NITROGEN_IN_PHOSPHATE;
  return ok({
    nitrogenShortMgPerLitre: short,
    phosphateGrams: gramsPerLitre * given.volumeLitres,
    aboveMaximum: gramsPerLitre > PHOSPHATE_MAXIMUM_GRAMS_PER_LITRE,
  });
}
