import type { HouseRules } from '#core/contract/house-rules.ts';
import type { Finding } from '#core/contract/verdict.ts';
import { roundedText, type SafeSide } from '#core/quantities/round.ts';
import type { Reason } from '#core/safety/rule.ts';
import { sayDate } from '../time-words.ts';

export type Numbers = Finding['numbers'];
/** How the household reads dates and measures. Without a measure it is told in °C and litres. */
export type VerdictHouse = Pick<HouseRules, 'dates'> & Partial<Pick<HouseRules, 'temperature' | 'volume'>>;
export type Sentence = (numbers: Numbers, house: VerdictHouse) => string;
/** A sentence that needs no number is written as it stands. */
export type Words = string | Sentence;

/** What one rule says, reason by reason. A fault in the engine has words for every rule alike. */
export interface RuleWords {
  /** What the rule is about, to stand within a sentence: "how sour the jar is". */
  readonly about: string;
  readonly says: Readonly<Partial<Record<Reason, Words>>>;
}

export type FamilyWords = Readonly<Record<string, RuleWords>>;

/** Between a number and its unit. */
export const NBSP = '\u00A0';
const NOT_GIVEN = 'an unknown amount';

/** Nothing that is measured, counted or dated here is larger; a number beyond it is noise. */
const LARGEST = 1e15;

/** A number of the finding, or null where it is not there, not a number, or beyond all measure. */
export function numberIn(numbers: Numbers, key: string): number | null {
  const value = numbers[key];
  return typeof value === 'number' && Math.abs(value) < LARGEST ? value : null;
}

/** Words for a value or a limit: the side of the limit it is held against, its decimals and its unit. */
export interface Written {
  readonly side: SafeSide;
  readonly decimals?: number;
  readonly unit?: string;
}

function withUnit(text: string, unit: string | undefined): string {
  return unit === undefined || unit === '' ? text : `${text}${NBSP}${unit}`;
}

/** One number of the finding, rounded so that it never looks better than it is. */
export function amount(numbers: Numbers, key: string, { side, decimals = 1, unit }: Written): string {
  const value = numberIn(numbers, key);
  return value === null ? NOT_GIVEN : withUnit(roundedText(value, decimals, side), unit);
}

/** The value with its error, such as `3.99 ± 0.31 %`: the value away from the safe side, the error up. */
export function band(numbers: Numbers, { side, decimals = 2, unit }: Written): string {
  const value = numberIn(numbers, 'value');
  if (value === null) return NOT_GIVEN;
  const error = numberIn(numbers, 'uncertainty');
  const shown = roundedText(value, decimals, side);
  return withUnit(error === null ? shown : `${shown} ± ${roundedText(error, decimals, 'upper')}`, unit);
}

/** A limit as it is written, with as few decimals as will do; one that has more is rounded to its strict side. */
export function limitText(value: number, side: 'lower' | 'upper', decimalsMin = 0): string {
  const [whole = '', cents = ''] = roundedText(value, 2, side === 'lower' ? 'upper' : 'lower').split('.');
  const kept = cents.replace(/0+$/u, '').padEnd(decimalsMin, '0');
  return kept === '' ? whole : `${whole}.${kept}`;
}

/** ` on 2026-11-25`, or nothing where the day is not given. */
export function onDay(numbers: Numbers, house: VerdictHouse, key = 'takenAtMs'): string {
  const atMs = numberIn(numbers, key);
  return atMs === null ? '' : ` on ${sayDate(atMs, house)}`;
}

/** A temperature of the finding with its error, in the measure of the house. */
export function warmthBand(numbers: Numbers, house: VerdictHouse, side: SafeSide): string {
  const fahrenheit = house.temperature === 'F';
  const value = numberIn(numbers, 'value');
  const error = numberIn(numbers, 'uncertainty');
  const turned: Numbers = fahrenheit
    ? {
        value: value === null ? null : (value * 9) / 5 + 32,
        uncertainty: error === null ? null : (error * 9) / 5,
      }
    : { value, uncertainty: error };
  return band(turned, { side, decimals: 1, unit: fahrenheit ? '°F' : '°C' });
}

/** A temperature that is a limit, such as `71 °C` or, not under it, `160 °F`. */
export function warmthLimit(celsius: number, house: VerdictHouse, side: 'lower' | 'upper'): string {
  if (house.temperature !== 'F') return `${limitText(celsius, side)}${NBSP}°C`;
  const strict = side === 'lower' ? 'upper' : 'lower';
  return `${roundedText((celsius * 9) / 5 + 32, 0, strict)}${NBSP}°F`;
}

/** `1 day`, `6 days`; whole days, never fewer than have passed. */
export function daysIn(numbers: Numbers, key = 'days'): string {
  const days = numberIn(numbers, key);
  if (days === null) return 'an unknown time';
  const whole = roundedText(days, 0, 'upper');
  return whole === '1' ? '1 day' : `${whole} days`;
}

/** `1 hour`, `30 hours`; rounded up, so that nothing looks younger than it is. */
export function hoursIn(numbers: Numbers, key = 'hours'): string {
  const hours = numberIn(numbers, key);
  if (hours === null) return 'an unknown time';
  const whole = roundedText(hours, 0, 'upper');
  return whole === '1' ? '1 hour' : `${whole} hours`;
}

/** A whole number with its thousands parted, such as `12,400 ppm`, rounded up. */
export function partsPerMillion(value: number | null): string {
  if (value === null) return NOT_GIVEN;
  return `${roundedText(value, 0, 'upper').replace(/\B(?=(\d{3})+$)/gu, ',')}${NBSP}ppm`;
}

/** Words chosen by the fact that is not known, as the finding names it; `otherwise` where it names none of them. */
export function lacking(by: Readonly<Record<string, Words>>, otherwise: Words): Sentence {
  return (numbers, house) => {
    const find = numbers['find'];
    const own = typeof find === 'string' && Object.hasOwn(by, find) ? by[find] : undefined;
    return written(own ?? otherwise, numbers, house);
  };
}

export function written(words: Words, numbers: Numbers, house: VerdictHouse): string {
  return typeof words === 'string' ? words : words(numbers, house);
}

/** Who it is for, to stand after "meant for". */
const RECIPIENTS: Readonly<Record<string, string>> = {
  healthyAdult: 'a healthy adult',
  infant: 'an infant',
  child: 'a child',
  pregnant: 'someone who is pregnant',
  elder: 'an old person',
  weakImmunity: 'someone whose immunity is weak',
  liverOrKidneyIllness: 'someone with an illness of the liver or kidneys',
  avoidsAlcohol: 'someone who avoids alcohol',
};

export function recipientIn(numbers: Numbers): string {
  return RECIPIENTS[String(numbers['recipient'])] ?? 'someone it can harm';
}
