import { sayShortDate } from '../words/time-words.ts';

/** Chart positions are days since the epoch, with parts of a day; a day boundary is the keeper's own midnight. */
export const MS_PER_DAY = 86_400_000;

export interface DayTick {
  readonly atMs: number;
  readonly label: string;
}

/**
 * Day boundaries to label between two moments: every day, second day, week, fortnight, month, quarter, half-year or
 * year, whichever is the closest step that gives at most `most` labels. The year is written where it turns.
 */
export function dayTicks(given: {
  readonly fromMs: number;
  readonly toMs: number;
  readonly most: number;
}): readonly DayTick[] {
  const { fromMs, toMs } = given;
  const most = Math.max(2, given.most);
  if (!(toMs > fromMs)) return [{ atMs: fromMs, label: sayShortDate(fromMs) }];
  for (const stepDays of [1, 2, 7, 14]) {
    if ((toMs - fromMs) / MS_PER_DAY / stepDays > most) continue;
    const ticks = byDays(fromMs, toMs, stepDays);
    if (ticks.length <= most) return ticks.map((atMs) => ({ atMs, label: sayShortDate(atMs) }));
  }
  for (const stepMonths of [1, 2, 3, 6, 12, 24, 60, 120]) {
    const ticks = byMonths(fromMs, toMs, stepMonths);
    if (ticks.length <= most) return ticks.map((atMs, i) => ({ atMs, label: monthLabel(atMs, i === 0) }));
  }
  return [
    { atMs: fromMs, label: monthLabel(fromMs, true) },
    { atMs: toMs, label: monthLabel(toMs, true) },
  ];
}

function byDays(fromMs: number, toMs: number, stepDays: number): number[] {
  const start = new Date(fromMs);
  // Weeks begin on Monday, so that two leaves of one season carry the same labels.
  const ahead = stepDays >= 7 ? (8 - start.getDay()) % 7 : 0;
  const ticks: number[] = [];
  for (let step = 0; ; step += stepDays) {
    const atMs = new Date(start.getFullYear(), start.getMonth(), start.getDate() + ahead + step).getTime();
    if (atMs > toMs) return ticks;
    if (atMs >= fromMs) ticks.push(atMs);
  }
}

function byMonths(fromMs: number, toMs: number, stepMonths: number): number[] {
  const start = new Date(fromMs);
  const firstMonth = stepMonths >= 12 ? 0 : start.getMonth() - (start.getMonth() % stepMonths);
  const firstYear =
    stepMonths > 12 ? start.getFullYear() - (start.getFullYear() % (stepMonths / 12)) : start.getFullYear();
  const ticks: number[] = [];
  for (let step = 0; ; step += stepMonths) {
    const atMs = new Date(firstYear, firstMonth + step, 1).getTime();
    if (atMs > toMs) return ticks;
    if (atMs >= fromMs) ticks.push(atMs);
  }
}

function monthLabel(atMs: number, first: boolean): string {
  const withYear = first || new Date(atMs).getMonth() === 0;
  return new Intl.DateTimeFormat(
    'en-GB',
    withYear ? { month: 'short', year: 'numeric' } : { month: 'short' },
  ).format(atMs);
}

/** What a chart spans: from its beginning or first reading to its end or last reading, and never less than a day. */
export function chartRange(given: {
  readonly fromMs: number;
  readonly toMs: number;
  readonly atMs: readonly number[];
}): { readonly fromMs: number; readonly toMs: number } {
  const fromMs = given.atMs.reduce((least, at) => Math.min(least, at), given.fromMs);
  const toMs = given.atMs.reduce((most, at) => Math.max(most, at), given.toMs);
  return { fromMs, toMs: Math.max(toMs, fromMs + MS_PER_DAY) };
}
