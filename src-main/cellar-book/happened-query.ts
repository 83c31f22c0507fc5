import type { Database } from 'better-sqlite3';
import type { EntryRow } from '#core/contract/ledger.ts';
import { ENTRY_COLUMNS, type BookStore } from '../ledger/book-store.ts';
import type { EntryRows } from '../ledger/entry-rows.ts';

/** What happened on the days between some edges: how many lines each day, and the first of the lines themselves. */
export interface HappenedQuery {
  between(
    boundsMs: readonly number[],
    limit: number,
  ): { counts: number[]; entries: EntryRow[]; more: boolean };
}

export function openHappenedQuery(sqlite: Database, book: BookStore, rows: EntryRows): HappenedQuery {
  // The moments alone are read for all days; whole lines only for as many as are asked for.
  const standing = sqlite.prepare(
    `SELECT entry.sequence, COALESCE(restatement.happened_at_ms, entry.happened_at_ms) AS atMs
     FROM entry LEFT JOIN restatement ON restatement.id = entry.entry_id
     WHERE atMs >= @fromMs AND atMs < @toMs AND entry.kind NOT IN ('reverse', 'restate')
       AND NOT EXISTS (SELECT 1 FROM strike WHERE strike.id = entry.entry_id)
     ORDER BY atMs, entry.sequence`,
  );
  const line = sqlite.prepare(`SELECT ${ENTRY_COLUMNS} FROM entry WHERE sequence = ?`);
  return {
    between(boundsMs, limit) {
      const found = standing.all({ fromMs: boundsMs[0], toMs: boundsMs.at(-1) }) as Standing[];
      const wanted = found.slice(0, limit).map(({ sequence }) => line.get(sequence));
      return {
        counts: countByDay(boundsMs, found),
        entries: book.fromRows(wanted).map((entry) => rows.of(entry)),
        more: found.length > limit,
      };
    },
  };
}

interface Standing {
  readonly sequence: number;
  readonly atMs: number;
}

/** Both in the order of time, so one walk along them counts. */
function countByDay(boundsMs: readonly number[], found: readonly Standing[]): number[] {
  const counts = boundsMs.slice(1).map(() => 0);
  let day = 0;
  for (const { atMs } of found) {
    while (atMs >= (boundsMs[day + 1] ?? Infinity)) day += 1;
    counts[day] = (counts[day] ?? 0) + 1;
  }
  return counts;
}
