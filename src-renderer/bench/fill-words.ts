import type { HouseRules } from '#core/contract/house-rules.ts';
import { sayAgo, sayDate, sayDays, sayMoment } from '../words/time-words.ts';
import type { FillOrigin, VesselFill } from './vessel-fill.ts';

type Rules = Pick<HouseRules, 'dates'>;

const ORIGINS: Readonly<Record<FillOrigin, string>> = {
  dates: 'By the dates of its last two readings, the newest',
  read: 'Read off this vessel',
  corrected: 'Read off this vessel, corrected to 20 °C',
  countedAsAcetic: 'Titrated, counted as acetic',
  workedOut: 'Worked out from the drop in gravity, not measured',
  book: 'What the book says stands in it',
  capacity: 'What is free above it, to the brim',
  must: 'The must it began as',
};

/** Where a value comes from and when it was read: `Read off this vessel 2026-11-19, 6 d ago`. */
export function sayOrigin(fill: VesselFill, nowMs: number, rules: Rules): string {
  const what = ORIGINS[fill.origin];
  if (fill.atMs === null) return `${what}.`;
  return `${what}, ${sayDate(fill.atMs, rules)}, ${sayAgo(fill.atMs, nowMs)}.`;
}

/** Why the value no longer describes the vessel, and what to do; null when nothing is known against it. */
export function sayStale({ stale }: VesselFill, rules: Rules): string | null {
  if (stale === null) return null;
  switch (stale.rule) {
    case 'MEAS-03':
      return `Stale: something went in on ${sayMoment(stale.changedAtMs, rules)}, after this was read. Measure again.`;
    case 'MEAS-04':
      return stale.limitMs === null
        ? 'Stale: too old for the rules. Measure again.'
        : `Stale: older than the ${sayDays(Math.round(stale.limitMs / 86_400_000))} the rules allow it. Measure again.`;
  }
}
