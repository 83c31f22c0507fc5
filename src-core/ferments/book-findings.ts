import { convertAcidity } from '../acid/acid-equivalents.ts';
import type { ActOf } from '../ledger/act.ts';
import type { Liquid } from '../ledger/liquid.ts';
import { totalUg, type Component, type Masses } from '../ledger/masses.ts';
import { acetify, ferment, PPM } from '../ledger/reactions.ts';
import type { ReadingRecord } from '../ledger/records.ts';
import type { FermentKind, FilledStage } from '../ledger/stage.ts';
import { ETHANOL_GRAMS_PER_LITRE_PER_PERCENT } from '../must/alcohol.ts';
import { assayMust } from './assay.ts';
import type { Foreseen } from './foresight.ts';
import { acidityAsAcetic } from './interpret-reading.ts';

export type ReconcileStep = ActOf<'reconcile'>['steps'][number];

/** A reading departs from what the book says a liquid is made of by more than its own error. */
export interface BookFinding {
  readonly what: 'composition' | 'alcohol' | 'acid' | 'salt';
  readonly readingId: ReadingRecord['id'];
  readonly atMs: number;
  /** % vol for alcohol, g/100 mL as acetic for acid, % m/m for salt; null for a composition never measured. */
  readonly bookValue: number | null;
  readonly readValue: number | null;
  readonly tolerance: number;
  /** What would settle it; empty when nothing in the book can. */
  readonly steps: readonly ReconcileStep[];
  /** Why living work alone does not explain it; null when it does. */
  readonly doubt: 'neverMeasured' | 'moreAlcoholThanSugar' | 'moreAcidThanAlcohol' | 'lessThanBefore' | null;
}

export interface BookFacts {
  readonly ferment: FermentKind;
  readonly stage: FilledStage;
  readonly liquid: Liquid;
  /** Readings that still describe the liquid, oldest first. */
  readonly readings: readonly ReadingRecord[];
  readonly foreseen: Foreseen | null;
}

/** Yeast under an airlock makes 0.91 of the theory (models D2, policy); a surface culture turns 0.85 of the alcohol into acid. */
export const PLAN_YIELD_PPM = 910_000;
export const ACID_SHARE_PPM = 850_000;
/** Yeast gives at most about 95 % of the theory, the rest being glycerol, acids and yeast (Pasteur 1860; from memory). */
const YIELD_MOST_PPM = 950_000;
/** Errors where a reading says none: % vol (safety rules, section 3), g/100 mL and % m/m (policy). */
const ALCOHOL_U = 0.5;
const ACIDITY_U = 0.2;
const SALT_U = 0.2;

/** All that the newest readings find against the book, with what would settle each. An empty list is agreement or silence. */
export function bookFindings(facts: BookFacts): readonly BookFinding[] {
  const composition = compositionFinding(facts);
  if (composition !== null) return [composition];
  return [alcoholFinding(facts), acidFinding(facts), saltFinding(facts)].filter((found) => found !== null);
}

/** The book counts it as never measured, and a must's gravity was read before yeast went in. */
function compositionFinding({ ferment: kind, stage, liquid, readings }: BookFacts): BookFinding | null {
  const { unassayed = 0 } = liquid.massesUg;
  if (stage !== 'waiting' || unassayed < totalUg(liquid.massesUg) / 2) return null;
  const reading = readings.findLast(({ values }) => values.gravitySg !== null);
  if (reading === undefined) return null;
  const massesUg = assayMust({ measured: reading.values, volumeUl: liquid.volumeUl, ferment: kind });
  if (massesUg === null) return null;
  return {
    ...{ what: 'composition', readingId: reading.id, atMs: reading.atMs, bookValue: null, readValue: null },
    ...{ tolerance: 0, steps: [{ kind: 'assay', massesUg, whole: true }], doubt: null },
  };
}

