import type { HouseRules } from '#core/contract/house-rules.ts';
import type { Finding } from '#core/contract/verdict.ts';
import { roundedText } from '#core/quantities/round.ts';
import { capital } from './choice-words.ts';
import { sayDate, sayDays } from './time-words.ts';

type Numbers = Finding['numbers'];
type Dates = Pick<HouseRules, 'dates'>;
type Sentence = (numbers: Numbers, dates: Dates) => string;

const MS_PER_DAY = 86_400_000;
const MS_PER_HOUR = 3_600_000;

const numberIn = (numbers: Numbers, key: string): number | null => {
  const value = numbers[key];
  return typeof value === 'number' && Number.isFinite(value) ? value : null;
};

/** A number that is held against a lower limit: rounded down, so that it never looks better than it is. */
const down = (numbers: Numbers, key: string, decimals = 1): string => {
  const value = numberIn(numbers, key);
  return value === null ? 'an unknown amount' : roundedText(value, decimals, 'lower');
};
const limit = (numbers: Numbers): string => {
  const value = numberIn(numbers, 'limit');
  return value === null ? 'the limit' : `${roundedText(value, 1)}\u00A0%`;
};
const acidityRead = (numbers: Numbers): string => {
  const error = numberIn(numbers, 'uncertainty');
  const value = numberIn(numbers, 'value');
  const isOver = value !== null && value > (numberIn(numbers, 'limit') ?? Infinity);
  const shown = value === null ? 'an unknown amount' : roundedText(value, 2, isOver ? 'none' : 'lower');
  const band = error === null ? '' : ` ± ${roundedText(error, 2, 'upper')}`;
  return `${shown}${band}\u00A0%`;
};
const readOn = (numbers: Numbers, dates: Dates): string => {
  const atMs = numberIn(numbers, 'takenAtMs');
  return atMs === null ? '' : ` on ${sayDate(atMs, dates)}`;
};

