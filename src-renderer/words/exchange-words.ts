import { assertNever } from '#core/base/exhaustive.ts';
import type { HouseRules } from '#core/contract/house-rules.ts';
import type { LookedOver, LookedRow, Question } from '#core/contract/looked-over.ts';
import type { ReadingField } from '#core/exchange/reading-fields.ts';
import type { RowProblem } from '#core/exchange/row-problem.ts';
import type { Separator } from '#core/exchange/settled.ts';
import { sayLedgerError, type SayingContext } from './error-words.ts';
import { sayMoment } from './time-words.ts';

const COUNT = new Intl.NumberFormat('en');

/** `1 row`, `4,987 rows`. */
export function counted(count: number, one: string, many = `${one}s`): string {
  return `${COUNT.format(count)} ${count === 1 ? one : many}`;
}

const TABLE_WORDS: Readonly<Record<string, string>> = {
  places: 'Places',
  shelves: 'Shelves',
  vessels: 'Vessels',
  standing: 'What stands in them',
  batches: 'Batches',
  ingredients: 'Ingredients',
  readings: 'Readings',
  stages: 'Stages',
  cultures: 'Cultures',
  pulls: 'Pulls',
  feedings: 'Feedings',
  bottlings: 'Bottlings',
  'told-facts': 'Told facts',
  overrulings: 'Overruled cautions',
  'struck-lines': 'Struck lines',
  'kept-filters': 'Kept filters',
  photos: 'Photos, by checksum',
  tastings: 'Tastings',
  additions: 'Additions',
  flows: 'What went where',
  corrections: 'Corrections',
  entries: 'The lines of the book',
};

/** What a table is called; one without words of its own by its own name. */
export function sayTable(table: string): string {
  const plain = table.replaceAll('-', ' ');
  return TABLE_WORDS[table] ?? `${plain.charAt(0).toUpperCase()}${plain.slice(1)}`;
}

export const FIELD_WORDS: Readonly<Record<ReadingField, string>> = {
  when: 'When it was read',
  time: 'Time of day',
  vessel: 'Vessel',
  batch: 'Batch',
  gravity: 'Gravity',
  temperature: 'Temperature',
  ph: 'pH',
  acidity: 'Acidity',
  volume: 'Level',
  freeSulfite: 'Free SO2',
  alcohol: 'Alcohol',
  salt: 'Salt',
  totalSulfite: 'Total SO2',
  taste: 'Taste or note',
  acidityAs: 'Acid it is counted as',
  acidityMethod: 'How the acidity was found',
  acidityUncertainty: 'Uncertainty of the acidity',
  gravityInstrument: 'Gravity read with',
  gravityCalibration: 'Hydrometer is marked for',
  phMethod: 'How the pH was found',
  detail: 'A detail, by its heading',
};

export const SEPARATOR_WORDS: Readonly<Record<Separator, string>> = {
  ',': 'Comma',
  ';': 'Semicolon',
  '\t': 'Tab',
  '|': 'Bar',
};

export const OUTCOME_WORDS: Readonly<Record<LookedRow['outcome'], string>> = {
  ready: 'comes in',
  accepted: 'comes in, as you said',
  alreadyThere: 'in the book already',
  doubtful: 'in doubt',
  refused: 'does not come in',
};

/** What must be settled before anything comes in. */
export function sayQuestion(question: Question): string {
  switch (question) {
    case 'empty':
      return 'There are no rows in this table. Choose another, or paste one with its headings.';
    case 'tooManyRows':
      return 'There are more than 20,000 rows. Part the table and bring it in piece by piece.';
    case 'when':
      return 'Say which column tells when each reading was taken.';
    case 'vessel':
      return 'Say which column names the vessel or the batch, or choose one vessel for all rows.';
    case 'values':
      return 'Say which column holds what was read.';
    case 'decimalMark':
      return 'Some numbers mean one amount with a decimal comma and another with a decimal point. Say which it is.';
    case 'dateOrder':
      return 'Some dates can be read with the day or the month first. Say which comes first.';
    case 'unit':
      return 'Some numbers have no unit and their heading names none. Say which unit the column is in.';
    case 'acid':
      return 'Say which acid the acidity is counted as. Vinegar is usually counted as acetic.';
    default:
      return assertNever(question);
  }
}

/** `4,987 come in · 10 in the book already · 2 in doubt · 1 refused`. */
export function sayCounts({ ready, alreadyThere, doubtful, refused }: LookedOver['counts']): string {
  const parts = [
    `${counted(ready, 'row')} to bring in`,
    ...(alreadyThere > 0 ? [`${COUNT.format(alreadyThere)} in the book already`] : []),
    ...(doubtful > 0 ? [`${COUNT.format(doubtful)} in doubt`] : []),
    ...(refused > 0 ? [`${COUNT.format(refused)} that cannot come in`] : []),
  ];
  return `${parts.join(', ')}.`;
}

