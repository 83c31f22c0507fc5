import type { CultureRow } from '#core/contract/cultures.ts';
import type { DueCheck, ShelfRow } from '#core/contract/shelves.ts';
import { dueGroupOf, type DayBounds, type DueGroup } from '../words/due-words.ts';
import type { Details } from './paper-data.ts';

/** Up to when a list of what is due looks ahead. */
export type Reach = 'today' | 'week' | 'all';

/** One thing to do, with the vessel or the culture it is for. */
export interface DueLine {
  readonly key: string;
  readonly check: DueCheck;
  readonly row: ShelfRow | null;
  readonly culture: CultureRow | null;
}

export interface DueGroupLines {
  readonly group: DueGroup;
  readonly lines: readonly DueLine[];
}

const GROUPS: readonly DueGroup[] = ['late', 'today', 'week', 'later'];
const REACHES: Readonly<Record<Reach, readonly DueGroup[]>> = {
  today: ['late', 'today'],
  week: ['late', 'today', 'week'],
  all: GROUPS,
};

/**
 * Everything due within reach, the most pressing first. A vessel whose details were not read gives its most pressing
 * alone; a culture kept in a jar of its own is told with that jar and not twice.
 */
export function dueLines(
  given: {
    readonly rows: readonly ShelfRow[];
    readonly cultures: readonly CultureRow[];
    readonly details: Details;
  },
  reach: Reach,
  today: DayBounds,
): readonly DueGroupLines[] {
  const lines: DueLine[] = [];
  for (const row of given.rows) {
    const checks = given.details.get(row.vesselId)?.due ?? (row.due === null ? [] : [row.due]);
    for (const check of checks)
      lines.push({ key: `${row.vesselId} ${check.act} ${check.idealMs}`, check, row, culture: null });
  }
  const told = new Set(given.rows.map(({ vesselId }) => vesselId));
  for (const culture of given.cultures) {
    const { due: check, cultureId, keptIn } = culture;
    if (check === null || keptIn.some(({ vesselId }) => told.has(vesselId))) continue;
    lines.push({ key: `${cultureId} ${check.act}`, check, row: null, culture });
  }
  return GROUPS.filter((group) => REACHES[reach].includes(group))
    .map((group) => ({
      group,
      lines: lines
        .filter(({ check }) => dueGroupOf(check, today) === group)
        .toSorted((a, b) =>
          group === 'late' ? a.check.latestMs - b.check.latestMs : a.check.idealMs - b.check.idealMs,
        ),
    }))
    .filter(({ lines: some }) => some.length > 0);
}