/** The sentence of each answer a rule can give, by its wording key. */
const SENTENCES: Readonly<Record<string, Sentence>> = {
  'VIN-01.met': (n, d) =>
    `Rule VIN-01: acidity was ${acidityRead(n)} as acetic${readOn(n, d)}, not under ${limit(n)}.`,
  'VIN-01.missing': (n) => `No acidity is on record, so it is not shown to reach ${limit(n)} acetic acid.`,
  'VIN-01.straddles': (n, d) =>
    `Acidity was ${acidityRead(n)} as acetic${readOn(n, d)}. With its error it may lie on either side of ${limit(n)}.`,
  'VIN-01.wrong_side': (n, d) =>
    `Acidity was ${acidityRead(n)} as acetic${readOn(n, d)}, under ${limit(n)}: do not label it vinegar.`,
  'VIN-01.calculated_only': (n) =>
    `The acidity on record is worked out, not measured, so it does not show ${limit(n)}.`,
  'VIN-01.own_use_about': (n) =>
    `About ${down(n, 'value')}\u00A0% by calculation. That will do for a label on your own shelf, written as “about”.`,
  'VIN-01.jurisdiction_unset': (n) =>
    `It reaches ${limit(n)}, the mark in the United States. Other countries ask for more, and House Rules name no country.`,
  'VIN-02.met': (n, d) =>
    `Rule VIN-02: measured after the water went in, acidity was ${acidityRead(n)} as acetic${readOn(n, d)}. Print that strength on the label.`,
  'VIN-02.missing': () =>
    'Whether water was added is not on record, or nothing was measured after it went in. A label must give the strength as it is now.',
  'VIN-02.straddles': (n, d) =>
    `After the water, acidity was ${acidityRead(n)} as acetic${readOn(n, d)}: too close to ${limit(n)} to call.`,
  'VIN-02.wrong_side': (n, d) =>
    `After the water, acidity was ${acidityRead(n)} as acetic${readOn(n, d)}, under ${limit(n)}: do not label it vinegar.`,
  'VIN-02.calculated_only': () =>
    'The strength after the water is worked out, not measured. Measure it again.',
  'VIN-02.own_use_about': (n) =>
    `About ${down(n, 'value')}\u00A0% after the water, by calculation. That will do for your own shelf, written as “about”.`,
  'VIN-05.met': (n, d) =>
    `Rule VIN-05: acidity was ${acidityRead(n)} as acetic${readOn(n, d)}, within what the country in House Rules asks, ${limit(n)}.`,
  'VIN-05.missing': (n) =>
    `No acidity is on record, so it is not shown to reach the ${limit(n)} that the country in House Rules asks.`,
  'VIN-05.straddles': (n, d) =>
    `Acidity was ${acidityRead(n)} as acetic${readOn(n, d)}. With its error it may lie on either side of the ${limit(n)} that the country in House Rules asks.`,
  'VIN-05.wrong_side': (n, d) =>
    `Acidity was ${acidityRead(n)} as acetic${readOn(n, d)}, on the wrong side of the ${limit(n)} that the country in House Rules asks: do not label it vinegar there.`,
  'VIN-05.calculated_only': (n) =>
    `The acidity on record is worked out, not measured, so it does not show the ${limit(n)} that the country in House Rules asks.`,
  'VIN-05.own_use_about': (n) =>
    `About ${down(n, 'value')}\u00A0% by calculation. That will do for a label on your own shelf, written as “about”.`,
  'VIN-05.jurisdiction_unset': () =>
    'How strong a vinegar must be differs by country, and House Rules name none.',
  'CAN-01.category': (n) =>
    n['origin'] === null
      ? 'Where this vinegar comes from is not on record, so it counts as home-made. Home-made vinegar is never for canning or shelf pickles, however strong it tests.'
      : 'Home-made vinegar is never for canning or shelf pickles, however strong it tests. Use bought vinegar marked 5\u00A0%.',
  'CAN-02.met': (n) => `Rule CAN-02: bought, marked ${down(n, 'label')}\u00A0% and used as it came.`,
  'CAN-02.missing': () =>
    'What the bought bottle says, or whether water was added at home, is not on record.',
  'CAN-02.implausible': (n) =>
    `${down(n, 'label')}\u00A0% cannot be what a bottle of vinegar says. Read the label again.`,
  'CAN-02.wrong_side': (n) =>
    `The label says ${down(n, 'label')}\u00A0%. Canning asks for ${limit(n)} or more.`,
  'CAN-02.diluted_at_home': () => 'Water was added at home. Canning asks for bought vinegar just as it came.',
  'CAN-02.stronger_than_recipe': (n) =>
    `The label says ${down(n, 'label')}\u00A0%. That is strong enough, but tested recipes are not written for it.`,
  'CAN-03.missing': () =>
    'How long ago the jars were processed is not on record, so they count as too old. Throw them out.',
  'CAN-03.deadline': (n) =>
    `The jars have stood ${down(n, 'hours', 0)} hours with vinegar under 5\u00A0%. From 24 hours on they are thrown out unopened.`,
  'CAN-03.refrigerate_now': (n) =>
    `The jars have stood ${down(n, 'hours', 0)} hours with vinegar under 5\u00A0%. Put them in the refrigerator now and eat them soon.`,
  'CAN-03.implausible': () =>
    'The time given for the jars cannot be right, so they count as too old. Throw them out.',
  'MEAS-01.met': () => 'The reading is clear of the limit by more than its error.',
  'MEAS-01.straddles': () =>
    'The reading is too close to the limit to call. Measure again with a finer method.',
  'MEAS-01.readings_disagree': () =>
    'Two readings of one day are further apart than their errors allow, so neither is used.',
  'MEAS-02.met': () => 'The reading carries an error of its own.',
  'MEAS-02.default_uncertainty': (n) =>
    `No measuring error was given, so a cautious one of ± ${numberIn(n, 'uncertainty') === null ? 'its method' : roundedText(numberIn(n, 'uncertainty') ?? 0, 2, 'upper')} was taken.`,
  'MEAS-02.method': () => 'Neither how it was measured nor how exactly is on record.',
  'MEAS-03.met': () => 'Nothing was put in after the reading.',
  'MEAS-03.stale_event': (n, d) => {
    const atMs = numberIn(n, 'changedAtMs');
    const change = CHANGES[String(n['change'])] ?? 'something changed it';
    return atMs === null
      ? 'The reading was taken before the last change to the vessel, so it no longer says what is in it.'
      : `On ${sayDate(atMs, d)} ${change}, after the reading, so it no longer says what is in the vessel.`;
  },
  'MEAS-04.met': () => 'The reading is young enough.',
  'MEAS-04.ageing': (n) =>
    `The reading is ${ageOf(n)} old and will soon be too old: it counts for ${lastsFor(n)}.`,
  'MEAS-04.stale_age': (n) =>
    `The reading is ${ageOf(n)} old. In a vessel that is still at work it counts for ${lastsFor(n)}.`,
  'MEAS-05.met': () => 'The acidity is counted as acetic acid.',
  'MEAS-05.converted': (n) =>
    `Counted as ${String(n['acid'] ?? 'another acid')} acid, ${down(n, 'value', 2)}; turned into ${down(n, 'asAcetic', 2)}\u00A0% as acetic before it was checked.`,
  'MEAS-05.fixed_acid_unknown': () =>
    'The fruit’s own acid is counted in, since it was not measured apart, so the true acetic acid is somewhat less.',
  'MEAS-05.basis': () => 'Which acid the titration was counted as is not on record.',
  'MEAS-09.met': () => 'The number fits its unit.',
  'MEAS-09.implausible': (n) =>
    `${down(n, 'value', 2)} does not fit its unit or its date. Check the unit and the decimal mark.`,
  'MEAS-13.met': () => 'It was measured, or is printed on a bought bottle.',
  'MEAS-13.calculated_only': () => 'This is worked out, not measured, so it cannot clear a check.',
  'MEAS-13.guessed': () => 'This is a guess, so it cannot be used.',
};