function alcoholFinding({ liquid, readings, foreseen }: BookFacts): BookFinding | null {
  const found = newestAlcohol(readings, foreseen);
  if (found === null) return null;
  const { reading, percent, tolerance } = found;
  const { volumeUl, massesUg } = liquid;
  const ugPerPercent = ETHANOL_GRAMS_PER_LITRE_PER_PERCENT * volumeUl;
  const heldUg = massesUg.ethanol ?? 0;
  const bookValue = heldUg / ugPerPercent;
  const base = {
    ...{ what: 'alcohol' as const, readingId: reading.id, atMs: reading.atMs },
    ...{ bookValue, readValue: percent, tolerance },
  };
  if (Math.abs(percent - bookValue) <= tolerance) return null;
  const wantedUg = Math.round(percent * ugPerPercent);
  if (percent < bookValue) {
    return { ...base, steps: [set('ethanol', wantedUg)], doubt: 'lessThanBefore' };
  }
  const sugarUg = massesUg.sugar ?? 0;
  if (sugarUg === 0 && (massesUg.unassayed ?? 0) > 0) {
    return { ...base, steps: [set('ethanol', wantedUg)], doubt: 'neverMeasured' };
  }
  const step = fermentTo(sugarUg, wantedUg - heldUg);
  if (step === null) return { ...base, steps: [], doubt: 'moreAlcoholThanSugar' };
  const made = ferment(step.sugarUg, step.yieldPpm).vessel.ethanol ?? 0;
  const isEnough = step.yieldPpm <= YIELD_MOST_PPM && heldUg + made >= wantedUg - tolerance * ugPerPercent;
  return { ...base, steps: [step], doubt: isEnough ? null : 'moreAlcoholThanSugar' };
}

/** So much sugar at the plan's yield as gives the alcohol; all of it, at the yield it then must have had, when that is not enough. */
function fermentTo(heldUg: number, ethanolUg: number): Extract<ReconcileStep, { kind: 'ferment' }> | null {
  if (heldUg === 0) return null;
  const planned = Math.ceil(((ethanolUg / PPM.ethanolFromHexose) * 1e12) / PLAN_YIELD_PPM);
  if (planned <= heldUg) return { kind: 'ferment', sugarUg: planned, yieldPpm: PLAN_YIELD_PPM };
  const yieldPpm = Math.min(1_000_000, Math.ceil(((ethanolUg / PPM.ethanolFromHexose) * 1e12) / heldUg));
  return { kind: 'ferment', sugarUg: heldUg, yieldPpm };
}

function newestAlcohol(
  readings: readonly ReadingRecord[],
  foreseen: Foreseen | null,
): { readonly reading: ReadingRecord; readonly percent: number; readonly tolerance: number } | null {
  const measured = readings.findLast(({ values }) => values.alcoholPercentVolume !== null);
  const gravity = readings.findLast(({ values }) => values.gravitySg !== null);
  const { alcoholNowPercent = null, alcoholNowUncertainty = null } = foreseen ?? {};
  if (gravity !== undefined && alcoholNowPercent !== null && (measured?.atMs ?? 0) <= gravity.atMs) {
    return { reading: gravity, percent: alcoholNowPercent, tolerance: alcoholNowUncertainty ?? ALCOHOL_U };
  }
  const percent = measured?.values.alcoholPercentVolume ?? null;
  if (measured === undefined || percent === null) return null;
  const tolerance = Math.max(ALCOHOL_U, measured.values.detail?.alcoholUncertainty ?? 0);
  return { reading: measured, percent, tolerance };
}

