import { EQUIVALENT_MASS } from '#core/acid/acid-equivalents.ts';
import { baseStrengthFromPhthalate } from '#core/acid/titration.ts';
import { readMl } from './build-titration.ts';
import type { FormReader } from './form-reader.ts';

/** A standard titrated before the samples: a weighed salt, or a vinegar whose strength is known. */
export const STANDARDS = {
  none: 'None tonight',
  phthalate: 'Potassium hydrogen phthalate, weighed',
  vinegar: 'A vinegar of known strength',
} as const;

export const STANDARD_FIELDS = {
  standard: '',
  phthalateGrams: '',
  knownPercent: '',
  standardSampleMl: '',
  standardMl: '',
  strengthUsed: 'found',
} as const;

export interface StandardFound {
  /** mol/L of the base as the standard shows it. */
  readonly normality: number;
  /** Relative difference from the strength on the bottle. */
  readonly off: number;
}

/** A strength found within this of the bottle's counts as the same. Policy: twice the usual error of an opened base. */
const AGREES = 0.06;
/** Beyond this one of the numbers is a slip. Policy. */
const SLIP = 0.5;

const GRAMS = { units: /^(?:g|grams?)$/iu, sample: '0.5 g' };
const PERCENT = { units: /^(?:%|percent)$/iu, sample: '5 %' };

/** The strength of the base by tonight's standard; null when none was titrated or it is not whole yet. */
export function readStandard(
  read: FormReader,
  given: { readonly normality: number | null; readonly blankMl: number },
): StandardFound | null {
  const { normality, blankMl } = given;
  const standard = read.choiceOrNone('standard', STANDARDS);
  if (standard === null) {
    read.problem('standard', 'Say which standard you titrate first, or none tonight.');
    return null;
  }
  if (standard === 'none') return null;
  const usedMl = readMl(read, 'standardMl', 500);
  if (read.raw('standardMl') === '')
    read.problem('standardMl', 'Type how many mL of base the standard took.');
  const found =
    standard === 'phthalate' ? byPhthalate(read, usedMl, blankMl) : byVinegar(read, usedMl, blankMl);
  if (found === null || normality === null) return null;
  const off = found / normality - 1;
  if (Math.abs(off) > SLIP) {
    read.problem(
      'standardMl',
      `The standard makes the base ${found.toPrecision(2)} N, and the bottle says ${normality} N. One of the numbers is wrong.`,
    );
    return null;
  }
  return { normality: found, off };
}

/** True when the standard and the bottle say the same within what a home titration can tell. */
export function agrees({ off }: StandardFound): boolean {
  return Math.abs(off) <= AGREES;
}

function byPhthalate(read: FormReader, usedMl: number | null, blankMl: number): number | null {
  const phthalateGrams = read.number('phthalateGrams', GRAMS);
  if (read.raw('phthalateGrams') === '') read.problem('phthalateGrams', 'Type how many grams were weighed.');
  if (phthalateGrams === null || usedMl === null) return null;
  if (!(phthalateGrams > 0)) {
    read.problem('phthalateGrams', 'This has to be more than nothing.');
    return null;
  }
  const strength = baseStrengthFromPhthalate({ phthalateGrams, baseMl: usedMl - blankMl });
  if (strength.ok) return strength.value;
  const field = strength.error.quantity === 'baseMl' ? 'standardMl' : 'phthalateGrams';
  const { low, high, unit } = strength.error;
  read.problem(field, `This goes from ${low} to ${high} ${unit}. Check the number and its unit.`);
  return null;
}

function byVinegar(read: FormReader, usedMl: number | null, blankMl: number): number | null {
  const percent = read.number('knownPercent', PERCENT);
  const sampleMl = readMl(read, 'standardSampleMl', 500);
  if (read.raw('knownPercent') === '') read.problem('knownPercent', 'Type the strength it is known to have.');
  if (read.raw('standardSampleMl') === '') {
    read.problem('standardSampleMl', 'Type how many mL of the known vinegar were titrated.');
  }
  if (percent !== null && !(percent > 0 && percent <= 25)) {
    read.problem('knownPercent', 'A vinegar is known by 1 to 25 %. Check the number.');
    return null;
  }
  if (percent === null || sampleMl === null || usedMl === null) return null;
  const net = usedMl - blankMl;
  if (!(net > 0) || !(sampleMl > 0)) {
    read.problem('standardMl', 'The standard has to take more base than the blank.');
    return null;
  }
  // The titration turned round: the acid is known, and the strength of the base is asked for.
  return (percent * 10 * sampleMl) / (net * EQUIVALENT_MASS.acetic);
}
