import type { Database } from 'better-sqlite3';
import type { z } from 'zod';
import type { BATCH_SORTS, BatchRow, bookContract } from '#core/contract/book.ts';
import type { ShelfRow } from '#core/contract/shelves.ts';
import type { BatchId } from '#core/ledger/ids.ts';
import { STAGES, type FilledStage } from '#core/ledger/stage.ts';
import { foldForSearch } from '../find/fold-for-search.ts';
import type { RecordStore } from '../ledger/record-store.ts';
import { readingFromColumns, READING_COLUMNS } from '../shelves/reading-columns.ts';
import { headlineOf } from '../shelves/shelves-projection.ts';

export type BatchesRequest = z.infer<NonNullable<(typeof bookContract.batches)['~orpc']['inputSchema']>>;

/** The ledger of batches: filtered, sorted, a page at a time. */
export interface BatchesQuery {
  page(request: BatchesRequest): { rows: BatchRow[]; total: number };
  row(batchId: BatchId): BatchRow | null;
}

const ORDER: Readonly<Record<(typeof BATCH_SORTS)[number], string>> = {
  started: 'batch.started_at_ms',
  name: 'batch.name COLLATE NOCASE',
  code: 'batch.code',
  stage: 'COALESCE(standing.stage_rank, 99)',
  volume: 'COALESCE(standing.volume_ul, 0)',
  ferment: 'batch.ferment',
};

export function openBatchesQuery(sqlite: Database, records: RecordStore): BatchesQuery {
  sqlite.function('fold_for_search', { deterministic: true }, (text) =>
    typeof text === 'string' ? foldForSearch(text) : null,
  );
  const fillsOf = sqlite.prepare(
    `SELECT fill.volume_ul AS volumeUl, fill.stage, shelf_row.shown FROM fill
     JOIN shelf_row ON shelf_row.vessel_id = fill.id WHERE fill.batch_id = ?
     ORDER BY fill.volume_ul DESC, shelf_row.number`,
  );
  const lastReadings = sqlite.prepare(
    `SELECT ${READING_COLUMNS} FROM reading WHERE batch_id = ? ORDER BY at_ms DESC, id DESC LIMIT 12`,
  );

  const row = (batchId: BatchId): BatchRow | null => {
    const batch = records.get('batch', batchId);
    if (batch === null) return null;
    const fills = fillsOf.all(batchId) as { volumeUl: number; stage: FilledStage; shown: string }[];
    const standing = fills.map((f) => JSON.parse(f.shown) as ShelfRow);
    const readings = lastReadings.all(batchId).map(readingFromColumns).reverse();
    const dues = standing
      .flatMap((s) => (s.due === null ? [] : [s.due]))
      .sort((a, b) => a.latestMs - b.latestMs);
    return {
      ...{
        batchId,
        code: batch.code,
        name: batch.name,
        ferment: batch.ferment,
        startedAtMs: batch.startedAtMs,
      },
      stage: fills[0]?.stage ?? null,
      volumeUl: fills.reduce((sum, f) => sum + f.volumeUl, 0),
      vesselNumbers: standing.map((s) => s.number),
      spots: standing.flatMap((s) => (s.spot === null ? [] : [s.spot])),
      headline: standing[0]?.headline ?? headlineOf(readings, batch, null),
      due: dues[0] ?? null,
    };
  };

  return {
    row,
    page(request) {
      const { text, ferment, stage, standingOnly, cultureId, sort, descending, offset, limit } = request;
      const where: string[] = [];
      if (text.trim() !== '')
        where.push(`instr(fold_for_search(batch.name || ' ' || batch.code || ' ' || batch.note), @text) > 0`);
      if (ferment !== null) where.push('batch.ferment = @ferment');
      if (stage !== null)
        where.push('EXISTS (SELECT 1 FROM fill WHERE fill.batch_id = batch.id AND fill.stage = @stage)');
      if (standingOnly) where.push('EXISTS (SELECT 1 FROM fill WHERE fill.batch_id = batch.id)');
      if (cultureId !== null) where.push(WORKED_BY_CULTURE);
      const from = `FROM batch LEFT JOIN (SELECT batch_id, SUM(volume_ul) AS volume_ul, MIN(${STAGE_RANK}) AS stage_rank
          FROM fill GROUP BY batch_id) AS standing ON standing.batch_id = batch.id
        ${where.length === 0 ? '' : `WHERE ${where.join(' AND ')}`}`;
      const values = { text: foldForSearch(text.trim()), ferment, stage, cultureId };
      const direction = descending ? 'DESC' : 'ASC';
      const ids = sqlite
        .prepare(
          `SELECT batch.id ${from} ORDER BY ${ORDER[sort]} ${direction}, batch.code ${direction} LIMIT @limit OFFSET @offset`,
        )
        .pluck()
        .all({ ...values, limit, offset }) as BatchId[];
      const total = sqlite.prepare(`SELECT COUNT(*) ${from}`).pluck().get(values) as number;
      return { rows: ids.flatMap((id) => row(id) ?? []), total };
    },
  };
}

/** Batches in which the culture or a culture divided from it has worked, and those taken from such batches. */
const WORKED_BY_CULTURE = `batch.id IN (
  WITH RECURSIVE family (id) AS (
    SELECT @cultureId UNION SELECT culture.id FROM culture JOIN family ON culture.parent_culture_id = family.id),
  touched (id) AS (
    SELECT pull.batch_id FROM pull JOIN family ON pull.culture_id = family.id
    UNION SELECT batch.id FROM batch JOIN touched ON batch.parent_batch_id = touched.id)
  SELECT id FROM touched)`;

const STAGE_RANK = `CASE fill.stage ${STAGES.map((stage, rank) => `WHEN '${stage}' THEN ${rank}`).join(' ')} END`;
