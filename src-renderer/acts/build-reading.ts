import type { ActDraft, ReadingValues, TitrationDetail } from '#core/ledger/act.ts';
import { ACIDITY_METHODS, ACIDS, GRAVITY_INSTRUMENTS, NOTHING_READ, PH_METHODS } from '#core/ledger/act.ts';
import type { VesselId } from '#core/ledger/ids.ts';
import { parseChalk } from '#core/quantities/parse-chalk.ts';
import type { HouseUnits } from '#core/quantities/house-units.ts';
import type { QuantityKind, Understood } from '#core/quantities/understood.ts';
import type { Result } from '#core/base/result.ts';
import { mapOk } from '#core/base/result.ts';
import type { ChalkError } from '#core/quantities/parse-chalk.ts';
import { sayChalkError } from '../words/error-words.ts';
import { QUANTITY_NAMES } from '../words/quantity-words.ts';
import type { FormReader } from './form-reader.ts';
import { DETAIL_FIELDS, readDetail } from './read-detail.ts';
import { readTitration, TITRATION_FIELDS } from './read-titration.ts';

/** The fields of a reading, beside the vessel: all of them may stay empty but one. */
export const READING_FIELDS = {
  quick: '',
  gravitySg: '',
  gravityInstrument: 'hydrometer',
  temperatureCelsius: '',
  ph: '',
  phMethod: '',
  acidityGramsPer100Ml: '',
  acidityAs: '',
  acidityMethod: '',
  acidityUncertainty: '',
  ...TITRATION_FIELDS,
  volumeUl: '',
  freeSulfiteMgPerL: '',
  alcoholPercentVolume: '',
  ...DETAIL_FIELDS,
  taste: '',
} as const;

/** Which field each quantity of a chalked line goes into. A reading has none for a weight. */
const FIELD_OF: Readonly<Record<Exclude<QuantityKind, 'mass'>, string>> = {
  gravity: 'gravitySg',
  acidity: 'acidityGramsPer100Ml',
  pH: 'ph',
  volume: 'volumeUl',
  temperature: 'temperatureCelsius',
  freeSulfite: 'freeSulfiteMgPerL',
  alcohol: 'alcoholPercentVolume',
  salt: 'saltPercent',
};

export interface ReadingRules {
  readonly hydrometerCalibrationCelsius: number;
  /** A batch that is being started states its volume as such; there is no level to read beside it. */
  readonly isStart?: boolean;
}

/** Readings on one line without a vessel before them, such as `1.012 19C` or `4.3 %`. */
export function readLine(text: string, house: HouseUnits): Result<readonly Understood[], ChalkError> {
  // A chalked line begins with a vessel; here the vessel is known, so any will do.
  return mapOk(parseChalk(`A1 ${text}`, house), ({ readings }) => readings);
}

/** What was read off the instruments, or null when nothing was, from the quick line and the separate fields. */
export function buildReadingValues(read: FormReader, given: ReadingRules): ReadingValues | null {
  const quick = quickValues(read);
  const value = (kind: keyof typeof FIELD_OF): number | null => {
    const typed = read.quantity<QuantityKind>(kind, FIELD_OF[kind]);
    const chalked = quick.find((understood) => understood.kind === kind);
    if (typed !== null && chalked !== undefined) {
      read.problem(
        FIELD_OF[kind],
        `The ${QUANTITY_NAMES[kind]} is given twice: here and in the line above. Leave one out.`,
      );
    }
    return typed?.value ?? chalked?.value ?? null;
  };
  const gravitySg = value('gravity');
  const ph = value('pH');
  const instrument =
    gravitySg === null ? null : read.choiceOrNone('gravityInstrument', keyed(GRAVITY_INSTRUMENTS));
  const { titration, ...acidity } = acidityValues(read, value('acidity'), quick);
  const volumeUl = given.isStart === true ? null : value('volume');
  if (volumeUl === 0)
    read.problem(
      'volumeUl',
      'A level is more than nothing. For an empty vessel draw off or throw out the rest.',
    );
  const alcoholPercentVolume = value('alcohol');
  const values: ReadingValues = {
    gravitySg,
    gravityInstrument: instrument,
    gravityCalibrationCelsius:
      gravitySg === null ? null : instrument === 'hydrometer' ? given.hydrometerCalibrationCelsius : 20,
    temperatureCelsius: value('temperature'),
    ph,
    phMethod: ph === null ? null : read.choiceOrNone('phMethod', keyed(PH_METHODS)),
    ...acidity,
    volumeUl,
    freeSulfiteMgPerL: value('freeSulfite'),
    alcoholPercentVolume,
    taste: read.note('taste'),
    detail: readDetail(read, {
      ...{ gravitySg, ph, alcoholPercentVolume, acidityGramsPer100Ml: acidity.acidityGramsPer100Ml },
      ...{ titration, saltPercent: value('salt') },
    }),
  };
  return isEmpty(values) ? null : values;
}

