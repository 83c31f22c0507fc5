import type { HouseRules } from '#core/contract/house-rules.ts';

const DAY_MS = 86_400_000;
/** From this many days on an age is told in months. */
const MONTHS_FROM_DAYS = 100;
const DAYS_PER_MONTH = 365.2425 / 12;

type DateRules = Pick<HouseRules, 'dates'>;

const two = (value: number): string => String(value).padStart(2, '0');

/** The keeper's locale where its language is that of the sentences around the date, else day before month. */
export function proseLocale(): string {
  const own = typeof navigator === 'undefined' ? '' : navigator.language;
  return own.startsWith('en') ? own : 'en-GB';
}

/** Local calendar day as `2026-11-25`. For tables, labels and exports. */
export function isoDayOf(atMs: number): string {
  const at = new Date(atMs);
  return `${String(at.getFullYear()).padStart(4, '0')}-${two(at.getMonth() + 1)}-${two(at.getDate())}`;
}

/** Local time of day as `18:05`. */
export function clockOf(atMs: number): string {
  const at = new Date(atMs);
  return `${two(at.getHours())}:${two(at.getMinutes())}`;
}

/** A date as the house rules want it: `2026-11-25` or `25 November 2026`. */
export function sayDate(atMs: number, rules: DateRules): string {
  if (rules.dates === 'iso') return isoDayOf(atMs);
  return new Intl.DateTimeFormat(proseLocale(), { dateStyle: 'long' }).format(atMs);
}

/** A date and the time of day. */
export function sayMoment(atMs: number, rules: DateRules): string {
  return `${sayDate(atMs, rules)} ${clockOf(atMs)}`;
}

/** A date without its year, such as `19 Nov`, for places where the year is plain from what stands around. */
export function sayShortDate(atMs: number): string {
  return new Intl.DateTimeFormat(proseLocale(), { day: 'numeric', month: 'short' }).format(atMs);
}

/** Whole calendar days from one moment to another as the keeper's calendar counts them; summer time does not matter. */
export function calendarDays(fromMs: number, toMs: number): number {
  return Math.round((utcDay(toMs) - utcDay(fromMs)) / DAY_MS);
}

function utcDay(atMs: number): number {
  const at = new Date(atMs);
  return Date.UTC(at.getFullYear(), at.getMonth(), at.getDate());
}

/** How long something has stood, as chalked on a ticket: `since today`, `day 12`, from a hundred days on `month 7`. */
export function sayAge(sinceMs: number, nowMs: number): string {
  const days = calendarDays(sinceMs, nowMs);
  if (days <= 0) return 'since today';
  if (days < MONTHS_FROM_DAYS) return `day ${days}`;
  return `month ${Math.floor(days / DAYS_PER_MONTH)}`;
}

/** How long ago: `today`, `yesterday`, `9 d ago`, `4 months ago`. */
export function sayAgo(atMs: number, nowMs: number): string {
  const days = calendarDays(atMs, nowMs);
  if (days <= 0) return 'today';
  if (days === 1) return 'yesterday';
  if (days < MONTHS_FROM_DAYS) return `${days} d ago`;
  return `${Math.floor(days / DAYS_PER_MONTH)} months ago`;
}

/** `1 day`, `6 days`. */
export function sayDays(days: number): string {
  return days === 1 ? '1 day' : `${days} days`;
}
