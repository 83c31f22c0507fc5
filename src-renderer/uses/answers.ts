import { ToldFacts, type ToldGroup } from '#core/ledger/told-facts.ts';
import { isoMinute, type LocalTime } from '#core/quantities/civil-time.ts';
import type { HouseUnits } from '#core/quantities/house-units.ts';
import { parseQuantity } from '#core/quantities/parse-quantity.ts';
import type { FormReader } from '../acts/form-reader.ts';
import { factWords, type FactPath } from '../words/fact-words.ts';
import { trimmed } from '../words/quantity-words.ts';
import { kindOf, pathsOf, placeOf } from './fact-questions.ts';

type Answer = string | number | boolean | { readonly value: number } | null;

/** A question that only matters after a certain answer to another. */
const AFTER: Readonly<
  Partial<Record<FactPath, { readonly path: FactPath; readonly answers: readonly string[] }>>
> = {
  'inspection.undecidedSinceMs': { path: 'inspection.growth', answers: ['cannotTell'] },
  'inspection.solventSinceMs': { path: 'inspection.smell', answers: ['solventFaint', 'solventStrong'] },
  'submersion.exposedHours': { path: 'submersion.covered', answers: ['no'] },
  'submersion.slimeColourOrMould': { path: 'submersion.covered', answers: ['no'] },
  'sealing.makerRatingVolumes': { path: 'sealing.bottle', answers: ['makerRated'] },
  'cleaning.rinsedBetween': { path: 'cleaning.bleach', answers: ['yes'] },
  'culture.otherHolders': { path: 'culture.keptBack', answers: ['no'] },
  'vessel.glaze': { path: 'vessel.material', answers: ['glazedCeramic', 'crystal'] },
  'vessel.contactMinutes': { path: 'vessel.material', answers: ['copper', 'brass', 'aluminium'] },
};

/** Whether a question has a point yet, by the answers as they stand in the form, or as they were told where the form has none. */
export function isAsked(
  path: FactPath,
  fields: Readonly<Record<string, string>>,
  before: ToldFacts = {},
): boolean {
  const after = AFTER[path];
  return after === undefined || after.answers.includes(fields[after.path] ?? toldKey(before, after.path));
}

/** A choice or a yes and no as the form would hold it. */
function toldKey(told: ToldFacts, path: FactPath): string {
  const answer = answerIn(told, path);
  if (typeof answer === 'boolean') return answer ? 'yes' : 'no';
  return typeof answer === 'string' ? answer : '';
}

/** An answer as a form holds it: '' for not known. */
export function answerText(
  path: FactPath,
  told: ToldFacts,
  given: { readonly house: HouseUnits; readonly localTime: LocalTime },
): string {
  const answer = answerIn(told, path);
  if (answer === null) return '';
  if (typeof answer === 'object') return temperatureText(answer.value, given.house);
  return typeof answer === 'number' ? numberText(path, answer, given) : toldKey(told, path);
}

function numberText(
  path: FactPath,
  answer: number,
  { house, localTime }: { readonly house: HouseUnits; readonly localTime: LocalTime },
): string {
  const kind = kindOf(path);
  if (kind.type === 'moment') return isoMinute(localTime.localOf(answer));
  if (kind.type === 'quantity') return massText(answer, house);
  return trimmed(answer, 3);
}

function temperatureText(celsius: number, { temperature }: HouseUnits): string {
  return temperature === 'C' ? `${trimmed(celsius, 2)} C` : `${trimmed((celsius * 9) / 5 + 32, 2)} F`;
}

/** Grams so that reading them back gives the same; pounds and ounces where they do. */
function massText(grams: number, house: HouseUnits): string {
  const ounces = `${trimmed(grams / 28.349523125, 3)} oz`;
  const read = house.volume === 'us' ? parseQuantity('mass', ounces, house) : null;
  if (read?.ok && Math.abs(read.value.massUg / 1e6 - grams) < 1e-6) return ounces;
  return `${trimmed(grams, 3)} g`;
}

function answerIn(told: ToldFacts, path: FactPath): Answer {
  const { group, field } = placeOf(path);
  const answers: unknown = told[group];
  if (field === null) return (answers as Answer | undefined) ?? null;
  return ((answers as Record<string, Answer> | undefined) ?? {})[field] ?? null;
}

