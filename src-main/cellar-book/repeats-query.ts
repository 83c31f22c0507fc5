import type { Database } from 'better-sqlite3';
import type { Repeat } from '#core/contract/book.ts';
import type { BatchId } from '#core/ledger/ids.ts';
import type { RecordStore } from '../ledger/record-store.ts';

/** Which batch a batch makes again, and which were made again from it. Both follow from the lines that began them. */
export interface RepeatsQuery {
  of(batchId: BatchId): { repeats: Repeat | null; repeatedBy: Repeat[] };
}

export function openRepeatsQuery(sqlite: Database, records: RecordStore): RepeatsQuery {
  const starts = sqlite.prepare(
    `SELECT act ->> 'batchId' AS begun, act ->> 'repeatsBatchId' AS again FROM entry
     WHERE kind = 'startBatch' AND sequence IN (SELECT sequence FROM entry_subject WHERE kind = 'batch' AND subject_id = ?)
       AND act ->> 'repeatsBatchId' IS NOT NULL
       AND NOT EXISTS (SELECT 1 FROM strike WHERE strike.id = entry.entry_id)
     ORDER BY happened_at_ms, sequence`,
  );
  const shown = (batchId: string): Repeat[] => {
    const batch = records.get('batch', batchId);
    if (batch === null) return [];
    return [{ batchId: batch.id, code: batch.code, name: batch.name, startedAtMs: batch.startedAtMs }];
  };
  return {
    of(batchId) {
      const rows = starts.all(batchId) as { begun: string; again: string }[];
      const [before] = rows.filter(({ begun }) => begun === batchId).flatMap(({ again }) => shown(again));
      return {
        repeats: before ?? null,
        repeatedBy: rows.filter(({ again }) => again === batchId).flatMap(({ begun }) => shown(begun)),
      };
    },
  };
}