/** A reading as an act. */
export function buildReading(read: FormReader, given: ReadingRules): ActDraft {
  const vesselId = read.id<VesselId>('vesselId', 'Choose the vessel this was read from.');
  const values = buildReadingValues(read, given);
  read.when();
  if (values === null && read.problems.length === 0) {
    read.problem(
      'quick',
      'Nothing is read yet. Type at least one value, for instance 1.012 19C, 4.3 % or pH 3.4.',
    );
  }
  return { kind: 'recordReading', vesselId, values: values ?? NOTHING_READ };
}

function quickValues(read: FormReader): readonly Understood[] {
  const text = read.raw('quick');
  if (text === '') return [];
  read.typed['quick'] = text;
  const line = readLine(text, read.form.house);
  if (!line.ok) {
    const { sentence, fixes } = sayChalkError(line.error, read.form.house, text);
    read.problem('quick', sentence, fixes);
    return [];
  }
  const stray = line.value.find(({ kind }) => kind === 'mass');
  if (stray !== undefined)
    read.problem('quick', `A reading does not hold ${QUANTITY_NAMES[stray.kind]}. Write it as a note.`);
  return line.value;
}

type AcidityValues = Pick<
  ReadingValues,
  'acidityGramsPer100Ml' | 'acidityAs' | 'acidityMethod' | 'acidityUncertainty'
> & { readonly titration: TitrationDetail | null };

function acidityValues(read: FormReader, stated: number | null, quick: readonly Understood[]): AcidityValues {
  const said =
    acidOf(read.quantityIfSound('acidity', 'acidityGramsPer100Ml')) ?? acidOf(quick.find(isAcidity));
  const acid = said ?? read.choiceOrNone('acidityAs', keyed(ACIDS));
  const titrated = readTitration(read, acid);
  if (stated !== null && titrated !== null) {
    read.problem(
      'acidityGramsPer100Ml',
      'The acidity is given here and by a titration below. Leave one out.',
    );
  }
  const grams = stated ?? titrated?.acidity ?? null;
  if (grams === null) {
    return {
      ...{ acidityGramsPer100Ml: null, acidityAs: null, acidityMethod: null, acidityUncertainty: null },
      titration: null,
    };
  }
  if (acid === null) {
    read.problem('acidityAs', 'Say which acid this is counted as. Vinegar is usually counted as acetic.');
  }
  return {
    acidityGramsPer100Ml: grams,
    acidityAs: acid,
    acidityMethod: read.choiceOrNone('acidityMethod', keyed(ACIDITY_METHODS)),
    acidityUncertainty: read.quantity('acidity', 'acidityUncertainty')?.value ?? null,
    titration: titrated?.detail ?? null,
  };
}

function isAcidity(understood: Understood): boolean {
  return understood.kind === 'acidity';
}

function acidOf(understood: Understood | null | undefined): (typeof ACIDS)[number] | null {
  return understood?.kind === 'acidity' ? understood.acid : null;
}

function keyed<Value extends string>(values: readonly Value[]): Record<Value, true> {
  return Object.fromEntries(values.map((value) => [value, true])) as Record<Value, true>;
}

function isEmpty(values: ReadingValues): boolean {
  const { gravitySg, temperatureCelsius, ph, acidityGramsPer100Ml, volumeUl } = values;
  const { freeSulfiteMgPerL, alcoholPercentVolume, taste, detail } = values;
  const numbers = [gravitySg, temperatureCelsius, ph, acidityGramsPer100Ml, volumeUl, freeSulfiteMgPerL];
  numbers.push(detail?.saltPercent ?? null, detail?.totalSulfiteMgPerL ?? null);
  return taste === '' && [...numbers, alcoholPercentVolume].every((number) => number === null);
}
