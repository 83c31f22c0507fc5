import type { Database } from 'better-sqlite3';
import type { FillRecord, ReadingRecord } from '#core/ledger/records.ts';
import { readingFromColumns, READING_COLUMNS } from './reading-columns.ts';

/** Reads the readings that speak of what stands in a vessel: taken there, or where the same liquid stood before. */
export interface StandingReadings {
  /** Oldest first. At most `limit` a standing place, the newest. */
  of(fill: FillRecord, limit: number): ReadingRecord[];
}

export function openStandingReadings(sqlite: Database): StandingReadings {
  const select = sqlite.prepare(
    `SELECT ${READING_COLUMNS} FROM reading
     WHERE vessel_id = ? AND batch_id = ? AND at_ms <= ? ORDER BY at_ms DESC, id DESC LIMIT ?`,
  );
  return {
    of(fill, limit) {
      const places = [
        ...fill.trail,
        { vesselId: fill.id, batchId: fill.batchId, untilMs: Number.MAX_SAFE_INTEGER },
      ];
      const byId = new Map<string, ReadingRecord>();
      for (const { vesselId, batchId, untilMs } of places) {
        for (const row of select.all(vesselId, batchId, untilMs, limit)) {
          const reading = readingFromColumns(row);
          byId.set(reading.id, reading);
        }
      }
      return [...byId.values()].sort((a, b) => a.atMs - b.atMs || (a.id < b.id ? -1 : 1));
    },
  };
}
