import { titratableAcidity } from '#core/acid/titration.ts';
import { EQUIVALENT_MASS } from '#core/acid/acid-equivalents.ts';
import type { TitrationDetail } from '#core/ledger/act.ts';
import { roundedText } from '#core/quantities/round.ts';
import type { Acid } from '#core/quantities/understood.ts';
import type { FormReader } from './form-reader.ts';

/** What a titration is worked out from: millilitres of sodium hydroxide, its strength, millilitres of sample. */
export const TITRATION_FIELDS = {
  titrationBaseMl: '',
  titrationNormality: '',
  titrationSampleMl: '',
} as const;

const MILLILITRES = { units: /^(?:ml|cc|millilitres?|milliliters?)$/iu, sample: '12.4 ml' };
const NORMALITY = { units: /^(?:n|mol\/l|m)$/iu, sample: '0.1 N' };

/** A titration typed into a reading: its acidity in g/100 mL, and as much of how it was done as was said. */
export interface TitrationTyped {
  readonly acidity: number;
  readonly detail: TitrationDetail;
}

/**
 * A titration, or null when none was typed or it is not whole. The acid it is counted as has to be known; the caller asks for
 * it. What a reading does not ask of it stays unsaid.
 */
export function readTitration(read: FormReader, acid: Acid | null): TitrationTyped | null {
  const baseMl = read.number('titrationBaseMl', MILLILITRES);
  const normality = read.number('titrationNormality', NORMALITY);
  const sampleMl = read.number('titrationSampleMl', MILLILITRES);
  const texts = Object.keys(TITRATION_FIELDS).map((field) => read.raw(field));
  if (texts.every((text) => text === '')) return null;
  if (read.raw('titrationBaseMl') === '')
    read.problem('titrationBaseMl', 'Type how many mL of sodium hydroxide it took.');
  if (read.raw('titrationNormality') === '') {
    read.problem(
      'titrationNormality',
      'Type the strength on the bottle of sodium hydroxide, for instance 0.1 N.',
    );
  }
  if (read.raw('titrationSampleMl') === '')
    read.problem('titrationSampleMl', 'Type how many mL of sample were titrated.');
  if (baseMl === null || normality === null || sampleMl === null) return null;
  const acidity = titratableAcidity({ baseMl, normality, sampleMl, acid: acid ?? 'acetic' });
  if (acidity.ok) {
    const unsaid = {
      ...{ baseCheckedAtMs: null, baseBoughtAtMs: null, baseNewlyOpened: null, endPoint: null },
      ...{ darkSample: null, fizzySample: null, degassed: null },
    };
    const detail = { sampleMl, titrantMl: [baseMl], blankMl: 0, normality, ...unsaid };
    return { acidity: acidity.value, detail };
  }
  const { quantity, low, high, unit } = acidity.error;
  const field = FIELD_OF[quantity] ?? 'titrationBaseMl';
  read.problem(field, `This goes from ${low} to ${high} ${unit}. Check the number and its unit.`);
  return null;
}

const FIELD_OF: Readonly<Record<string, string>> = {
  baseMl: 'titrationBaseMl',
  normality: 'titrationNormality',
  sampleMl: 'titrationSampleMl',
};

/**
 * The working of a titration on one line, such as `12.4 mL × 0.1 N × 60.05 ÷ (10 × 5 mL) = 1.49 g/100 mL as acetic`,
 * or null while it cannot be worked out.
 */
export function sayTitration(read: FormReader, acid: Acid): string | null {
  const baseMl = read.number('titrationBaseMl', MILLILITRES);
  const normality = read.number('titrationNormality', NORMALITY);
  const sampleMl = read.number('titrationSampleMl', MILLILITRES);
  if (baseMl === null || normality === null || sampleMl === null) return null;
  const acidity = titratableAcidity({ baseMl, normality, sampleMl, acid });
  if (!acidity.ok) return null;
  const mass = roundedText(EQUIVALENT_MASS[acid], 2);
  return `${baseMl} mL × ${normality} N × ${mass} ÷ (10 × ${sampleMl} mL) = ${roundedText(acidity.value, 2)} g/100 mL as ${acid}`;
}
