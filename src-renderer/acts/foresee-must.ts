import { convertAcidity } from '#core/acid/acid-equivalents.ts';
import { foreseeVinegar, type ForeseenVinegar } from '#core/acid/foresee-vinegar.ts';
import type { ReadingValues } from '#core/ledger/act.ts';
import type { FermentKind } from '#core/ledger/stage.ts';
import { correctHydrometer } from '#core/must/hydrometer.ts';
import { fermentableSugar, type SugarSource } from '#core/must/must-sugar.ts';
import { potentialAlcohol, type PotentialAlcohol } from '#core/must/potential-alcohol.ts';
import { gravityToBrix } from '#core/quantities/gravity.ts';
import { roundedText } from '#core/quantities/round.ts';

export interface ForeseenMust {
  readonly alcohol: PotentialAlcohol;
  readonly vinegar: ForeseenVinegar;
}

/** Kinds whose sugar becomes alcohol, and what their sugar is taken to be of. */
const SUGAR_OF: Partial<Readonly<Record<FermentKind, SugarSource>>> = {
  fruitVinegar: 'other',
  cider: 'apple',
  wine: 'other',
  mead: 'honey',
};

/**
 * What a measured must may become: alcohol from its sugar, then vinegar from that alcohol. Null where the kind makes
 * none, no gravity is known, or it lies outside the range of the published formulas. A forecast, never a reading.
 */
export function foreseeMust(values: ReadingValues | null, ferment: FermentKind | null): ForeseenMust | null {
  const of = ferment === null ? undefined : SUGAR_OF[ferment];
  if (values?.gravitySg == null || of === undefined) return null;
  const brix = gravityToBrix(correctedMust(values) ?? values.gravitySg);
  if (!brix.ok) return null;
  const sugar = fermentableSugar({ brix: brix.value, of });
  if (!sugar.ok) return null;
  const { lowGramsPerLitre: low, midGramsPerLitre: mid, highGramsPerLitre: high } = sugar.value;
  const alcohol = potentialAlcohol({
    sugarGramsPerLitre: mid,
    sugarUncertaintyGramsPerLitre: (high - low) / 2,
  });
  if (!alcohol.ok) return null;
  const { planPercentVol, planUncertaintyPercentVol } = alcohol.value;
  const vinegar = foreseeVinegar({
    alcoholPercentVol: planPercentVol,
    alcoholUncertainty: planUncertaintyPercentVol,
    acidityGramsPer100Ml: acidAsAcetic(values),
    acidityUncertainty: 0,
  });
  return vinegar.ok ? { alcohol: alcohol.value, vinegar: vinegar.value } : null;
}

/** The gravity of unfermented must brought to 20 °C, or null when it needs no correction or cannot have one. */
export function correctedMust(values: ReadingValues): number | null {
  const { gravitySg, gravityInstrument, temperatureCelsius, gravityCalibrationCelsius } = values;
  if (gravitySg === null || temperatureCelsius === null || gravityCalibrationCelsius === null) return null;
  if (gravityInstrument !== 'hydrometer') return null;
  const corrected = correctHydrometer({
    reading: gravitySg,
    temperatureCelsius,
    calibrationCelsius: gravityCalibrationCelsius,
    alcoholPercentVol: 0,
  });
  return corrected.ok ? corrected.value.specificGravity : null;
}

function acidAsAcetic(values: ReadingValues): number {
  const { acidityGramsPer100Ml: acidity, acidityAs: from } = values;
  if (acidity === null || from === null) return 0;
  const converted = convertAcidity({ acidity, from, to: 'acetic' });
  return converted.ok ? Math.min(15, converted.value) : 0;
}

/** The forecast in two sentences, theory and plan each by name; rounded to what it can bear. */
export function sayForeseen({ alcohol, vinegar }: ForeseenMust): readonly string[] {
  const plan = roundedText(alcohol.planPercentVol, 1);
  const give = roundedText(alcohol.planUncertaintyPercentVol, 1, 'upper');
  const theory = roundedText(alcohol.theoryPercentVol, 1);
  return [
    `May become about ${plan} % vol by plan, give or take ${give}; ${theory} % vol in theory.`,
    `As vinegar then at most about ${roundedText(vinegar.planHigh, 1)} g/100 mL by plan, counted as acetic; ${roundedText(vinegar.theory, 1)} in theory.`,
  ];
}
