import { err, ok, type Result } from '../base/result.ts';
import { firstOutOfRange, type Limits, type OutOfRange } from '../quantities/validity.ts';
import { ACETIC_PER_PERCENT_THEORY } from './acetification.ts';
import { SEEDING_ADVICE } from './seeding.ts';

/** A strength or acidity with its expanded uncertainty. */
export interface Measured {
  readonly value: number;
  readonly uncertainty: number;
}

export interface Standing {
  readonly alcoholPercentVol: Measured;
  readonly acidityGramsPer100Ml: Measured;
}

export type ProgressNote =
  /** GK has fallen by more than both readings can be wrong: evaporation or over-oxidation. */
  | 'totalConcentrationFell'
  /** The acidity itself has fallen beyond its error: the bacteria burn acid. */
  | 'acidityFell'
  /** So little alcohol is left that the bacteria may turn to the acid. */
  | 'alcoholNearlyGone'
  /** More acid than the alcohol could make, ten per cent of evaporation allowed: one reading is wrong. */
  | 'moreAcidThanPossible';

export interface AcetificationProgress {
  /** GK now over GK at the start, with its expanded uncertainty. */
  readonly concentrationYield: Measured;
  /** Acid made over acid that the alcohol used could make; null while hardly any alcohol has been used. */
  readonly acidYield: number | null;
  readonly notes: readonly ProgressNote[];
}

/** Evaporation may concentrate what is left by so much. Policy (rule MEAS-10). */
const EVAPORATION = 1.1;

/**
 * How an acetification has gone from one standing to a later one of the same liquid: yields by total concentration (GK) and
 * by acid, and warnings where the difference is larger than the combined uncertainty. Sources: GK convention of the Ebner
 * school; theory 1.0288 g/100 mL per 1 % vol.
 */
export function acetificationProgress(
  start: Standing,
  now: Standing,
): Result<AcetificationProgress, OutOfRange> {
  const source = 'GK convention';
  const strength: Limits = { quantity: 'alcoholPercentVol', low: 0, high: 20, unit: '% vol', source };
  const acidity: Limits = { quantity: 'acidityGramsPer100Ml', low: 0, high: 20, unit: 'g/100 mL', source };
  const outside = firstOutOfRange(
    ...[start, now].flatMap((standing) => [
      [standing.alcoholPercentVol.value, strength] as const,
      [standing.alcoholPercentVol.uncertainty, strength] as const,
      [standing.acidityGramsPer100Ml.value, acidity] as const,
      [standing.acidityGramsPer100Ml.uncertainty, acidity] as const,
    ]),
    [totalOf(start).value, { ...acidity, quantity: 'totalConcentration', low: 0.5, high: 40, unit: 'GK' }],
  );
  if (outside) return err(outside);
  const [before, after] = [totalOf(start), totalOf(now)];
  const used = start.alcoholPercentVol.value - now.alcoholPercentVol.value;
  const made = now.acidityGramsPer100Ml.value - start.acidityGramsPer100Ml.value;
  const share = after.value / before.value;
  return ok({
    concentrationYield: {
      value: share,
      uncertainty: Math.hypot(after.uncertainty, share * before.uncertainty) / before.value,
    },
    acidYield: used > 0.5 ? made / (used * ACETIC_PER_PERCENT_THEORY) : null,
    notes: notesOf(start, now),
  });
}

function notesOf(start: Standing, now: Standing): readonly ProgressNote[] {
  const notes: ProgressNote[] = [];
  const [before, after] = [totalOf(start), totalOf(now)];
  if (before.value - after.value > Math.hypot(before.uncertainty, after.uncertainty)) {
    notes.push('totalConcentrationFell');
  }
  const acidBefore = start.acidityGramsPer100Ml;
  const acidNow = now.acidityGramsPer100Ml;
  if (acidBefore.value - acidNow.value > Math.hypot(acidBefore.uncertainty, acidNow.uncertainty)) {
    notes.push('acidityFell');
  }
  if (now.alcoholPercentVol.value <= SEEDING_ADVICE.reserveAlcohol.high) notes.push('alcoholNearlyGone');
  const used = Math.max(0, start.alcoholPercentVol.value - now.alcoholPercentVol.value);
  const ceiling = (acidBefore.value + ACETIC_PER_PERCENT_THEORY * used) * EVAPORATION;
  const unsure = Math.hypot(
    acidBefore.uncertainty,
    acidNow.uncertainty,
    ACETIC_PER_PERCENT_THEORY *
      Math.hypot(start.alcoholPercentVol.uncertainty, now.alcoholPercentVol.uncertainty),
  );
  if (acidNow.value - ceiling > unsure) notes.push('moreAcidThanPossible');
  return notes;
}

function totalOf(standing: Standing): Measured {
  const { alcoholPercentVol: alcohol, acidityGramsPer100Ml: acid } = standing;
  return {
    value: alcohol.value + acid.value,
    uncertainty: Math.hypot(alcohol.uncertainty, acid.uncertainty),
  };
}