/** Why a limit rule could not use the reading there is; the measurement rule that withheld it says more. */
const WITHHELD = new Set([
  'stale_event',
  'stale_age',
  'basis',
  'method',
  'implausible',
  'guessed',
  'readings_disagree',
]);
const CHANGES: Readonly<Record<string, string>> = {
  addWater: 'water went in',
  addJuice: 'juice went in',
  addWine: 'wine went in',
  addSugar: 'sugar went in',
  addHoney: 'honey went in',
  addFruit: 'fruit went in',
  addSalt: 'salt went in',
  addAcid: 'acid went in',
  blend: 'it was blended',
  refill: 'it was topped up',
  splitWithResidue: 'it was divided over what was left',
  prime: 'it was primed',
  sulfite: 'sulfite went in',
  heat: 'it was heated',
  concentrate: 'it was concentrated',
};

function ageOf(numbers: Numbers): string {
  return span(numberIn(numbers, 'ageMs'), 'up');
}
function lastsFor(numbers: Numbers): string {
  return span(numberIn(numbers, 'limitMs'), 'down');
}
function span(ms: number | null, way: 'up' | 'down'): string {
  if (ms === null) return 'an unknown time';
  const whole = (parts: number): number => (way === 'up' ? Math.ceil(parts) : Math.floor(parts));
  if (ms >= 2 * MS_PER_DAY) return sayDays(whole(ms / MS_PER_DAY));
  if (ms >= 2 * MS_PER_HOUR) return `${whole(ms / MS_PER_HOUR)} hours`;
  return `${whole(ms / 60_000)} minutes`;
}

/** True when an answer has a sentence of its own. */
export function hasSentence(sayKey: string): boolean {
  return sentenceOf(sayKey) !== null;
}

/** What one rule said. A key without words of ours is itself said, as not known: nothing is left out in silence. */
export function sayFinding(finding: Pick<Finding, 'sayKey' | 'ruleId' | 'numbers'>, dates: Dates): string {
  const sentence = sentenceOf(finding.sayKey);
  return sentence === null
    ? `Rule ${finding.ruleId} gave an answer that this version has no words for. Take it as not known.`
    : capital(sentence(finding.numbers, dates));
}

function sentenceOf(sayKey: string): Sentence | null {
  const own = SENTENCES[sayKey];
  if (own !== undefined) return own;
  const [ruleId = '', reason = ''] = sayKey.split('.');
  if (reason === 'engine_fault') {
    return () => `Rule ${ruleId} could not be worked out here, so it counts as not known.`;
  }
  if (ruleId.startsWith('VIN-') && WITHHELD.has(reason)) {
    return (n) =>
      `It is not shown to reach ${limit(n)} acetic acid: the reading on record cannot be used for that.`;
  }
  return null;
}

const ASKED: Readonly<Record<string, string>> = {
  acidity: 'acidity by titration, noting the acid and the method',
  pH: 'pH with a meter set to two buffers',
  gravity: 'gravity with the hydrometer, and the temperature',
  alcohol: 'alcohol, by a laboratory or from two gravities',
  temperature: 'the temperature',
  salt: 'the salt, by weight',
  sulfite: 'sulfite with a kit',
  carbonDioxide: 'carbon dioxide in the room, at the height of the knee',
};
const FOUND_OUT: Readonly<Record<string, string>> = {
  boughtLabelPercent: 'Read the strength on the bottle’s label and write it down.',
  addedWater: 'Find out whether water was added at home.',
  jurisdiction: 'Choose your country in House Rules.',
  'whether the rule applies': 'Choose your country in House Rules, and note whether water was added.',
};
const BESIDES: Readonly<Record<string, string>> = {
  stale_event: 'The last one was taken before something was put in.',
  stale_age: 'The last one is too old.',
  straddles: 'Use a finer method than last time.',
  readings_disagree: 'Take it twice, with care.',
  wrong_side: 'Wait until the mother has worked longer.',
  basis: 'Or find out which acid the last one was counted as.',
  method: 'Note how it is measured.',
  implausible: 'Check the unit and the decimal mark.',
};

/** What to measure or find out next, in one or two sentences. */
export function sayMeasureNext(next: { readonly quantity: string; readonly why: string }): string {
  const found = FOUND_OUT[next.quantity];
  if (found !== undefined) return found;
  const what = `Measure ${ASKED[next.quantity] ?? next.quantity}.`;
  const besides = BESIDES[next.why];
  return besides === undefined ? what : `${what} ${besides}`;
}