/**
 * The groups that a form tells, each whole: what is asked for in the form as it stands there, the rest of the group as it was
 * told before. Groups in which nothing is new are left out. `atMs` is when it was seen, which a look carries with it.
 */
export function toldFromForm(
  read: FormReader,
  given: { readonly paths: readonly FactPath[]; readonly before: ToldFacts; readonly atMs: number },
): ToldFacts {
  const { paths, before } = given;
  const groups = new Set(paths.map((path) => placeOf(path).group));
  const told: Record<string, unknown> = {};
  for (const group of groups) {
    const now = groupFromForm(read, { ...given, group });
    if (now !== undefined && isNew(group, now, before[group])) told[group] = now;
  }
  const whole = ToldFacts.safeParse(told);
  if (whole.success) return whole.data;
  // Only a number outside the book's bounds can be left here, and its field has said so already.
  for (const { path } of whole.error.issues) {
    const at = path.map(String).slice(0, 2).join('.');
    read.problem(at, 'The book does not take this value. Check the number and its unit.');
  }
  return {};
}

function groupFromForm(
  read: FormReader,
  given: {
    readonly group: ToldGroup;
    readonly paths: readonly FactPath[];
    readonly before: ToldFacts;
    readonly atMs: number;
  },
): unknown {
  const { group, paths, before, atMs } = given;
  const [only] = pathsOf(group);
  if (only !== undefined && placeOf(only).field === null) {
    const answer = readAnswer(read, only);
    if (answer === null && before[group] !== undefined) {
      read.problem(
        only,
        'This was told before and cannot be untold. Strike that line in the book if it was wrong.',
      );
    }
    return answer ?? undefined;
  }
  const fields: Record<string, unknown> = { ...(before[group] as object | undefined) };
  for (const path of pathsOf(group)) {
    const { field } = placeOf(path);
    if (field === null) continue;
    if (!isAsked(path, read.form.fields, before)) fields[field] = null;
    else if (paths.includes(path)) fields[field] = readAnswer(read, path);
    else fields[field] ??= null;
  }
  if (group === 'inspection') fields['atMs'] = atMs;
  if (group === 'starter') fields['startPh'] = null;
  return fields;
}

/** One answer of the form, null for not known. */
export function readAnswer(read: FormReader, path: FactPath): Answer {
  const kind = kindOf(path);
  switch (kind.type) {
    case 'yesNo': {
      const text = read.raw(path);
      return text === 'yes' ? true : text === 'no' ? false : null;
    }
    case 'choice':
      return read.choiceOrNone(path, factWords(path).choices ?? {});
    case 'number': {
      const value = read.number(path, {
        ...{ units: kind.unit, sample: `12 ${kind.says}`, mayReachThousands: kind.high >= 1000 },
      });
      if (value === null) return null;
      if (value < kind.low || value > kind.high) {
        read.problem(
          path,
          `This goes from ${kind.low} to ${kind.high.toLocaleString('en')} ${kind.says}. Check the number.`,
        );
        return null;
      }
      return value;
    }
    case 'moment':
      return read.moment(path);
    case 'quantity':
      if (kind.quantity === 'mass') {
        const mass = read.quantity('mass', path);
        return mass === null ? null : mass.massUg / 1e6;
      }
      return gauged(read, path);
  }
}

function gauged(read: FormReader, path: FactPath): Answer {
  const warmth = read.quantity('temperature', path);
  // No error was asked for, so the rules take the usual one of a thermometer.
  return warmth === null
    ? null
    : ({ value: warmth.value, uncertainty: null, method: 'thermometer' } as Answer);
}

/** A group counts as new when any of its answers differs from what was told; when a look was taken is not an answer. */
function isNew(group: ToldGroup, now: unknown, before: unknown): boolean {
  const plain = (value: unknown): string => {
    if (typeof value !== 'object' || value === null) return JSON.stringify(value ?? null);
    const answers = Object.entries(value).filter(
      ([field, answer]) => answer !== null && !(group === 'inspection' && field === 'atMs'),
    );
    return JSON.stringify(answers.sort(([a], [b]) => (a < b ? -1 : 1)));
  };
  return plain(now) !== plain(before ?? (typeof now === 'object' ? {} : null));
}
