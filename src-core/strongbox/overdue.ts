import type { EpochMs } from '../base/ports.ts';

/** So long without a proven backup, and the rail turns to a caution. Common practice, no source. */
const CAUTION_AFTER_MS = 7 * 86_400_000;
/** Clocks of a window and its program may differ by so much without either having been set. */
const CLOCKS_DIFFER_MS = 60_000;

/** How long ago the last backup was, as far as that can be told. */
export type BackupAge =
  | { readonly type: 'made'; readonly atMs: EpochMs; readonly overdue: boolean }
  /** The clock stands before it, and was set back: it says nothing of how long ago that was. */
  | { readonly type: 'clockBefore'; readonly atMs: EpochMs; readonly overdue: true }
  | { readonly type: 'none'; readonly overdue: boolean };

/** What can be said of the last backup at a moment. A cellar that never had one is given as many days from its beginning. */
export function backupAge(
  known: { readonly lastAtMs: EpochMs | null; readonly begunAtMs: EpochMs },
  nowMs: EpochMs,
): BackupAge {
  const { lastAtMs: atMs, begunAtMs } = known;
  if (atMs === null) return { type: 'none', overdue: isOverdue(begunAtMs, nowMs) };
  if (atMs > nowMs + CLOCKS_DIFFER_MS) return { type: 'clockBefore', atMs, overdue: true };
  return { type: 'made', atMs, overdue: isOverdue(atMs, nowMs) };
}

/** Whether seven days have gone by since, or the clock stands before it. */
export function isOverdue(sinceMs: EpochMs, nowMs: EpochMs): boolean {
  return nowMs - sinceMs >= CAUTION_AFTER_MS || nowMs < sinceMs - CLOCKS_DIFFER_MS;
}
