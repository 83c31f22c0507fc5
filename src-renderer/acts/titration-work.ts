import { EQUIVALENT_MASS } from '#core/acid/acid-equivalents.ts';
import { HOME_TITRATION_ERRORS, titrationResult, type TitrationResult } from '#core/acid/titration-result.ts';
import type { ReadingDetail, ReadingValues, TitrationDetail } from '#core/ledger/act.ts';
import { formatWithUncertainty } from '#core/quantities/format-quantity.ts';
import { roundedText } from '#core/quantities/round.ts';
import type { Acid } from '#core/quantities/understood.ts';
import { effectiveUncertainty, type Method } from '#core/quantities/uncertainty.ts';
import type { OutOfRange } from '#core/quantities/validity.ts';
import type { Result } from '#core/base/result.ts';
import { mapOk } from '#core/base/result.ts';
import { isSoundTitration, OLD_BASE_RELATIVE_UNCERTAINTY } from '#core/safety/measurement.ts';
import type { Answer } from '#core/safety/rule.ts';
import { trimmed } from '../words/quantity-words.ts';

/** The two kits a household titrates with, and what the rules credit each with. */
export const KITS = { syringeKit: 'taSyringeKit', burette: 'taBurette' } as const satisfies Record<
  string,
  Method
>;
export type Kit = keyof typeof KITS;

/** A titration as far as it is done, whole enough to be worked out. */
export interface TitrationDone {
  readonly kit: Kit;
  readonly acid: Acid;
  readonly sampleMl: number;
  readonly titrantMl: readonly number[];
  readonly blankMl: number;
  readonly normality: number;
}

export interface TitrationWorked {
  readonly result: TitrationResult;
  /** The error the rules use: that of this titration, or the method's usual one where this one promises too much. */
  readonly uncertainty: number;
  /** True when the error worked out is smaller than any titration by this method is credited with. */
  readonly promisesTooMuch: boolean;
}

/** The result of a titration with its error. Errors name the part that is out of range. */
export function workOut(done: TitrationDone): Result<TitrationWorked, OutOfRange> {
  const { kit, acid, sampleMl, titrantMl, blankMl, normality } = done;
  const result = titrationResult({
    ...{ baseMl: titrantMl, blankMl, normality, sampleMl, acid, errors: HOME_TITRATION_ERRORS },
  });
  return mapOk(result, (found) => {
    const { acidity, uncertainty } = found;
    const used = effectiveUncertainty({
      value: acidity,
      givenUncertainty: uncertainty,
      method: KITS[kit],
    });
    return {
      result: found,
      uncertainty: used?.uncertainty ?? uncertainty,
      promisesTooMuch: used?.from === 'default',
    };
  });
}

/** `4.9 ± 0.2 % as acetic`: rounded down, since it is held against lower limits, and the error up. */
export function sayWorked({ result, uncertainty }: TitrationWorked, acid: Acid): string {
  const { acidity } = result;
  return `${formatWithUncertainty({ value: acidity, uncertainty, unit: '%', side: 'lower' })} as ${acid}`;
}

/** The working on one line: mean of the readings less the blank, times strength and acid, over the sample. */
export function sayWorking(done: TitrationDone, { result }: TitrationWorked): string {
  const { acid, sampleMl, titrantMl, blankMl, normality } = done;
  const read = titrantMl.map((ml) => trimmed(ml, 3));
  const mean = read.length === 1 ? (read[0] ?? '') : `(${read.join(' + ')}) ÷ ${read.length}`;
  const net = blankMl === 0 ? `${mean} mL` : `(${mean} − ${trimmed(blankMl, 3)}) mL`;
  const mass = roundedText(EQUIVALENT_MASS[acid], 2);
  const acidity = roundedText(result.acidity, 2, 'lower');
  return `${net} × ${trimmed(normality, 4)} N × ${mass} ÷ (10 × ${trimmed(sampleMl, 3)} mL) = ${acidity} g/100 mL as ${acid}`;
}

/** What rule MEAS-06 says of how it was done, at the time it was done. */
export function soundness(titration: TitrationDetail, kit: Kit, atMs: number): Answer | null {
  return isSoundTitration({
    ...{ quantity: 'acidity', value: 1, uncertainty: null, method: KITS[kit], provenance: 'measured' },
    ...{ takenAtMs: atMs, acid: 'acetic', basis: 'w/v', fixedAcidGramsPer100Ml: null, titration },
  });
}

/** What to make of it, in words; null while all is well. */
export function saySoundness(answer: Answer | null): string | null {
  if (answer === null || answer.verdict === 'ok') return null;
  const wants = answer.measureNext?.quantity ?? '';
  if (answer.verdict === 'caution') {
    return `The base was last checked, or bought, more than six months ago. The rules widen the error to ${100 * OLD_BASE_RELATIVE_UNCERTAINTY} % of the result.`;
  }
  if (answer.reason === 'uncalibrated') {
    return 'Nobody knows how strong this base still is. It grows weak in air, and weak base makes weak vinegar look strong, so no rule will use this result. Check it against a standard, or open a new bottle.';
  }
  if (wants === 'endPoint') {
    return 'Colour cannot be told in a dark sample, or whether it is dark was not said, so no rule will use this result. Titrate to pH 8.2 on a meter.';
  }
  if (wants === 'degassed') {
    return 'Gas in the sample counts as acid, or whether there is any was not said, so no rule will use this result. Shake or boil it out first.';
  }
  return 'The strength of the base has to be known before any rule can use this result.';
}

/** The values of a reading found by titration, with all that rule MEAS-06 asks. */
export function titratedReading(given: {
  readonly done: TitrationDone;
  readonly worked: TitrationWorked;
  readonly titration: TitrationDetail;
  readonly fixedAcidGramsPer100Ml: number | null;
  readonly taste: string;
}): ReadingValues {
  const { done, worked, titration, fixedAcidGramsPer100Ml, taste } = given;
  return {
    ...{
      gravitySg: null,
      gravityInstrument: null,
      gravityCalibrationCelsius: null,
      temperatureCelsius: null,
    },
    ...{ ph: null, phMethod: null },
    acidityGramsPer100Ml: worked.result.acidity,
    acidityAs: done.acid,
    acidityMethod: done.kit,
    acidityUncertainty: worked.promisesTooMuch ? null : worked.result.uncertainty,
    ...{ volumeUl: null, freeSulfiteMgPerL: null, alcoholPercentVolume: null, taste },
    detail: { ...NOTHING_SAID, titration, acidityBasis: 'w/v', fixedAcidGramsPer100Ml },
  };
}

/** How the values were found, with nothing said of any. */
export const NOTHING_SAID: ReadingDetail = {
  ...{ titration: null, acidityBasis: null, fixedAcidGramsPer100Ml: null, gravityUncertainty: null },
  ...{ phUncertainty: null, phSampleFrom: null, phEquilibriumShown: null, alcoholMethod: null },
  ...{ alcoholUncertainty: null, totalSulfiteMgPerL: null, saltPercent: null },
};
