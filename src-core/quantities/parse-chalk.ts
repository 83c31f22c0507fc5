import { err, ok, type Result } from '../base/result.ts';
import type { HouseUnits } from './house-units.ts';
import { plainTyping, readNumber } from './number-text.ts';
import { parseQuantity } from './parse-quantity.ts';
import { withoutLeadingName } from './qualifiers.ts';
import type { QuantityError, QuantityKind, Understood } from './understood.ts';
import { tidyUnit } from './units.ts';

/** Readings chalked on one vessel in one line. */
export interface Chalk {
  /** A position such as `B1`, or a vessel's permanent number such as `#7`. */
  readonly vesselCode: string;
  readonly readings: readonly Understood[];
}

export type ChalkError =
  /** The line does not begin with a vessel followed by a number: it is a search. */
  | { readonly type: 'NotAChalk' }
  | {
      readonly type: 'ReadingNotUnderstood';
      readonly vesselCode: string;
      readonly text: string;
      /** Null when nothing says which quantity is meant. */
      readonly error: QuantityError | null;
    }
  | { readonly type: 'SameQuantityTwice'; readonly vesselCode: string; readonly kind: QuantityKind };

const LONGEST = 160;

/**
 * Reads a chalked line: a vessel and one or more readings, as in `B1 1.010 19C`, `A2 4.3 %`, `7 ph 3.4`,
 * `#12 1.002 SG, pH 3.3`. Which quantity a number is follows from its unit or name; a bare number counts only as a
 * gravity. `%` alone is acidity, `% abv` and `% vol` are alcohol. Never throws.
 */
export function parseChalk(text: string, house: HouseUnits): Result<Chalk, ChalkError> {
  if (text.length > LONGEST) return err({ type: 'NotAChalk' });
  const [vessel = '', ...words] = plainTyping(text).split(' ');
  const vesselCode = readVesselCode(vessel);
  if (vesselCode === null || words.length === 0) return err({ type: 'NotAChalk' });
  const unclear = percentOfEither(words);
  if (unclear !== null) {
    return err({ type: 'ReadingNotUnderstood', vesselCode, text: unclear, error: null });
  }
  const phrases = partPhrases(words);
  if (phrases === null) return err({ type: 'NotAChalk' });
  const readings: Understood[] = [];
  for (const phrase of phrases) {
    const kind = kindOf(phrase);
    if (kind === null) return err({ type: 'ReadingNotUnderstood', vesselCode, text: phrase, error: null });
    const understood = parseQuantity(kind, phrase, house);
    if (!understood.ok) {
      return err({ type: 'ReadingNotUnderstood', vesselCode, text: phrase, error: understood.error });
    }
    if (readings.some((earlier) => earlier.kind === kind)) {
      return err({ type: 'SameQuantityTwice', vesselCode, kind });
    }
    readings.push(understood.value);
  }
  return ok({ vesselCode, readings });
}

function readVesselCode(word: string): string | null {
  if (/^[a-z]{1,3}[0-9]{1,4}$/iu.test(word)) return word.toUpperCase();
  const number = /^#?([0-9]{1,6})$/u.exec(word);
  return number ? `#${Number(number[1])}` : null;
}

const NAMES = /^(?:ph|sg|ta|so2|abv|alcohol|temp|salt|acid|acidity|free)[:=]?$/iu;
const BEGINS_NUMBER = /^(?:(?:ph|sg|ta|so2|abv)[:=]?)?[+-]?[.,]?[0-9]/iu;

/** Words grouped so that each group holds one number, with the name before it and the unit after it. */
function partPhrases(words: readonly string[]): readonly string[] | null {
  const phrases: string[][] = [];
  let open = false;
  for (const [i, word] of words.entries()) {
    const current = phrases.at(-1);
    const bare = withoutComma(word);
    if (bare === '') continue;
    if (!open && current && isUnitAfter(words, i, current)) {
      current.push(bare);
    } else if (NAMES.test(bare)) {
      if (open && current) current.push(bare);
      else phrases.push([bare]);
      open = true;
    } else if (BEGINS_NUMBER.test(bare)) {
      if (current && (open || continuesFraction(current, bare))) current.push(bare);
      else phrases.push([bare]);
      open = false;
    } else {
      if (current === undefined || open) return null;
      current.push(bare);
    }
  }
  return open || phrases.length === 0 ? null : phrases.map((phrase) => phrase.join(' '));
}

/** `1.002 SG` and `3.4 pH`: a name that stands behind its number. A comma, or no number to follow, tells. */
function isUnitAfter(words: readonly string[], at: number, current: readonly string[]): boolean {
  const [word = '', next] = words.slice(at, at + 2);
  const name = withoutComma(word).toLowerCase();
  if (name === 'acid') return true;
  if (ALCOHOL.test(name)) return alcoholOf(words, at) === 'before';
  if (!/^[-+0-9.,]+$/u.test(current.join(''))) return false;
  if (name === 'sg') return true;
  return NAMES.test(name) && (name !== word.toLowerCase() || next === undefined || !BEGINS_NUMBER.test(next));
}

