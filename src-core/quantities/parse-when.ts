import type { EpochMs } from '../base/ports.ts';
import { err, ok, type Result } from '../base/result.ts';
import { isCalendarDay, isoDay, type CivilTime, type LocalTime } from './civil-time.ts';
import { plainTyping } from './number-text.ts';

/** A moment as typed. `day` means that only the day was said; the moment is then noon, or now for `today`. */
export interface When {
  readonly atMs: EpochMs;
  readonly precision: 'minute' | 'day';
  readonly asTyped: string;
}

export type WhenError =
  | { readonly type: 'NotAWhen'; readonly text: string }
  | { readonly type: 'NoSuchDay'; readonly text: string }
  /** The wall clock skips this time on that day. */
  | { readonly type: 'NoSuchTime'; readonly text: string }
  | {
      readonly type: 'Ambiguous';
      readonly readings: readonly { readonly text: string; readonly when: When }[];
    };

const MINUTES_IN: Readonly<Record<string, number>> = {
  min: 1,
  mins: 1,
  minute: 1,
  minutes: 1,
  h: 60,
  hr: 60,
  hrs: 60,
  hour: 60,
  hours: 60,
  d: 1440,
  day: 1440,
  days: 1440,
  w: 10_080,
  wk: 10_080,
  week: 10_080,
  weeks: 10_080,
};

const MONTHS = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec'];

/**
 * Reads a moment as people write it: `now`, `today`, `today 14:30`, `yesterday 18:00`, `18:00`, `3 d ago`,
 * `2026-11-25`, `2026-11-25 14:30`, `25 Nov 2026`, `25/11/2026`. A day and month that could be either way round, such
 * as `03/04/2026`, is `Ambiguous` with both readings; it is never guessed. A moment in the future is read like any
 * other; whether it is allowed is the caller's business. Never throws.
 */
export function parseWhen(
  text: string,
  given: { readonly nowMs: EpochMs; readonly localTime: LocalTime },
): Result<When, WhenError> {
  if (text.length > 60) return err({ type: 'NotAWhen', text: text.slice(0, 60) });
  const plain = plainTyping(text).toLowerCase();
  if (plain === 'now') return ok({ atMs: given.nowMs, precision: 'minute', asTyped: text });
  const ago = /^([0-9]{1,4}) ?([a-z]+) ago$/u.exec(plain);
  if (ago) return timeAgo(text, ago, given.nowMs);
  const { day, time } = partTime(plain);
  if (time === 'bad') return err({ type: 'NotAWhen', text });
  const days = daysMeant(day, given);
  if (days === null) return err({ type: 'NotAWhen', text });
  const real = days.filter((d) => isCalendarDay(d.year, d.month, d.day));
  if (real.length === 0) return err({ type: 'NoSuchDay', text });
  if (time === null && (day === 'today' || day === '')) {
    return day === ''
      ? err({ type: 'NotAWhen', text })
      : ok({ atMs: given.nowMs, precision: 'day', asTyped: text });
  }
  return momentOf(text, real, time, given.localTime);
}

interface Day {
  readonly year: number;
  readonly month: number;
  readonly day: number;
}

interface TimeOfDay {
  readonly hour: number;
  readonly minute: number;
}

function timeAgo(text: string, ago: RegExpExecArray, nowMs: EpochMs): Result<When, WhenError> {
  const minutes = MINUTES_IN[Object.hasOwn(MINUTES_IN, ago[2] ?? '') ? (ago[2] ?? '') : ''];
  if (minutes === undefined) return err({ type: 'NotAWhen', text });
  const atMs = nowMs - Number(ago[1]) * minutes * 60_000;
  return ok({ atMs, precision: minutes < 1440 ? 'minute' : 'day', asTyped: text });
}

function partTime(plain: string): { readonly day: string; readonly time: TimeOfDay | null | 'bad' } {
  const found = /(?:^|[ t,]|, )([0-9]{1,2}):([0-9]{2})(?::[0-9]{2})?$/u.exec(plain);
  if (!found) return { day: plain, time: null };
  const time = { hour: Number(found[1]), minute: Number(found[2]) };
  const day = plain.slice(0, found.index).replace(/,$/u, '').trim();
  return { day, time: time.hour > 23 || time.minute > 59 ? 'bad' : time };
}

/** The days a text may mean: none of our forms (null), one, or two when day and month can be swapped. */
function daysMeant(
  day: string,
  given: { readonly nowMs: EpochMs; readonly localTime: LocalTime },
): readonly Day[] | null {
  if (day === '' || day === 'today') return [given.localTime.localOf(given.nowMs)];
  if (day === 'yesterday') return [given.localTime.localOf(given.nowMs - 86_400_000)];
  const iso = /^([0-9]{4})-([0-9]{1,2})-([0-9]{1,2})$/u.exec(day);
  if (iso) return [{ year: Number(iso[1]), month: Number(iso[2]), day: Number(iso[3]) }];
  const named =
    /^([0-9]{1,2})\.? ([a-z]{3,9})\.?,? ([0-9]{4})$/u.exec(day) ??
    swapped(/^([a-z]{3,9})\.? ([0-9]{1,2}),? ([0-9]{4})$/u.exec(day));
  if (named) {
    const month = MONTHS.indexOf((named[2] ?? '').slice(0, 3)) + 1;
    return month === 0 ? null : [{ year: Number(named[3]), month, day: Number(named[1]) }];
  }
  const numeric = /^([0-9]{1,2})([/.-])([0-9]{1,2})\2([0-9]{4})$/u.exec(day);
  if (!numeric) return null;
  const [a, b, year] = [Number(numeric[1]), Number(numeric[3]), Number(numeric[4])];
  const readings = [
    { year, month: b, day: a },
    { year, month: a, day: b },
  ];
  return a === b ? readings.slice(0, 1) : readings;
}

function swapped(found: RegExpExecArray | null): readonly (string | undefined)[] | null {
  return found && [found[0], found[2], found[1], found[3]];
}

function momentOf(
  text: string,
  days: readonly Day[],
  time: TimeOfDay | null,
  localTime: LocalTime,
): Result<When, WhenError> {
  const readings: { text: string; when: When }[] = [];
  for (const day of days) {
    const civil: CivilTime = {
      year: day.year,
      month: day.month,
      day: day.day,
      ...(time ?? { hour: 12, minute: 0 }),
    };
    const atMs = localTime.epochOf(civil);
    if (atMs === null) continue;
    readings.push({ text: isoDay(day), when: { atMs, precision: time ? 'minute' : 'day', asTyped: text } });
  }
  const [one, another] = readings;
  if (!one) return err({ type: 'NoSuchTime', text });
  return another ? err({ type: 'Ambiguous', readings }) : ok(one.when);
}
