import type { Database } from 'better-sqlite3';
import type { TastingRow } from '#core/contract/tastings.ts';

/** What was tasted of a batch. */
export interface TastingsQuery {
  of(batchId: string): TastingRow[];
}

export function openTastingsQuery(sqlite: Database): TastingsQuery {
  const ofBatch = sqlite.prepare(
    `SELECT id AS entryId, at_ms AS atMs, words, score, text, tasted_by AS "by", vessel_id AS vesselId
     FROM tasting WHERE batch_id = ? ORDER BY at_ms, id`,
  );
  return {
    of: (batchId) =>
      (ofBatch.all(batchId) as (Omit<TastingRow, 'words'> & { words: string })[]).map((row) => ({
        ...row,
        words: JSON.parse(row.words) as TastingRow['words'],
      })),
  };
}
