import { roundedText } from '../quantities/round.ts';
import { isoDay, type LocalTime } from '../quantities/civil-time.ts';
import type { CultureSort, FermentKind } from '../ledger/stage.ts';
import type { LabelFacts, Strength } from './label-facts.ts';
import { namedAllergens } from './named-allergens.ts';
import { STAGE_LETTERS } from './stage-letters.ts';
import { isolated } from './typesetter.ts';

/**
 * The words that print. They stand in the core and not among the words of the page, because the host prints them without a
 * page, and what is seen there has to be what prints.
 */
export const ROW_WORDS = {
  started: 'Started',
  batchStarted: 'Batch',
  bottled: 'Bottled',
  stages: 'Stages',
  strength: 'Acidity',
  ph: 'pH',
  alcohol: 'Alcohol',
  ingredients: 'Made of',
  allergens: 'Allergens',
  from: 'From',
  bestKept: 'Best kept',
} as const;

const CULTURE_ROWS: Readonly<Record<CultureSort, string>> = {
  mother: 'Mother',
  yeast: 'Yeast',
  tea: 'Culture',
  grains: 'Grains',
  starter: 'Starter',
};

const KINDS: Readonly<Record<FermentKind, string>> = {
  fruitVinegar: 'fruit vinegar',
  cider: 'cider',
  wine: 'wine',
  mead: 'mead',
  kombucha: 'kombucha',
  brinedVegetables: 'brined vegetables',
  cultureKeeping: 'kept culture',
};

const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'] as const;

export function cultureWord(sort: CultureSort): string {
  return CULTURE_ROWS[sort];
}

/** `2026-11-25`. */
export function sayDay(atMs: number, local: LocalTime): string {
  return isoDay(local.localOf(atMs));
}

/** `14 Sep`: the letter of a stage has room for no more, and the year stands at the start. */
export function sayShortDay(atMs: number, local: LocalTime): string {
  const { day, month } = local.localOf(atMs);
  return `${day}\u00A0${MONTHS[month - 1] ?? ''}`;
}

/** `Y 14 Sep  S 10 Oct  V 22 Oct`. */
export function sayStages(stages: LabelFacts['stages'], local: LocalTime): string {
  // Of stages of one day the last is what it was in at nightfall.
  return stages
    .filter((stage, at) => {
      const next = stages[at + 1];
      return next === undefined || sayDay(stage.fromMs, local) !== sayDay(next.fromMs, local);
    })
    .map(({ stage, fromMs }) => `${STAGE_LETTERS[stage]}\u00A0${sayShortDay(fromMs, local)}`)
    .join('  ');
}

/** What it is, where it comes from, and in which vessel: `fruit vinegar from Kingston cider, V-7 at A2`. */
export function sayWhat(facts: LabelFacts, counted: string): string {
  const { ferment, parentName, target, vesselNumber, spot, batchCode } = facts;
  const kind = ferment === null ? 'empty vessel' : KINDS[ferment];
  const from = parentName === null ? '' : ` from ${isolated(parentName)}`;
  const vessel = target.kind === 'vessel' || vesselNumber === null ? null : `V-${vesselNumber}`;
  const where = [vessel, spot].filter((part) => part !== null).join(' at ');
  const code = target.kind === 'vessel' ? batchCode : null;
  return [`${kind}${from}`, code, where, counted].filter((part) => part !== null && part !== '').join(', ');
}

/** The same, and shorter without the vessel, without the batch's code, and without where it comes from. How many there are is kept. */
export function waysToSayWhat(facts: LabelFacts, counted: string): readonly string[] {
  const noVessel = { ...facts, vesselNumber: null, spot: null };
  const noCode = { ...noVessel, batchCode: null };
  const ways = [facts, noVessel, noCode, { ...noCode, parentName: null }];
  return [...new Set(ways.map((one) => sayWhat(one, counted)))];
}

/** `4.1 % as acetic, 2026-11-19`: never more than was measured, always with its day, and said when there is none. */
export function sayAcidity(strength: Strength, local: LocalTime): string {
  if (strength.kind !== 'measured') return NO_READING[strength.kind];
  const value = roundedText(strength.value, 1, 'lower');
  return `${value}\u00A0% as acetic, ${sayDay(strength.takenAtMs, local)}`;
}

/** A pH is rounded up: towards what is less sour. */
export function sayPh(strength: Strength, local: LocalTime): string {
  if (strength.kind !== 'measured') return NO_READING[strength.kind];
  return `${roundedText(strength.value, 2, 'upper')}, ${sayDay(strength.takenAtMs, local)}`;
}

/** An alcohol is rounded up: who avoids it is told of all there may be. */
export function sayAlcohol(strength: Strength, local: LocalTime): string {
  if (strength.kind !== 'measured') return NO_READING[strength.kind];
  return `${roundedText(strength.value, 1, 'upper')}\u00A0% vol, ${sayDay(strength.takenAtMs, local)}`;
}

const NO_READING: Readonly<Record<'notFresh' | 'none', string>> = {
  notFresh: 'no fresh reading',
  none: 'not measured',
};

/** `Old Bess, pull 3`. */
export function sayCulture(culture: NonNullable<LabelFacts['culture']>): string {
  return culture.pull === null ? culture.name : `${isolated(culture.name)}, pull ${culture.pull}`;
}

/** What is on record of what some people must not have. That nothing is on record says nothing of what is in it. */
export function sayAllergens({
  sulfites,
  ingredients,
}: Pick<LabelFacts, 'sulfites' | 'ingredients'>): string {
  const named = namedAllergens(sulfites === true ? [...ingredients, 'sulfites'] : ingredients);
  return named.length === 0 ? 'not on record, ask the maker' : `${named.join(', ')}; others not on record`;
}
