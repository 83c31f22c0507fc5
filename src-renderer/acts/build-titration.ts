import { ACIDS, type ActDraft, type TitrationDetail } from '#core/ledger/act.ts';
import type { VesselId } from '#core/ledger/ids.ts';
import type { Acid } from '#core/quantities/understood.ts';
import type { OutOfRange } from '#core/quantities/validity.ts';
import { BASE_NORMALITY } from '#core/safety/rules/cleaning.ts';
import type { FormReader } from './form-reader.ts';
import {
  KITS,
  titratedReading,
  workOut,
  type Kit,
  type TitrationDone,
  type TitrationWorked,
} from './titration-work.ts';

/** The kit and the base, which an evening of samples shares. Strength and kit are never taken for granted. */
export const BASE_FIELDS = {
  kit: '',
  normality: '',
  normalityOther: '',
  baseNewlyOpened: '',
  baseCheckedAtMs: '',
  baseBoughtAtMs: '',
} as const;

export const REPLICATES = ['titrant1', 'titrant2', 'titrant3', 'titrant4'] as const;

export const TITRATE_FIELDS = {
  step: '0',
  ...BASE_FIELDS,
  acid: '',
  sampleMl: '',
  fizzySample: '',
  degassed: '',
  darkSample: '',
  endPoint: '',
  fixedAcid: '',
  blankMl: '',
  ...{ titrant1: '', titrant2: '', titrant3: '', titrant4: '' },
  note: '',
  happenedAtMs: 'now',
} as const;

/** The steps of a titration, each with the fields that have to be sound before the next. */
export const TITRATION_STEPS: readonly { readonly title: string; readonly fields: readonly string[] }[] = [
  { title: 'Before you start', fields: [] },
  { title: 'The kit and the base', fields: Object.keys(BASE_FIELDS) },
  {
    title: 'The sample',
    fields: ['acid', 'sampleMl', 'fizzySample', 'degassed', 'darkSample', 'endPoint', 'fixedAcid'],
  },
  { title: 'A blank', fields: ['blankMl'] },
  { title: 'Titrate', fields: REPLICATES },
  { title: 'The result', fields: ['note', 'happenedAtMs'] },
];

export const MILLILITRES = { units: /^(?:ml|cc|millilitres?|milliliters?)$/iu, sample: '12.4 ml' };
const NORMALITY = { units: /^(?:n|mol\/l|m)$/iu, sample: '0.1 N' };
export const END_POINTS = { colour: 'the change of colour', meter: 'pH 8.2 on a meter' } as const;

export interface Base {
  readonly kit: Kit | null;
  readonly normality: number | null;
  readonly baseNewlyOpened: boolean | null;
  readonly baseCheckedAtMs: number | null;
  readonly baseBoughtAtMs: number | null;
}

/** The kit and the base as said. Kit and strength have to be chosen. */
export function readBase(read: FormReader): Base {
  const kit = read.choiceOrNone('kit', KITS);
  if (kit === null) read.problem('kit', 'Choose what you titrate with: its error is part of the result.');
  return {
    kit,
    normality: readNormality(read),
    baseNewlyOpened: yesNo(read.raw('baseNewlyOpened')),
    baseCheckedAtMs: read.moment('baseCheckedAtMs'),
    baseBoughtAtMs: read.moment('baseBoughtAtMs'),
  };
}

function readNormality(read: FormReader): number | null {
  const chosen = read.raw('normality');
  if (chosen === '0.1' || chosen === '0.2') return Number(chosen);
  if (chosen !== 'other') {
    read.problem(
      'normality',
      'Choose the strength that stands on the bottle. Kits come as 0.1 N and as 0.2 N, and the wrong one doubles or halves the result.',
    );
    return null;
  }
  const other = read.number('normalityOther', NORMALITY);
  if (read.raw('normalityOther') === '')
    read.problem('normalityOther', 'Type the strength on the bottle, for instance 0.5 N.');
  if (other === null) return null;
  if (other > BASE_NORMALITY.most) {
    read.problem(
      'normalityOther',
      `Sodium hydroxide over ${BASE_NORMALITY.most} N is not for titrating at home (rule CLN-03): it blinds and burns. Use a kit of 0.1 N or 0.2 N.`,
    );
    return null;
  }
  if (other < 0.001) {
    read.problem('normalityOther', 'This is too weak to titrate with. Check the number: 0.1 N is usual.');
    return null;
  }
  return other;
}

/** A millilitre field that may be empty. */
export function readMl(read: FormReader, field: string, most: number): number | null {
  const ml = read.number(field, MILLILITRES);
  if (ml === null) return null;
  if (ml < 0 || ml > most) {
    read.problem(field, `This goes from 0 to ${most} mL. Check the number and its unit.`);
    return null;
  }
  return ml;
}

export interface TitrationRead {
  readonly done: TitrationDone | null;
  readonly worked: TitrationWorked | null;
  /** How it was done, whether or not it is whole; null without a strength or a sample. */
  readonly detail: TitrationDetail | null;
  readonly kit: Kit | null;
  readonly fixedAcidGramsPer100Ml: number | null;
  /** The millilitres read so far. */
  readonly titrantMl: readonly number[];
}

