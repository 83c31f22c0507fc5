import { isoDay, isoMinute, type LocalTime } from '#core/quantities/civil-time.ts';
import { parseWhen } from '#core/quantities/parse-when.ts';
import { sayWhenError, type Said } from '../words/error-words.ts';

/** What a time field holds. `atMs` is null for now, which the host then fills in itself. */
export type WhenState =
  | { readonly type: 'understood'; readonly atMs: number | null; readonly echo: string }
  | { readonly type: 'wrong'; readonly said: Said };

/**
 * Reads a time field: empty and `now` are now, and so is a bare day that is today, as long as its noon has not come.
 * The echo names the moment with how long ago it is.
 */
export function readWhenField(text: string, nowMs: number, localTime: LocalTime): WhenState {
  const plain = text.trim().toLowerCase();
  if (plain === '' || plain === 'now') return now(nowMs, localTime);
  const read = parseWhen(text, { nowMs, localTime });
  if (!read.ok) return { type: 'wrong', said: sayWhenError(read.error, localTime) };
  const { atMs, precision } = read.value;
  const sameDay = isoDay(localTime.localOf(atMs)) === isoDay(localTime.localOf(nowMs));
  if (precision === 'day' && sameDay && atMs >= nowMs) return now(nowMs, localTime);
  const civil = localTime.localOf(atMs);
  const moment = precision === 'day' ? isoDay(civil) : isoMinute(civil);
  return { type: 'understood', atMs, echo: `${moment}, ${howFar(atMs - nowMs)}` };
}

function now(nowMs: number, localTime: LocalTime): WhenState {
  return { type: 'understood', atMs: null, echo: `now, ${isoMinute(localTime.localOf(nowMs))}` };
}

/** How far a moment lies from now, in the largest unit that leaves at least two of it, or one minute. */
export function howFar(awayMs: number): string {
  const minutes = Math.round(Math.abs(awayMs) / 60_000);
  if (minutes < 1) return 'just now';
  const words =
    minutes < 120
      ? counted(minutes, 'minute')
      : minutes < 2880
        ? counted(Math.round(minutes / 60), 'hour')
        : counted(Math.round(minutes / 1440), 'day');
  return awayMs < 0 ? `${words} ago` : `${words} ahead`;
}

function counted(count: number, noun: string): string {
  return `${count} ${noun}${count === 1 ? '' : 's'}`;
}
