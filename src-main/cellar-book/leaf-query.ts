import type { Database } from 'better-sqlite3';
import type { Kin, Leaf } from '#core/contract/book.ts';
import type { HouseRules } from '#core/contract/house-rules.ts';
import type { ShelfRow } from '#core/contract/shelves.ts';
import type { BatchId, VesselId } from '#core/ledger/ids.ts';
import type { BatchRecord, FillRecord } from '#core/ledger/records.ts';
import type { BookStore } from '../ledger/book-store.ts';
import type { RecordStore } from '../ledger/record-store.ts';
import type { VerdictSource } from '../safety/verdict-source.ts';
import type { LiquidStory } from '../shelves/liquid-story.ts';
import { readingRow } from '../shelves/reading-columns.ts';
import type { ShelvesProjection } from '../shelves/shelves-projection.ts';
import { dueOf } from '../shelves/standing-facts.ts';
import { openCostQuery } from './cost-query.ts';
import { openRepeatsQuery } from './repeats-query.ts';

/** Enough readings for any verdict and any round. */
const READINGS_LOOKED_AT = 200;

export interface LeafQuery {
  of(batchId: BatchId, rules: HouseRules, nowMs: number): Leaf | null;
}

export function openLeafQuery(
  sqlite: Database,
  records: RecordStore,
  shelves: ShelvesProjection,
  story: LiquidStory,
  verdicts: VerdictSource,
  book: BookStore,
): LeafQuery {
  const costs = openCostQuery(sqlite, book, records);
  const repeats = openRepeatsQuery(sqlite, records);
  const standing = sqlite.prepare(
    `SELECT shelf_row.vessel_id AS vesselId, shelf_row.shown FROM fill JOIN shelf_row ON shelf_row.vessel_id = fill.id
     WHERE fill.batch_id = ? ORDER BY fill.volume_ul DESC, shelf_row.number`,
  );
  const children = sqlite
    .prepare('SELECT id FROM batch WHERE parent_batch_id = ? ORDER BY started_at_ms, code')
    .pluck();
  const siblings = sqlite.prepare(
    `SELECT batch_id AS batchId, MAX(number) AS pull, volume_ul AS volumeUl FROM pull
       WHERE culture_id = ? AND batch_id <> ? GROUP BY batch_id ORDER BY MAX(at_ms) DESC LIMIT 12`,
  );
  const lastPull = sqlite.prepare(
    'SELECT culture_id AS cultureId, number FROM pull WHERE batch_id = ? ORDER BY at_ms DESC, number DESC LIMIT 1',
  );
  const stageOf = sqlite
    .prepare('SELECT stage FROM fill WHERE batch_id = ? ORDER BY volume_ul DESC LIMIT 1')
    .pluck();
  const lots = sqlite.prepare(
    `SELECT id AS entryId, bottles, bottles_left AS "left", bottle_ul AS bottleUl, at_ms AS atMs,
       kept_apart_for AS keptApartFor FROM lot WHERE batch_id = ? ORDER BY at_ms, id`,
  );

  const kinOf = (
    id: BatchId,
    relation: Kin['relation'],
    volumeUl: number | null,
    pull: number | null,
  ): Kin[] => {
    const batch = records.get('batch', id);
    if (batch === null) return [];
    const stage = (stageOf.get(id) as Kin['stage'] | undefined) ?? null;
    return [{ batchId: id, code: batch.code, name: batch.name, stage, relation, volumeUl, pull }];
  };

  const kin = (batch: BatchRecord, fill: FillRecord | null, cultureId: string | null): Kin[] => {
    const near = new Set<string>([batch.id]);
    const parent =
      batch.parentBatchId === null ? [] : kinOf(batch.parentBatchId, 'parent', batch.parentUl, null);
    const young = (children.all(batch.id) as BatchId[]).flatMap((id) =>
      kinOf(id, 'child', records.get('batch', id)?.parentUl ?? null, null),
    );
    for (const k of [...parent, ...young]) near.add(k.batchId);
    const blended = Object.keys(fill?.origins ?? {})
      .filter((id) => !near.has(id))
      .flatMap((id) => kinOf(id as BatchId, 'blendedIn', fill?.origins[id] ?? null, null));
    const sameMother = (cultureId === null ? [] : siblings.all(cultureId, batch.id)) as {
      batchId: BatchId;
      pull: number;
      volumeUl: number;
    }[];
    const cousins = sameMother
      .filter((s) => !near.has(s.batchId))
      .flatMap((s) => kinOf(s.batchId, 'sameMother', s.volumeUl, s.pull));
    return [...parent, ...young, ...blended, ...cousins];
  };

  return {
    of(batchId, rules, nowMs) {
      const batch = records.get('batch', batchId);
      if (batch === null) return null;
      const rows = standing.all(batchId) as { vesselId: VesselId; shown: string }[];
      const main = rows[0] === undefined ? null : shelves.standing(rows[0].vesselId, READINGS_LOOKED_AT);
      const pulled = lastPull.get(batchId) as { cultureId: string; number: number } | undefined;
      const cultureId = main?.fill.cultureId ?? pulled?.cultureId ?? null;
      const culture = cultureId === null ? null : records.get('culture', cultureId);
      const { code, name, ferment, note, startedAtMs, startedUl, ingredients, keepsCultureId } = batch;
      return {
        ...{
          batchId,
          code,
          name,
          ferment,
          note,
          startedAtMs,
          startedUl,
          ingredients: [...ingredients],
          keepsCultureId,
        },
        standing: rows.map((row) => JSON.parse(row.shown) as ShelfRow),
        spans: story.spans(batch),
        readings: story.readings(batch).map(readingRow),
        verdicts: main === null ? [] : verdicts.of(main, rules, nowMs),
        due: rows.flatMap(({ vesselId }) => {
          const here = shelves.standing(vesselId, READINGS_LOOKED_AT);
          return here === null ? [] : dueOf(here);
        }),
        foresight: story.foresight(batch),
        origins: story.origins(main?.fill ?? null),
        culture:
          culture === null
            ? null
            : { cultureId: culture.id, name: culture.name, pull: main?.fill.pull ?? pulled?.number ?? null },
        kin: kin(batch, main?.fill ?? null, cultureId),
        lots: lots.all(batchId) as Leaf['lots'],
        cost: costs.of(batchId),
        ...repeats.of(batchId),
      };
    },
  };
}