/** A titration as far as the form has it, with what is amiss collected in the reader. */
export function readTitrating(read: FormReader): TitrationRead {
  const base = readBase(read);
  const acid = readAcid(read);
  const sampleMl = readMl(read, 'sampleMl', 500);
  if (read.raw('sampleMl') === '') read.problem('sampleMl', 'Type how many mL of sample you titrate.');
  const endPoint = read.choiceOrNone('endPoint', END_POINTS);
  if (endPoint === null) read.problem('endPoint', 'Choose how you tell that it is done.');
  const fizzySample = yesNo(read.raw('fizzySample'));
  const blankMl = readMl(read, 'blankMl', 100) ?? 0;
  const titrantMl = readReplicates(read, REPLICATES);
  if (titrantMl.length === 0 && REPLICATES.every((field) => read.raw(field) === '')) {
    read.problem('titrant1', 'Type how many mL of base it took.');
  }
  const fixed = read.quantity('acidity', 'fixedAcid')?.value ?? null;
  const done = doneOf({ ...base, acid, sampleMl, titrantMl, blankMl });
  const worked = done === null ? null : workedOrProblem(read, done, FIELD_OF);
  const detail: TitrationDetail | null =
    base.normality === null || sampleMl === null || sampleMl <= 0 || titrantMl.length === 0
      ? null
      : {
          ...{ sampleMl, titrantMl: [...titrantMl], blankMl, normality: base.normality, endPoint },
          baseCheckedAtMs: base.baseCheckedAtMs,
          baseBoughtAtMs: base.baseBoughtAtMs,
          baseNewlyOpened: base.baseNewlyOpened,
          ...{ darkSample: yesNo(read.raw('darkSample')), fizzySample },
          degassed: fizzySample === true ? yesNo(read.raw('degassed')) : null,
        };
  return { done, worked, detail, kit: base.kit, fixedAcidGramsPer100Ml: fixed, titrantMl };
}

export function doneOf(given: {
  readonly kit: Kit | null;
  readonly normality: number | null;
  readonly acid: Acid | null;
  readonly sampleMl: number | null;
  readonly titrantMl: readonly number[];
  readonly blankMl: number;
}): TitrationDone | null {
  const { kit, normality, acid, sampleMl, titrantMl, blankMl } = given;
  if (kit === null || normality === null || acid === null || sampleMl === null) return null;
  return titrantMl.length === 0 ? null : { kit, normality, acid, sampleMl, titrantMl, blankMl };
}

/** The millilitres of each replicate that was typed and is sound. */
export function readReplicates(read: FormReader, fields: readonly string[]): readonly number[] {
  return fields.flatMap((field) => readMl(read, field, 500) ?? []);
}

function readAcid(read: FormReader): Acid | null {
  const acid = read.choiceOrNone(
    'acid',
    Object.fromEntries(ACIDS.map((each) => [each, true])) as Record<Acid, true>,
  );
  if (acid === null)
    read.problem('acid', 'Say which acid it is counted as. Vinegar is usually counted as acetic.');
  return acid;
}

const FIELD_OF: Readonly<Record<string, string>> = {
  sampleMl: 'sampleMl',
  blankMl: 'blankMl',
  normality: 'normality',
  baseMl: 'titrant1',
};

/** Works a titration out; what is out of range becomes a problem of its field. */
export function workedOrProblem(
  read: FormReader,
  done: TitrationDone,
  fields: Readonly<Record<string, string>>,
): TitrationWorked | null {
  const worked = workOut(done);
  if (worked.ok) return worked.value;
  read.problem(fields[worked.error.quantity] ?? 'titrant1', sayOutside(worked.error));
  return null;
}

function sayOutside({ quantity, low, high, unit }: OutOfRange): string {
  if (quantity === 'blankMl') return 'The blank took more than the sample. One of the two is wrong.';
  return `This goes from ${low} to ${high} ${unit}. Check the number and its unit.`;
}

/** A titration as a reading of the vessel. */
export function buildTitration(read: FormReader, vesselId: VesselId): ActDraft {
  const { done, worked, detail, fixedAcidGramsPer100Ml } = readTitrating(read);
  const taste = read.note('note');
  read.when();
  if (worked !== null && worked.result.acidity > 100) {
    read.problem('titrant1', 'More than 100 g in 100 mL cannot be. Check strength, sample and millilitres.');
  }
  const values =
    done === null || worked === null || detail === null
      ? null
      : titratedReading({ done, worked, titration: detail, fixedAcidGramsPer100Ml, taste });
  return { kind: 'recordReading', vesselId, values: values ?? STAND_IN };
}

/** Stands in while the form is not whole; it is thrown away with the problems there then are. */
export const STAND_IN = titratedReading({
  done: { kit: 'burette', acid: 'acetic', sampleMl: 1, titrantMl: [0], blankMl: 0, normality: 0.1 },
  worked: {
    result: { acidity: 0, uncertainty: 0, meanBaseMl: 0, outlier: null, scatters: false },
    ...{ uncertainty: 0, promisesTooMuch: true },
  },
  titration: {
    ...{ sampleMl: 1, titrantMl: [0], blankMl: 0, normality: 0.1, baseCheckedAtMs: null },
    ...{ baseBoughtAtMs: null, baseNewlyOpened: null, endPoint: null, darkSample: null },
    ...{ fizzySample: null, degassed: null },
  },
  ...{ fixedAcidGramsPer100Ml: null, taste: '' },
});

export function yesNo(text: string): boolean | null {
  return text === 'yes' ? true : text === 'no' ? false : null;
}
