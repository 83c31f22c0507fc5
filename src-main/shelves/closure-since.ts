import type { Database } from 'better-sqlite3';
import type { VesselRecord } from '#core/ledger/records.ts';
import type { Closure } from '#core/ledger/stage.ts';

/** When each vessel was closed the way it is closed now, by the lines of the book that are not struck. */
export interface ClosureDates {
  /** Epoch ms; null where no line of the book tells. */
  sinceMs(vessel: Pick<VesselRecord, 'id' | 'closure'>): number | null;
}

export function openClosureDates(sqlite: Database): ClosureDates {
  const closures = sqlite.prepare(
    `SELECT json_extract(entry.act, '$.closure') AS closure, entry.happened_at_ms AS atMs
     FROM entry_subject AS about JOIN entry USING (sequence)
     WHERE about.kind = 'vessel' AND about.subject_id = ?
       AND entry.kind IN ('addVessel', 'editVessel', 'changeClosure')
       AND NOT EXISTS (SELECT 1 FROM strike WHERE strike.id = entry.entry_id)
     ORDER BY entry.sequence DESC`,
  );
  return {
    sinceMs({ id, closure }) {
      let sinceMs: number | null = null;
      // A vessel described anew with the closure it had is closed no later for it.
      for (const line of closures.iterate(id) as IterableIterator<{ closure: Closure; atMs: number }>) {
        if (line.closure !== closure) break;
        sinceMs = line.atMs;
      }
      return sinceMs;
    },
  };
}