/** Why a row does not come in, or is in doubt, in one sentence. */
export function sayRowProblem(
  problem: RowProblem,
  context: SayingContext & { readonly rules: Pick<HouseRules, 'dates'> },
): string {
  const { type, field, text, known, number } = problem;
  const what = field === null ? 'This' : FIELD_WORDS[field];
  const cell = `“${text}”`;
  switch (type) {
    case 'QuotesLeftOpen':
      return 'A quote is opened and never closed, so that what follows was swallowed. Close it in the table.';
    case 'TooManyCells':
      return 'There are more cells than headings. A separator inside a text or a number needs quotes around it.';
    case 'NoWhen':
      return 'Nothing says when it was read.';
    case 'NotAWhen':
      return `${cell} is not read as a date. Write it as 2026-11-25 or 2026-11-25 14:30, with four figures for the year.`;
    case 'NoSuchDay':
      return `There is no such day as ${cell}.`;
    case 'NoSuchTime':
      return `The clock skips ${cell} on that day.`;
    case 'DateOrderUnsettled':
      return `${cell} can be read with the day or the month first.`;
    case 'InTheFuture':
      return `${cell} is still to come. The book takes what has happened.`;
    case 'NoVessel':
      return 'It names no vessel and no batch.';
    case 'NoSuchVessel':
      return `No vessel is called ${cell}. Use its number, its place or its name.`;
    case 'SeveralVessels':
      return `${cell} may be ${known.join(' or ')}. Use the number.`;
    case 'NoSuchBatch':
      return `No batch is called ${cell}. Use its code or its name.`;
    case 'SeveralBatches':
      return `${counted(number ?? 2, 'batch', 'batches')} are called ${cell}. Use the code.`;
    case 'BatchStandsNowhere':
      return `Batch ${cell} stands in no vessel any more.`;
    case 'BatchStandsTwice':
      return `Batch ${cell} stands in ${known.join(' and ')}. Name the vessel too.`;
    case 'HoldsAnother':
      return `The vessel (${known.join('')}) holds another batch than ${cell}.`;
    case 'VesselEmpty':
      return `Vessel ${number ?? ''} is empty, so there is nothing in it to have measured.`;
    case 'VesselRetired':
      return `Vessel ${number ?? ''} is retired.`;
    case 'BeforeItBegan':
      return `${cell} is before it was in the vessel: it has been there since ${sayMoment(number ?? 0, context.rules)}.`;
    case 'NotANumber':
      return `${what}: ${cell} is not read as a number.`;
    case 'UnknownUnit':
      return `${what}: the unit in ${cell} is not known. Known are ${known.join(', ')}.`;
    case 'UnitUnsettled':
      return `${what}: ${cell} has no unit.`;
    case 'MarkUnsettled':
      return `${what}: ${cell} means one amount with a decimal comma, another with a decimal point.`;
    case 'AmbiguousNumber':
      return `${what}: ${cell} may be ${known.join(' or ')}. Choose the unit of the column.`;
    case 'TooLong':
      return `${what}: the cell is too long to be one amount.`;
    case 'OutOfRange':
      return `${what}: ${cell} lies outside what can be kept.`;
    case 'NotAChoice':
      return known.length === 0
        ? `${what}: ${cell} is not understood.`
        : `${what}: ${cell} is none of ${known.join(', ')}.`;
    case 'AcidUnsettled':
      return `Acidity ${cell}: it is not said which acid it is counted as.`;
    case 'NotText':
      return `${what}: the text is too long, or holds signs that are none.`;
    case 'NothingRead':
      return 'Nothing was read: every cell of a value is empty.';
    case 'SameAsLine':
      return `It says the same as line ${number ?? ''}.`;
    case 'Implausible':
      return `${what}: ${cell} is outside ${known[0] ?? ''} to ${known[1] ?? ''} ${known[2] ?? ''}. Check the unit and the decimal mark.`;
    case 'Slip':
      return `${what}: ${cell} is far from the reading before it. ${SLIP_WORDS[known[0] ?? ''] ?? 'Check it.'}`;
    case 'RefusedByTheBook':
      return problem.refusal === null
        ? 'The book does not take it.'
        : sayLedgerError(problem.refusal, context).sentence;
    default:
      return assertNever(type);
  }
}

const SLIP_WORDS: Readonly<Record<string, string>> = {
  factorTen: 'It looks ten times too much or too little.',
  thousand: 'It looks a thousand times too much or too little.',
  fahrenheitAsCelsius: 'It looks like °F taken for °C.',
  celsiusAsFahrenheit: 'It looks like °C taken for °F.',
  imperialAsUs: 'It looks like an imperial measure taken for a US one.',
  usAsImperial: 'It looks like a US measure taken for an imperial one.',
  fellTooFar: 'A gravity does not fall so far between two readings.',
};
