import { z } from 'zod';
import type { EpochMs } from '../base/ports.ts';
import { daysFromCivil, type LocalTime } from '../quantities/civil-time.ts';
import type { BackupReason } from './manifest.ts';

/**
 * How many backups are kept. Days, weeks and months are counted by those that have a backup, not by what the clock says
 * now: a clock that was set wrong makes nothing old.
 */
export const RotationRules = z.strictObject({
  /** All backups of the last so many days that have any. */
  allOfDays: z.int().min(1).max(60),
  /** The newest of each day, week (from Monday) and month, for so many of them that have any. */
  days: z.int().min(1).max(366),
  weeks: z.int().min(0).max(520),
  months: z.int().min(0).max(1200),
});
export type RotationRules = z.infer<typeof RotationRules>;

export const ROTATION_AT_FIRST: RotationRules = { allOfDays: 2, days: 30, weeks: 12, months: 24 };

/** Safety copies kept beside those of the days: the last so many. They are the way back from a restoring. */
const SAFETY_COPIES_KEPT = 10;

/** A backup of one cellar in one folder, as its seal or this computer's list says. */
export interface KeptBackup {
  readonly file: string;
  readonly madeAtMs: EpochMs;
  readonly reason: BackupReason;
  /** Number of the last line in it. */
  readonly entries: number;
}

/**
 * Which backups of one cellar in one folder may go. A backup made by hand never goes; nor do the newest, by the clock and by
 * the book, whichever of them the others are measured by.
 *
 * @returns the files to throw away; every other stays
 */
export function backupsToDrop(
  backups: readonly KeptBackup[],
  rules: RotationRules,
  localTime: LocalTime,
): readonly string[] {
  const newestFirst = [...backups].sort(
    (a, b) => b.madeAtMs - a.madeAtMs || b.entries - a.entries || (a.file < b.file ? -1 : 1),
  );
  const kept = new Set<string>();
  const keep = (backup: KeptBackup | undefined): void => {
    if (backup !== undefined) kept.add(backup.file);
  };
  newestFirst.filter(({ reason }) => reason === 'byHand').forEach(keep);
  keep(newestFirst[0]);
  keep(longestBook(newestFirst));
  newestFirst
    .filter(({ reason }) => reason.startsWith('before'))
    .slice(0, SAFETY_COPIES_KEPT)
    .forEach(keep);

  const dayOf = ({ madeAtMs }: KeptBackup): number => {
    const { year, month, day } = localTime.localOf(madeAtMs);
    return daysFromCivil(year, month, day);
  };
  // 1 January 1970 was a Thursday, so Mondays are three days before a multiple of seven.
  const weekOf = (backup: KeptBackup): number => Math.floor((dayOf(backup) + 3) / 7);
  const monthOf = ({ madeAtMs }: KeptBackup): number => {
    const { year, month } = localTime.localOf(madeAtMs);
    return year * 12 + month;
  };
  const recentDays = new Set([...new Set(newestFirst.map(dayOf))].slice(0, rules.allOfDays));
  newestFirst.filter((backup) => recentDays.has(dayOf(backup))).forEach(keep);
  for (const [periodOf, periods] of [
    [dayOf, rules.days],
    [weekOf, rules.weeks],
    [monthOf, rules.months],
  ] as const) {
    const seen = new Set<number>();
    for (const backup of newestFirst) {
      const period = periodOf(backup);
      if (seen.has(period)) continue;
      if (seen.size === periods) break;
      seen.add(period);
      keep(backup);
    }
  }
  return newestFirst.filter(({ file }) => !kept.has(file)).map(({ file }) => file);
}

function longestBook(newestFirst: readonly KeptBackup[]): KeptBackup | undefined {
  return newestFirst.reduce<KeptBackup | undefined>(
    (longest, backup) => (longest === undefined || backup.entries > longest.entries ? backup : longest),
    undefined,
  );
}

const DAY_MS = 86_400_000;

/**
 * Whether the daily backup is due: a day has passed since the last, or the clock stands before it, which means that it was
 * set back and says nothing of how long ago that was.
 */
export function dailyIsDue(lastMadeAtMs: EpochMs | null, nowMs: EpochMs): boolean {
  if (lastMadeAtMs === null) return true;
  return nowMs - lastMadeAtMs >= DAY_MS || nowMs < lastMadeAtMs;
}