const ALCOHOL = /^(?:abv|alcohol)$/iu;
const PLAIN_NUMBER = /^[-+]?[0-9.,]+$/u;
/** A number that can hardly be anything but a gravity: `1.002`, `0,998`, `1010`. */
const LIKE_GRAVITY = /^(?:0[.,]9|1[.,][0-2])[0-9]{1,2}$|^(?:9[0-9]{2}|1[0-2][0-9]{2})$/u;
/** A number that carries another unit: `19C`, `12Bx`, `52g/L`. */
const OTHER_UNIT = /^[-+]?[0-9.,]+°?(?!abv)[a-z]/iu;

/**
 * Which of its two neighbours `abv` belongs to, by what cannot be an alcohol and by commas; `either` where both could be and
 * one has a `%`.
 */
function alcoholOf(words: readonly string[], at: number): 'before' | 'after' | 'either' {
  const [word = '', next, afterNext = ''] = words.slice(at, at + 3);
  const behind = words.slice(Math.max(0, at - 2), at).map((each) => each.toLowerCase());
  const last = behind.at(-1) ?? '';
  const percent = last === '%' ? PLAIN_NUMBER.test(behind[0] ?? '') : /^[-+]?[0-9.,]+%$/u.test(last);
  const named = words[at - (last === '%' ? 3 : 2)];
  if (named !== undefined && NAMES.test(named)) return 'after';
  if (!percent && (!PLAIN_NUMBER.test(withoutComma(last)) || last !== withoutComma(last))) return 'after';
  if (next === undefined || word !== withoutComma(word) || !BEGINS_NUMBER.test(next)) return 'before';
  if (/^(?:ph|sg|ta|so2)/iu.test(next)) return 'before';
  if (LIKE_GRAVITY.test(last) && !percent) return 'after';
  if (LIKE_GRAVITY.test(withoutComma(next)) && !afterNext.startsWith('%')) return 'before';
  if (OTHER_UNIT.test(next) || (/^°?[a-z]/iu.test(afterNext) && !NAMES.test(withoutComma(afterNext)))) {
    return 'before';
  }
  return percent ? 'either' : 'after';
}

/** `5.1 % abv 6.4`: the one word between two numbers, either of which may be the alcohol. Null when no line of that kind. */
function percentOfEither(words: readonly string[]): string | null {
  const at = words.findIndex(
    (word, i) => i > 0 && ALCOHOL.test(withoutComma(word)) && alcoholOf(words, i) === 'either',
  );
  if (at < 0) return null;
  return words.slice(words[at - 1] === '%' ? at - 2 : at - 1, at + 2).join(' ');
}

function withoutComma(word: string): string {
  return word.replace(/[,;]$/u, '');
}

function continuesFraction(current: readonly string[], word: string): boolean {
  return /^[0-9]+\/[0-9]+$/u.test(word) && /^[0-9]+$/u.test(current.at(-1) ?? '');
}

const KIND_OF_UNIT: Readonly<Record<string, QuantityKind>> = {
  c: 'temperature',
  f: 'temperature',
  bx: 'gravity',
  brix: 'gravity',
  p: 'gravity',
  plato: 'gravity',
  pts: 'gravity',
  points: 'gravity',
  sg: 'gravity',
  'g/l': 'acidity',
  'g/100ml': 'acidity',
  'g/100 ml': 'acidity',
  'mg/l': 'freeSulfite',
  ppm: 'freeSulfite',
  ml: 'volume',
  cl: 'volume',
  l: 'volume',
  qt: 'volume',
  gal: 'volume',
};

/** `% abv`, `% vol`, `vol%`, `abv` or `alcohol` after its number. */
const IN_ALCOHOL = /%[ .]?(?:by )?(?:vol(?:\.|ume)?|v\/v)$|[0-9 %](?:abv|alcohol)$|vol\.?[- ]?%$/u;

function kindOf(phrase: string): QuantityKind | null {
  const lower = phrase.toLowerCase();
  if (/^ph(?![a-z])/u.test(lower)) return 'pH';
  if (/^(?:free )?so2/u.test(lower)) return 'freeSulfite';
  if (/^(?:ta|acid|acidity)\b/u.test(lower)) return 'acidity';
  if (/^(?:abv|alcohol)\b/u.test(lower) || IN_ALCOHOL.test(lower)) return 'alcohol';
  if (/\bsalt\b/u.test(lower)) return 'salt';
  if (/^temp\b/u.test(lower)) return 'temperature';
  if (
    /% ?(?:acid|w\/v|(?:as )?(?:acetic|lactic|malic|tartaric|citric|sulfuric|sulphuric))?(?: acid)?$/u.test(
      lower,
    )
  ) {
    return 'acidity';
  }
  const withoutAcid = withoutLeadingName('gravity', lower.replace(/ as [a-z]+$/u, ''));
  const unit = tidyUnit(readNumber(withoutAcid)?.rest ?? '');
  if (unit === '' || /^sg\b/u.test(lower)) return 'gravity';
  return Object.hasOwn(KIND_OF_UNIT, unit) ? (KIND_OF_UNIT[unit] ?? null) : null;
}
