import type { CultureRow } from '#core/contract/cultures.ts';
import type { HouseRules } from '#core/contract/house-rules.ts';
import type { ShelfRow } from '#core/contract/shelves.ts';
import { CULTURE_SORT_WORDS, capital } from './choice-words.ts';
import { sayAgo, sayDate } from './time-words.ts';

/** `Vinegar mother, since 2021-03-04`. */
export function sayCultureSort(culture: Pick<CultureRow, 'sort' | 'sinceMs'>, rules: HouseRules): string {
  return `${capital(CULTURE_SORT_WORDS[culture.sort])}, since ${sayDate(culture.sinceMs, rules)}`;
}

/** Where it is kept: `kept in A1`, `kept in A1 and C3`, `not in a jar of its own`. */
export function sayKeptIn(keptIn: readonly Pick<ShelfRow, 'spot' | 'number'>[]): string {
  const spots = keptIn.map(sayVesselSpot);
  const last = spots.at(-1);
  if (last === undefined) return 'not in a jar of its own';
  if (spots.length > 3) return `kept in ${spots.length} vessels`;
  return spots.length === 1 ? `kept in ${last}` : `kept in ${spots.slice(0, -1).join(', ')} and ${last}`;
}

/** Its spot, or its permanent number when it stands nowhere. */
export function sayVesselSpot(row: Pick<ShelfRow, 'spot' | 'number'>): string {
  return row.spot ?? `vessel ${row.number}`;
}

/** `fed 9 d ago`, `not fed yet`. */
export function sayFed(fedAtMs: number | null, nowMs: number): string {
  return fedAtMs === null ? 'not fed yet' : `fed ${sayAgo(fedAtMs, nowMs)}`;
}

/** `no pulls yet`, `1 pull`, `3 pulls`. */
export function sayPulls(count: number): string {
  if (count === 0) return 'no pulls yet';
  return count === 1 ? '1 pull' : `${count} pulls`;
}

/** `at work in 2 vessels`, or nothing when it rests. */
export function sayWorking(count: number): string {
  if (count === 0) return '';
  return count === 1 ? 'at work in 1 vessel' : `at work in ${count} vessels`;
}

/** `1st`, `2nd`, `11th`. */
export function ordinal(n: number): string {
  const tens = n % 100;
  const ending = tens >= 11 && tens <= 13 ? 'th' : (['th', 'st', 'nd', 'rd'][n % 10] ?? 'th');
  return `${n}${ending}`;
}
