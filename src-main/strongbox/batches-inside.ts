import type { Database } from 'better-sqlite3';
import type { ListedBatch } from '#core/contract/strongbox.ts';

/** A batch as a backup has it. */
export interface BatchInside extends Omit<ListedBatch, 'here' | 'readingsMissingHere'> {
  readonly readingIds: readonly string[];
}

const BATCHES_SHOWN = 1000;

/** The batches of a cellar, newest first, the first thousand. Reads columns that every version of the file has. */
export function batchesInside(sqlite: Database): BatchInside[] {
  const batches = sqlite
    .prepare(
      `SELECT id AS batchId, code, name, ferment, started_at_ms AS startedAtMs
       FROM batch ORDER BY started_at_ms DESC, code LIMIT ${BATCHES_SHOWN}`,
    )
    .all() as Pick<BatchInside, 'batchId' | 'code' | 'name' | 'ferment' | 'startedAtMs'>[];
  const readings = sqlite.prepare('SELECT id, at_ms FROM reading WHERE batch_id = ? ORDER BY at_ms');
  const stands = sqlite.prepare(
    `SELECT vessel.id AS vesselId, vessel.number AS vesselNumber, vessel.name AS vesselName, volume_ul AS volumeUl
     FROM fill JOIN vessel ON vessel.id = fill.id WHERE fill.batch_id = ? ORDER BY vessel.number`,
  );
  return batches.map((batch) => {
    const read = readings.all(batch.batchId) as { id: string; at_ms: number }[];
    return {
      ...batch,
      ...{ readings: read.length, readingIds: read.map(({ id }) => id) },
      lastReadingAtMs: read.at(-1)?.at_ms ?? null,
      stands: stands.all(batch.batchId) as BatchInside['stands'],
    };
  });
}

/** How each of them is in an open cellar. */
export function heldAgainst(sqlite: Database, batches: readonly BatchInside[]): ListedBatch[] {
  const isHere = sqlite.prepare('SELECT 1 FROM batch WHERE id = ?').pluck();
  const standsHere = sqlite.prepare('SELECT id, volume_ul FROM fill WHERE batch_id = ? ORDER BY id');
  const hasReading = sqlite.prepare('SELECT 1 FROM reading WHERE id = ?').pluck();
  return batches.map(({ readingIds, ...batch }) => {
    const readingsMissingHere = readingIds.filter((id) => hasReading.get(id) === undefined).length;
    if (isHere.get(batch.batchId) === undefined) return { ...batch, here: 'missing', readingsMissingHere };
    const there = batch.stands
      .map(({ vesselId, volumeUl }) => ({ id: vesselId, volume_ul: volumeUl }))
      .sort((a, b) => (a.id < b.id ? -1 : 1));
    const same = JSON.stringify(standsHere.all(batch.batchId)) === JSON.stringify(there);
    return { ...batch, here: same && readingsMissingHere === 0 ? 'same' : 'differs', readingsMissingHere };
  });
}
