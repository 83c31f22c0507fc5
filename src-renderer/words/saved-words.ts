import { assertNever } from '#core/base/exhaustive.ts';
import type { BackupAge } from '#core/strongbox/overdue.ts';
import { clockOf, isoDayOf, sayAgo } from './time-words.ts';

/**
 * The words at the foot of the rail. Everything is saved at once, so they tell when the last thing was written, in the
 * keeper's clock, with the date when that was not today.
 */
export function saySaved(given: {
  readonly savedAtMs: number | null;
  /** The keeper's own day. */
  readonly day: { readonly startMs: number; readonly endMs: number };
  readonly readOnly: boolean;
  readonly faulty: boolean;
}): string {
  if (given.readOnly) return 'This file can only be read';
  if (given.faulty) return 'Not connected: nothing can be saved now';
  if (given.savedAtMs === null) return 'Nothing written yet';
  const clock = clockOf(given.savedAtMs);
  if (given.savedAtMs >= given.day.startMs && given.savedAtMs < given.day.endMs) return `Saved ${clock}`;
  return `Saved ${isoDayOf(given.savedAtMs)} ${clock}`;
}

const MINUTE_MS = 60_000;
const HOUR_MS = 60 * MINUTE_MS;

/** How long ago the last proven backup was: `backup 2 h ago`, from a day on `backup 3 d ago`. */
export function sayBackupAge(age: BackupAge, nowMs: number): string {
  switch (age.type) {
    case 'none':
      return 'no backup yet';
    case 'clockBefore':
      return `backup of ${isoDayOf(age.atMs)}, later than this clock`;
    case 'made': {
      const agoMs = nowMs - age.atMs;
      if (agoMs < MINUTE_MS) return 'backup just now';
      if (agoMs < HOUR_MS) return `backup ${Math.floor(agoMs / MINUTE_MS)} min ago`;
      if (agoMs < 24 * HOUR_MS) return `backup ${Math.floor(agoMs / HOUR_MS)} h ago`;
      return `backup ${sayAgo(age.atMs, nowMs)}`;
    }
    default:
      return assertNever(age);
  }
}

/** What is wrong with the backups, in as few words as the rail has room for; empty when nothing is. */
export function sayBackupConcerns(given: {
  readonly age: BackupAge;
  readonly failed: boolean;
  readonly missing: readonly string[];
  readonly unsound: boolean;
}): { readonly caution: string; readonly quiet: string } {
  const { age, failed, missing, unsound } = given;
  const cautions = [
    ...(unsound ? ['The check found faults in this file.'] : []),
    ...(failed ? ['The last backup failed.'] : []),
    ...(age.type === 'clockBefore' ? ['Back up now: the clock was set back.'] : []),
    ...(age.type !== 'clockBefore' && age.overdue
      ? ['Back up now: seven days without a proven backup.']
      : []),
  ];
  const [only = ''] = missing;
  const quiet =
    missing.length > 1
      ? `${missing.length} backup folders not there now`
      : missing.length === 1
        ? `${lastPart(only)} not plugged in, or not there now`
        : '';
  return { caution: cautions.join(' '), quiet };
}

function lastPart(folder: string): string {
  return folder.split(/[\\/]/u).findLast((part) => part !== '') ?? folder;
}
