import type { EpochMs } from '../base/ports.ts';

/** A date and time as a calendar and a clock on the wall show it. Month 1–12, day 1–31. */
export interface CivilTime {
  readonly year: number;
  readonly month: number;
  readonly day: number;
  readonly hour: number;
  readonly minute: number;
}

/** What the place's own clock says. Handed in, because the core knows no time zones. */
export interface LocalTime {
  readonly localOf: (at: EpochMs) => CivilTime;
  /** Null when the wall clock skips this time, as on the night summer time begins. */
  readonly epochOf: (civil: CivilTime) => EpochMs | null;
}

const MINUTE_MS = 60_000;
const DAY_MS = 86_400_000;

/** A wall clock that always runs so many minutes ahead of UTC. */
export function fixedOffset(minutesAheadOfUtc: number): LocalTime {
  const shift = minutesAheadOfUtc * MINUTE_MS;
  return {
    localOf: (at) => civilOfUtc(at + shift),
    epochOf: (civil) => utcOfCivil(civil) - shift,
  };
}

/** Milliseconds since the epoch of a civil time read as UTC. Proleptic Gregorian. */
export function utcOfCivil(civil: CivilTime): EpochMs {
  const days = daysFromCivil(civil.year, civil.month, civil.day);
  return days * DAY_MS + (civil.hour * 60 + civil.minute) * MINUTE_MS;
}

/** The civil time in UTC, to the minute. */
export function civilOfUtc(at: EpochMs): CivilTime {
  const days = Math.floor(at / DAY_MS);
  const minutes = Math.floor((at - days * DAY_MS) / MINUTE_MS);
  return { ...civilFromDays(days), hour: Math.floor(minutes / 60), minute: minutes % 60 };
}

/** True for a day the calendar has. */
export function isCalendarDay(year: number, month: number, day: number): boolean {
  if (month < 1 || month > 12 || day < 1 || day > 31) return false;
  const back = civilFromDays(daysFromCivil(year, month, day));
  return back.year === year && back.month === month && back.day === day;
}

/** Days since 1970-01-01, counted in eras of 400 years that begin on 1 March. */
export function daysFromCivil(year: number, month: number, day: number): number {
  const y = month <= 2 ? year - 1 : year;
  const era = Math.floor(y / 400);
  const yearOfEra = y - era * 400;
  const dayOfYear = Math.floor((153 * (month + (month > 2 ? -3 : 9)) + 2) / 5) + day - 1;
  const dayOfEra = yearOfEra * 365 + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100) + dayOfYear;
  return era * 146_097 + dayOfEra - 719_468;
}

function civilFromDays(daysSinceEpoch: number): { year: number; month: number; day: number } {
  const z = daysSinceEpoch + 719_468;
  const era = Math.floor(z / 146_097);
  const dayOfEra = z - era * 146_097;
  const yearOfEra = Math.floor(
    (dayOfEra -
      Math.floor(dayOfEra / 1460) +
      Math.floor(dayOfEra / 36_524) -
      Math.floor(dayOfEra / 146_096)) /
      365,
  );
  const dayOfYear = dayOfEra - (365 * yearOfEra + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100));
  const monthFromMarch = Math.floor((5 * dayOfYear + 2) / 153);
  const day = dayOfYear - Math.floor((153 * monthFromMarch + 2) / 5) + 1;
  const month = monthFromMarch < 10 ? monthFromMarch + 3 : monthFromMarch - 9;
  return { year: yearOfEra + era * 400 + (month <= 2 ? 1 : 0), month, day };
}

/** `2026-11-25`. */
export function isoDay(civil: Pick<CivilTime, 'year' | 'month' | 'day'>): string {
  return `${String(civil.year).padStart(4, '0')}-${twoDigits(civil.month)}-${twoDigits(civil.day)}`;
}

/** `2026-11-25 14:30`. */
export function isoMinute(civil: CivilTime): string {
  return `${isoDay(civil)} ${twoDigits(civil.hour)}:${twoDigits(civil.minute)}`;
}

function twoDigits(n: number): string {
  return String(n).padStart(2, '0');
}
