import type { DueLine } from '../paper/due-lines.ts';
import { dueGroupOf, type DayBounds } from '../words/due-words.ts';
import { isoDayOf } from '../words/time-words.ts';

/** Acts that bring liquid from one vessel to another: the transfer schedule. */
const MOVES: ReadonlySet<DueLine['check']['act']> = new Set(['rack', 'seed', 'bottle']);

export function isMove({ check }: DueLine): boolean {
  return MOVES.has(check.act);
}

/**
 * What is due, by the day on which it is best done. What has become late, or should have been done by now, is carried
 * over to today, as on a wall calendar; the late ones come first.
 */
export function dueByDay(
  lines: readonly DueLine[],
  today: DayBounds,
): ReadonlyMap<string, readonly DueLine[]> {
  const byDay = new Map<string, DueLine[]>();
  const inOrder = lines.toSorted(
    (a, b) =>
      Number(dueGroupOf(b.check, today) === 'late') - Number(dueGroupOf(a.check, today) === 'late') ||
      a.check.latestMs - b.check.latestMs ||
      a.key.localeCompare(b.key),
  );
  for (const line of inOrder) {
    const group = dueGroupOf(line.check, today);
    const day = isoDayOf(group === 'late' || group === 'today' ? today.startMs : line.check.idealMs);
    const there = byDay.get(day);
    if (there === undefined) byDay.set(day, [line]);
    else there.push(line);
  }
  return byDay;
}
