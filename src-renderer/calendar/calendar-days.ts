import type { SPREAD_WORDS } from '../words/calendar-words.ts';
import { isoDayOf } from '../words/time-words.ts';

/** One day on the wall: its name as written in addresses, and its edges in epoch ms. */
export interface WallDay {
  readonly iso: string;
  readonly startMs: number;
  readonly endMs: number;
  /** False for the days of a neighbouring month that fill up a week. */
  readonly inMonth: boolean;
}

/** How much is shown at once. */
export type Spread = keyof typeof SPREAD_WORDS;

const DAYS_A_WEEK = 7;
const WEEKS_AHEAD = 4;

/** The day a week begins with: 1 for Monday to 7 for Sunday, as the language of the system has it; Monday if it does not say. */
export function firstDayOfWeek(language: string): number {
  try {
    const locale = new Intl.Locale(language) as Intl.Locale & {
      readonly getWeekInfo?: () => { readonly firstDay: number };
      readonly weekInfo?: { readonly firstDay: number };
    };
    return (locale.getWeekInfo?.() ?? locale.weekInfo)?.firstDay ?? 1;
  } catch {
    // A language tag nobody knows: the week of ISO 8601.
    return 1;
  }
}

/** The local midnight that a day such as `2026-11-25` begins with; null for a day no calendar has, such as 31 June. */
export function midnightOf(iso: string): number | null {
  const [year = 0, month = 0, day = 0] = iso.split('-').map(Number);
  const at = new Date(year, month - 1, day);
  return isoDayOf(at.getTime()) === iso ? at.getTime() : null;
}

export function stepDays(iso: string, days: number): string {
  const at = parts(iso);
  return isoDayOf(new Date(at.year, at.month, at.day + days).getTime());
}

/** The same day some months on; the last of the month where it has no such day. */
export function stepMonths(iso: string, months: number): string {
  const at = parts(iso);
  const last = new Date(at.year, at.month + months + 1, 0).getDate();
  return isoDayOf(new Date(at.year, at.month + months, Math.min(at.day, last)).getTime());
}

/** The first and the last day of its week. */
export function weekOf(iso: string, firstDay: number): { readonly first: string; readonly last: string } {
  const at = parts(iso);
  const weekday = new Date(at.year, at.month, at.day).getDay();
  const first = stepDays(iso, -((weekday - firstDay + 2 * DAYS_A_WEEK) % DAYS_A_WEEK));
  return { first, last: stepDays(first, DAYS_A_WEEK - 1) };
}

/** Whole weeks around the month of a day. */
export function monthAround(iso: string, firstDay: number): readonly WallDay[] {
  const { year, month } = parts(iso);
  const first = weekOf(isoDayOf(new Date(year, month, 1).getTime()), firstDay).first;
  const last = weekOf(isoDayOf(new Date(year, month + 1, 0).getTime()), firstDay).last;
  return daysFrom(first, last, (day) => parts(day).month === month);
}

/** The days of one month and no others. */
export function monthAlone(iso: string): readonly WallDay[] {
  const { year, month } = parts(iso);
  const first = isoDayOf(new Date(year, month, 1).getTime());
  return daysFrom(first, isoDayOf(new Date(year, month + 1, 0).getTime()), () => true);
}

/** Four weeks that hold a day, counted from the week of today on, so that the first four begin with this one. */
export function fourWeeksWith(iso: string, todayIso: string, firstDay: number): readonly WallDay[] {
  const from = weekOf(todayIso, firstDay).first;
  const span = WEEKS_AHEAD * DAYS_A_WEEK;
  const away = Math.floor(daysBetween(from, iso) / span);
  const first = stepDays(from, away * span);
  return daysFrom(first, stepDays(first, span - 1), () => true);
}

export function daysBetween(fromIso: string, toIso: string): number {
  const utc = (iso: string): number => {
    const { year, month, day } = parts(iso);
    return Date.UTC(year, month, day);
  };
  return Math.round((utc(toIso) - utc(fromIso)) / 86_400_000);
}

/** Days in rows of seven. */
export function weeksOf(days: readonly WallDay[]): readonly (readonly WallDay[])[] {
  const weeks: WallDay[][] = [];
  for (let at = 0; at < days.length; at += DAYS_A_WEEK) weeks.push(days.slice(at, at + DAYS_A_WEEK));
  return weeks;
}

/** The edges of the days, one more than there are days. */
export function boundsOf(days: readonly WallDay[]): number[] {
  const last = days.at(-1);
  return last === undefined ? [] : [...days.map(({ startMs }) => startMs), last.endMs];
}

function daysFrom(first: string, last: string, inMonth: (iso: string) => boolean): readonly WallDay[] {
  const count = daysBetween(first, last) + 1;
  return Array.from({ length: count }, (_, i) => {
    const iso = stepDays(first, i);
    const { year, month, day } = parts(iso);
    return {
      iso,
      startMs: new Date(year, month, day).getTime(),
      endMs: new Date(year, month, day + 1).getTime(),
      inMonth: inMonth(iso),
    };
  });
}

/** The month counts from 0, as dates of the language do. */
function parts(iso: string): { readonly year: number; readonly month: number; readonly day: number } {
  const [year = 1970, month = 1, day = 1] = iso.split('-').map(Number);
  return { year, month: month - 1, day };
}
