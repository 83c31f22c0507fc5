import type { Database } from 'better-sqlite3';

/** A batch as a backup has it. */
export interface BatchInside {
  readonly batchId: string;
  readonly code: string;
  readonly name: string;
  readonly ferment: string;
  readonly startedAtMs: number;
  readonly readings: number;
  /** What of it still stood in vessels, µl. */
  readonly standsUl: number;
  readonly vessels: number;
  readonly lastReadingAtMs: number | null;
}

/** Every batch of a cellar, newest first. Reads columns that every version of the file has. */
export function batchesInside(sqlite: Database): BatchInside[] {
  return sqlite
    .prepare(
      `SELECT batch.id AS batchId, code, name, ferment, started_at_ms AS startedAtMs,
         (SELECT COUNT(*) FROM reading WHERE batch_id = batch.id) AS readings,
         (SELECT coalesce(SUM(volume_ul), 0) FROM fill WHERE batch_id = batch.id) AS standsUl,
         (SELECT COUNT(*) FROM fill WHERE batch_id = batch.id) AS vessels,
         (SELECT MAX(at_ms) FROM reading WHERE batch_id = batch.id) AS lastReadingAtMs
       FROM batch ORDER BY started_at_ms DESC, code`,
    )
    .all() as BatchInside[];
}
