import { foreseeVinegar } from '../acid/foresee-vinegar.ts';
import type { ReadingRecord } from '../ledger/records.ts';
import { alcoholFromGravities } from '../must/attenuation.ts';
import { fermentableSugar } from '../must/must-sugar.ts';
import { potentialAlcohol } from '../must/potential-alcohol.ts';
import { gravityToBrix } from '../quantities/gravity.ts';
import type { FermentProfile } from './ferment.ts';
import { acidityAsAcetic, correctedGravity } from './interpret-reading.ts';

export interface ForesightFacts {
  readonly profile: FermentProfile;
  /** Readings that speak of this liquid and what it was, oldest first. */
  readonly readings: readonly ReadingRecord[];
  /** When yeast first went to work on it; null when it has not. */
  readonly yeastFromMs: number | null;
  /** When a mother first went to work on it: from then on gravity says nothing of alcohol. */
  readonly motherFromMs: number | null;
}

/** What the must may become. Percent vol; acidity g/100 mL as acetic. A forecast never clears a safety rule. */
export interface Foreseen {
  readonly originalGravitySg: number;
  readonly measuredAtMs: number;
  readonly brix: number;
  readonly alcoholTheoryPercent: number;
  readonly alcoholPlanPercent: number;
  readonly alcoholPlanUncertainty: number;
  readonly alcoholNowPercent: number | null;
  readonly alcoholNowUncertainty: number | null;
  readonly acidityTheoryGramsPer100Ml: number;
  readonly acidityPlanLowGramsPer100Ml: number;
  readonly acidityPlanHighGramsPer100Ml: number;
}

/** Error of an alcohol worked out from two hydrometer gravities, % vol (safety rules, section 3; policy). */
const ALCOHOL_FROM_GRAVITIES_U = 0.5;

/**
 * What the measured must may become: alcohol by theory and by plan, and the vinegar after it. Null when no gravity
 * was read in the must, when its kind of ferment foresees none, or outside the published ranges.
 */
export function foresee(facts: ForesightFacts): Foreseen | null {
  const { profile } = facts;
  if (profile.sugarSource === null) return null;
  const gravities = gravitiesIn(facts.readings);
  const original = originalGravity(gravities, facts.yeastFromMs);
  if (original === null) return null;
  const brix = gravityToBrix(original.sg);
  if (!brix.ok) return null;
  const sugar = fermentableSugar({ brix: brix.value, of: profile.sugarSource });
  if (!sugar.ok) return null;
  const { lowGramsPerLitre, midGramsPerLitre, highGramsPerLitre } = sugar.value;
  const alcohol = potentialAlcohol({
    sugarGramsPerLitre: midGramsPerLitre,
    sugarUncertaintyGramsPerLitre: (highGramsPerLitre - lowGramsPerLitre) / 2,
  });
  if (!alcohol.ok) return null;
  const { theoryPercentVol, planPercentVol, planUncertaintyPercentVol } = alcohol.value;
  const acidGramsPer100Ml = fruitAcid(facts);
  const base = { acidityGramsPer100Ml: acidGramsPer100Ml, acidityUncertainty: 0 };
  const theory = foreseeVinegar({ alcoholPercentVol: theoryPercentVol, alcoholUncertainty: 0, ...base });
  const plan = foreseeVinegar({
    alcoholPercentVol: planPercentVol,
    alcoholUncertainty: planUncertaintyPercentVol,
    ...base,
  });
  if (!theory.ok || !plan.ok) return null;
  const now = alcoholNow(facts, gravities, original);
  return {
    originalGravitySg: original.sg,
    measuredAtMs: original.atMs,
    brix: brix.value,
    alcoholTheoryPercent: theoryPercentVol,
    alcoholPlanPercent: planPercentVol,
    alcoholPlanUncertainty: planUncertaintyPercentVol,
    alcoholNowPercent: now,
    alcoholNowUncertainty: now === null ? null : ALCOHOL_FROM_GRAVITIES_U,
    acidityTheoryGramsPer100Ml: theory.value.theory,
    acidityPlanLowGramsPer100Ml: plan.value.planLow,
    acidityPlanHighGramsPer100Ml: plan.value.planHigh,
  };
}

interface Gravity {
  readonly sg: number;
  readonly atMs: number;
}

function gravitiesIn(readings: readonly ReadingRecord[]): Gravity[] {
  return readings.flatMap((reading) => {
    const sg = correctedGravity(reading.values);
    return sg === null ? [] : [{ sg, atMs: reading.atMs }];
  });
}

/** The last gravity read before yeast went to work, or the first one ever read. */
function originalGravity(all: readonly Gravity[], yeastFromMs: number | null): Gravity | null {
  const must = yeastFromMs === null ? all : all.filter((g) => g.atMs <= yeastFromMs);
  return must.at(-1) ?? all[0] ?? null;
}

function alcoholNow(
  { yeastFromMs, motherFromMs }: ForesightFacts,
  gravities: readonly Gravity[],
  original: Gravity,
): number | null {
  // A mother eats alcohol and hides it from the hydrometer, so what was there before it came in is not there now.
  if (yeastFromMs === null || motherFromMs !== null) return null;
  const latest = gravities.filter((g) => g.atMs > original.atMs && g.atMs >= yeastFromMs).at(-1);
  if (latest === undefined) return null;
  const percent = alcoholFromGravities({ originalGravity: original.sg, presentGravity: latest.sg });
  return percent.ok ? percent.value : null;
}

/** The acid of the must itself, as acetic, when it was titrated before a mother came in; it stays in the vinegar. */
function fruitAcid({ readings, motherFromMs }: ForesightFacts): number {
  const before = readings.filter((r) => motherFromMs === null || r.atMs < motherFromMs);
  const acids = before.map((r) => acidityAsAcetic(r.values)).filter((a) => a !== null);
  return acids[0] ?? 0;
}