function acidFinding({ stage, liquid, readings }: BookFacts): BookFinding | null {
  const reading = readings.findLast(({ values }) => acidityAsAcetic(values) !== null);
  const readValue = reading === undefined ? null : acidityAsAcetic(reading.values);
  if (reading === undefined || readValue === null) return null;
  const { volumeUl, massesUg } = liquid;
  const ugPerGram = volumeUl * 10;
  const bookValue = acidUgAsAcetic(massesUg) / ugPerGram;
  const tolerance = Math.max(ACIDITY_U, reading.values.acidityUncertainty ?? 0);
  if (Math.abs(readValue - bookValue) <= tolerance) return null;
  const base = {
    ...{ what: 'acid' as const, readingId: reading.id, atMs: reading.atMs },
    ...{ bookValue, readValue, tolerance },
  };
  const moreUg = Math.round((readValue - bookValue) * ugPerGram);
  const isSour = stage === 'lactic';
  const acid: Component = isSour ? 'lactic' : 'acetic';
  const heldUg = massesUg[acid] ?? 0;
  if (moreUg < 0) {
    const isBurning = !isSour && heldUg >= -moreUg && (massesUg.ethanol ?? 0) < volumeUl * OVER_OXIDATION_UG;
    const steps: ReconcileStep[] = isBurning
      ? [{ kind: 'overOxidise', aceticUg: -moreUg }]
      : [set(acid, Math.max(0, heldUg + moreUg))];
    return { ...base, steps, doubt: isBurning ? null : 'lessThanBefore' };
  }
  const made = isSour ? lacticFrom(massesUg, moreUg) : aceticFrom(massesUg, moreUg);
  if (made !== null) return { ...base, steps: [made], doubt: null };
  const isUnknown = (massesUg.unassayed ?? 0) > 0;
  const lactic = isSour ? Math.round(moreUg * LACTIC_PER_ACETIC) : moreUg;
  return {
    ...base,
    steps: [set(acid, heldUg + lactic)],
    doubt: isUnknown ? 'neverMeasured' : 'moreAcidThanAlcohol',
  };
}

/** Under half a per cent of alcohol the bacteria turn to the acid: 0.5 % vol in µg a µL (models A4, policy). */
const OVER_OXIDATION_UG = 0.5 * ETHANOL_GRAMS_PER_LITRE_PER_PERCENT;
const LACTIC_PER_ACETIC = factor('acetic', 'lactic');

function aceticFrom(massesUg: Masses, aceticUg: number): ReconcileStep | null {
  const ethanolUg = Math.ceil(((aceticUg / PPM.aceticFromEthanol) * 1e12) / ACID_SHARE_PPM);
  const heldUg = massesUg.ethanol ?? 0;
  if (ethanolUg <= heldUg) return { kind: 'acetify', ethanolUg, acidSharePpm: ACID_SHARE_PPM };
  const made = acetify(heldUg, 1_000_000).vessel.acetic ?? 0;
  if (heldUg === 0 || made < aceticUg) return null;
  const acidSharePpm = Math.min(1_000_000, Math.ceil(((aceticUg / PPM.aceticFromEthanol) * 1e12) / heldUg));
  return { kind: 'acetify', ethanolUg: heldUg, acidSharePpm };
}

function lacticFrom(massesUg: Masses, asAceticUg: number): ReconcileStep | null {
  const sugarUg = Math.round(asAceticUg * LACTIC_PER_ACETIC);
  return sugarUg > 0 && sugarUg <= (massesUg.sugar ?? 0) ? { kind: 'sour', sugarUg } : null;
}

/** All titratable acid of the book counted as acetic; fruit acid is counted as malic. */
function acidUgAsAcetic({ acetic = 0, lactic = 0, fixedAcid = 0 }: Masses): number {
  return acetic + lactic * factor('lactic', 'acetic') + fixedAcid * factor('malic', 'acetic');
}

function factor(from: 'acetic' | 'lactic' | 'malic', to: 'acetic' | 'lactic'): number {
  const converted = convertAcidity({ acidity: 1, from, to });
  return converted.ok ? converted.value : 1;
}

function saltFinding({ liquid, readings }: BookFacts): BookFinding | null {
  const reading = readings.findLast(({ values }) => (values.detail?.saltPercent ?? null) !== null);
  const readValue = reading?.values.detail?.saltPercent ?? null;
  if (reading === undefined || readValue === null) return null;
  const { massesUg } = liquid;
  const wholeUg = totalUg(massesUg);
  const bookValue = (100 * (massesUg.salt ?? 0)) / wholeUg;
  if (Math.abs(readValue - bookValue) <= SALT_U) return null;
  return {
    ...{ what: 'salt', readingId: reading.id, atMs: reading.atMs, bookValue, readValue, tolerance: SALT_U },
    steps: [set('salt', Math.round((wholeUg * readValue) / 100))],
    doubt: readValue < bookValue ? 'lessThanBefore' : 'neverMeasured',
  };
}

/** An assay of one component; what it grows by comes out of what was never measured, as far as there is any. */
function set(component: Component, ug: number): ReconcileStep {
  return { kind: 'assay', massesUg: { [component]: ug }, whole: false };
}
