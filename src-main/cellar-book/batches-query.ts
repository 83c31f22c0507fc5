import type { Database } from 'better-sqlite3';
import type { BatchRow } from '#core/contract/book.ts';
import type { ShelfRow } from '#core/contract/shelves.ts';
import type { BATCH_SORTS, BatchFilter } from '#core/ledger/batch-filter.ts';
import type { BatchId } from '#core/ledger/ids.ts';
import { STAGES, type FilledStage } from '#core/ledger/stage.ts';
import { foldForSearch } from '../find/fold-for-search.ts';
import type { BookStore } from '../ledger/book-store.ts';
import type { RecordStore } from '../ledger/record-store.ts';
import { readingFromColumns, READING_COLUMNS } from '../shelves/reading-columns.ts';
import { headlineOf } from '../shelves/shelves-projection.ts';
import { openWordsFilter } from './words-filter.ts';

export interface BatchesRequest extends BatchFilter {
  readonly offset: number;
  readonly limit: number;
}

/** The ledger of batches: filtered, sorted, a page at a time. */
export interface BatchesQuery {
  page(request: BatchesRequest, nowMs: number): { rows: BatchRow[]; total: number };
  row(batchId: BatchId): BatchRow | null;
}

/** The culture at work in the batch now, or the last that was. */
const WORKED_LAST = `COALESCE(
  (SELECT fill.culture_id FROM fill WHERE fill.batch_id = batch.id ORDER BY fill.volume_ul DESC LIMIT 1),
  (SELECT pull.culture_id FROM pull WHERE pull.batch_id = batch.id ORDER BY pull.at_ms DESC LIMIT 1),
  batch.keeps_culture_id)`;

/** What each order goes by; what is not there stands last, whichever way it goes. */
const ORDER: Readonly<Record<(typeof BATCH_SORTS)[number], string>> = {
  started: 'batch.started_at_ms',
  name: 'batch.name COLLATE NOCASE',
  code: 'batch.code',
  ferment: 'batch.ferment',
  stage: 'standing.stage_rank',
  volume: 'standing.volume_ul',
  last: '(SELECT MAX(at_ms) FROM reading WHERE reading.batch_id = batch.id)',
  due: 'standing.due_ms',
  culture: `(SELECT culture.name FROM culture WHERE culture.id = ${WORKED_LAST}) COLLATE NOCASE`,
  bottles: '(SELECT SUM(lot.bottles) FROM lot WHERE lot.batch_id = batch.id)',
  startedWith: 'batch.started_ul',
  parent: '(SELECT parent.name FROM batch AS parent WHERE parent.id = batch.parent_batch_id) COLLATE NOCASE',
};

export function openBatchesQuery(sqlite: Database, records: RecordStore, book: BookStore): BatchesQuery {
  const withWords = openWordsFilter(sqlite);
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
  const bottled = sqlite.prepare('SELECT SUM(bottles) FROM lot WHERE batch_id = ?').pluck();
  const cultureOf = sqlite
    .prepare(`SELECT culture.name FROM batch JOIN culture ON culture.id = ${WORKED_LAST} WHERE batch.id = ?`)
    .pluck();

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
      lastReadAtMs: readings.at(-1)?.atMs ?? null,
      cultureName: (cultureOf.get(batchId) as string | undefined) ?? null,
      bottles: (bottled.get(batchId) as number | null) ?? 0,
      startedUl: batch.startedUl,
      parentName:
        batch.parentBatchId === null ? null : (records.get('batch', batch.parentBatchId)?.name ?? null),
    };
  };

  return {
    row,
    page(request, nowMs) {
      const { text, sort, descending, offset, limit } = request;
      const from = `FROM batch LEFT JOIN (
          SELECT fill.batch_id, SUM(fill.volume_ul) AS volume_ul, MIN(${STAGE_RANK}) AS stage_rank,
            MIN(shelf_row.due_ideal_ms) AS due_ms
          FROM fill JOIN shelf_row ON shelf_row.vessel_id = fill.id GROUP BY fill.batch_id
        ) AS standing ON standing.batch_id = batch.id`;
      const conditions = conditionsOf(request);
      const where = conditions.length === 0 ? '' : `WHERE ${conditions.join(' AND ')}`;
      const ids = text.trim() === '' ? '[]' : withWords.idsWith(text, book.count());
      const { ferment, stage, cultureId, startedFromMs, startedUpToMs } = request;
      const values = { ids, ferment, stage, cultureId, startedFromMs, startedUpToMs, nowMs };
      const direction = descending ? 'DESC' : 'ASC';
      const found = sqlite
        .prepare(
          `SELECT batch.id ${from} ${where}
           ORDER BY ${ORDER[sort]} ${direction} NULLS LAST, batch.code ${direction} LIMIT @limit OFFSET @offset`,
        )
        .pluck()
        .all({ ...values, limit, offset }) as BatchId[];
      const total = sqlite.prepare(`SELECT COUNT(*) FROM batch ${where}`).pluck().get(values) as number;
      return { rows: found.flatMap((id) => row(id) ?? []), total };
    },
  };
}

function conditionsOf(request: BatchFilter): string[] {
  const { text, ferment, stage, standing, startedFromMs, startedUpToMs, cultureId, needsLook } = request;
  const stands = 'EXISTS (SELECT 1 FROM fill WHERE fill.batch_id = batch.id)';
  const conditions: (string | null)[] = [
    text.trim() === '' ? null : 'batch.id IN (SELECT value FROM json_each(@ids))',
    ferment === null ? null : 'batch.ferment = @ferment',
    stage === null
      ? null
      : 'EXISTS (SELECT 1 FROM fill WHERE fill.batch_id = batch.id AND fill.stage = @stage)',
    standing === 'either' ? null : standing === 'standing' ? stands : `NOT ${stands}`,
    startedFromMs === null ? null : 'batch.started_at_ms >= @startedFromMs',
    startedUpToMs === null ? null : 'batch.started_at_ms <= @startedUpToMs',
    cultureId === null ? null : WORKED_BY_CULTURE,
    needsLook ? NEEDS_LOOK : null,
  ];
  return conditions.filter((condition) => condition !== null);
}

/** Some vessel of it is due, or late, or is closed in a way that concerns. */
const NEEDS_LOOK = `batch.id IN (
  SELECT fill.batch_id FROM fill JOIN shelf_row ON shelf_row.vessel_id = fill.id
  WHERE shelf_row.due_ideal_ms <= @nowMs OR json_extract(shelf_row.shown, '$.closureConcern') IS NOT NULL)`;

/** Batches in which the culture or a culture divided from it has worked, and those taken from such batches. */
const WORKED_BY_CULTURE = `batch.id IN (
  WITH RECURSIVE family (id) AS (
    SELECT @cultureId UNION SELECT culture.id FROM culture JOIN family ON culture.parent_culture_id = family.id),
  touched (id) AS (
    SELECT pull.batch_id FROM pull JOIN family ON pull.culture_id = family.id
    UNION SELECT batch.id FROM batch JOIN touched ON batch.parent_batch_id = touched.id)
  SELECT id FROM touched)`;

const STAGE_RANK = `CASE fill.stage ${STAGES.map((stage, rank) => `WHEN '${stage}' THEN ${rank}`).join(' ')} END`;
