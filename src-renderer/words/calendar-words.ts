import { proseLocale } from './time-words.ts';

/** How much of the calendar is shown at once. */
export const SPREAD_WORDS = {
  month: 'Month',
  weeks: 'Four weeks',
  list: 'List',
} as const;

/** `November 2026`. */
export function sayMonth(atMs: number): string {
  return new Intl.DateTimeFormat(proseLocale(), { month: 'long', year: 'numeric' }).format(atMs);
}

/** `Wednesday 25 November 2026`, as the language orders it. */
export function sayLongDay(atMs: number): string {
  return new Intl.DateTimeFormat(proseLocale(), { dateStyle: 'full' }).format(atMs);
}

/** The head of a column, short to look at and whole to hear. */
export function sayWeekday(atMs: number): { readonly short: string; readonly whole: string } {
  const say = (weekday: 'short' | 'long'): string =>
    new Intl.DateTimeFormat(proseLocale(), { weekday }).format(atMs);
  return { short: say('short'), whole: say('long') };
}

/** A span over the borders of months and years: `23 Nov to 20 Dec 2026`. */
export function saySpan(fromMs: number, lastMs: number): string {
  const day = (atMs: number, year: boolean): string =>
    new Intl.DateTimeFormat(proseLocale(), {
      day: 'numeric',
      month: 'short',
      ...(year ? { year: 'numeric' as const } : {}),
    }).format(atMs);
  const sameYear = new Date(fromMs).getFullYear() === new Date(lastMs).getFullYear();
  return `${day(fromMs, !sameYear)} to ${day(lastMs, true)}`;
}

/** `3 done`; nothing for a day without any. */
export function sayDone(count: number): string {
  if (count === 0) return '';
  return count === 1 ? '1 done' : `${count} done`;
}

/** `+ 4 more due`. */
export function sayMoreDue(count: number): string {
  return `+ ${count} more due`;
}

/** Said where not every vessel could be asked for all that is due of it. */
export function sayOnlyPressing(count: number): string {
  return `Of ${count} vessels only the most pressing thing is shown.`;
}
