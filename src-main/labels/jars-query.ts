import type { Database } from 'better-sqlite3';
import type { Labelled, LabelJar } from '#core/contract/labels.ts';
import { labelId } from '#core/labels/label-code.ts';
import { askedWords } from '../find/asked-words.ts';
import { foldForSearch } from '../find/fold-for-search.ts';

/** What can be labelled, by words or exactly as asked. */
export interface JarsQuery {
  search(text: string, kinds: readonly Labelled['kind'][], limit: number): LabelJar[];
  /** Null where there is no such thing any more. */
  one(of: Labelled): LabelJar | null;
}

interface Row {
  readonly id: string;
  readonly kind: Labelled['kind'];
  readonly number: number | null;
  readonly code: string | null;
  readonly sequence: number | null;
  readonly name: string;
  readonly ferment: string | null;
  readonly stage: string | null;
  readonly startedAtMs: number | null;
  readonly bottledAtMs: number | null;
  readonly volumeUl: number | null;
  readonly spot: string | null;
  readonly copies: number;
  readonly batchId: string | null;
  readonly newestMs: number;
}

const SPOT = `CASE WHEN shelf.letter IS NULL THEN NULL ELSE shelf.letter || vessel.position END`;
const VESSELS = `SELECT vessel.id AS id, 'vessel' AS kind, vessel.number AS number, batch.code AS code, NULL AS sequence,
  COALESCE(batch.name, vessel.name) AS name, batch.ferment AS ferment, fill.stage AS stage,
  batch.started_at_ms AS startedAtMs, NULL AS bottledAtMs, fill.volume_ul AS volumeUl, ${SPOT} AS spot, 1 AS copies,
  batch.id AS batchId, COALESCE(fill.since_ms, 0) AS newestMs,
  fold_for_search(COALESCE(batch.name, '') || ' ' || vessel.name || ' ' || COALESCE(batch.code, '') || ' V-' || vessel.number
    || ' #' || vessel.number || ' ' || COALESCE(${SPOT}, '')) AS words
  FROM vessel LEFT JOIN fill ON fill.id = vessel.id LEFT JOIN batch ON batch.id = fill.batch_id
  LEFT JOIN shelf ON shelf.id = vessel.shelf_id`;
const STANDING = `SELECT COUNT(*) FROM fill WHERE fill.batch_id = batch.id`;
const BATCHES = `SELECT batch.id AS id, 'batch' AS kind, vessel.number AS number, batch.code AS code, NULL AS sequence,
  batch.name AS name, batch.ferment AS ferment,
  (SELECT stage FROM fill WHERE fill.batch_id = batch.id ORDER BY volume_ul DESC LIMIT 1) AS stage,
  batch.started_at_ms AS startedAtMs, NULL AS bottledAtMs,
  (SELECT SUM(volume_ul) FROM fill WHERE fill.batch_id = batch.id) AS volumeUl, ${SPOT} AS spot,
  MAX(1, (${STANDING})) AS copies, batch.id AS batchId, batch.started_at_ms AS newestMs,
  fold_for_search(batch.name || ' ' || batch.code) AS words
  FROM batch LEFT JOIN fill ON fill.batch_id = batch.id AND (${STANDING}) = 1
  LEFT JOIN vessel ON vessel.id = fill.id LEFT JOIN shelf ON shelf.id = vessel.shelf_id`;
const LOTS = `SELECT lot.id AS id, 'lot' AS kind, NULL AS number, batch.code AS code, entry.sequence AS sequence,
  batch.name AS name, batch.ferment AS ferment, NULL AS stage, batch.started_at_ms AS startedAtMs,
  lot.at_ms AS bottledAtMs, lot.bottles_left * lot.bottle_ul AS volumeUl, NULL AS spot,
  MAX(1, lot.bottles_left) AS copies, batch.id AS batchId, lot.at_ms AS newestMs,
  fold_for_search(batch.name || ' ' || batch.code || '/' || entry.sequence) AS words
  FROM lot JOIN batch ON batch.id = lot.batch_id JOIN entry ON entry.entry_id = lot.id`;

const SOURCES: Readonly<Record<Labelled['kind'], { readonly select: string; readonly from: string }>> = {
  vessel: { select: VESSELS, from: 'vessel.retired = 0' },
  batch: { select: BATCHES, from: '1 = 1' },
  lot: { select: LOTS, from: '1 = 1' },
};

export function openJarsQuery(sqlite: Database): JarsQuery {
  const byId = {
    vessel: sqlite.prepare(`${VESSELS} WHERE vessel.id = ?`),
    batch: sqlite.prepare(`${BATCHES} WHERE batch.id = ?`),
    lot: sqlite.prepare(`${LOTS} WHERE lot.id = ?`),
  };
  return {
    search(text, kinds, limit) {
      const { words } = askedWords(text);
      const wanted = words.map(() => 'instr(words, ?) > 0').join(' AND ') || '1 = 1';
      const union = kinds.map(
        (kind) => `SELECT * FROM (${SOURCES[kind].select} WHERE ${SOURCES[kind].from})`,
      );
      const rows = sqlite
        .prepare(
          `SELECT * FROM (${union.join(' UNION ALL ')}) WHERE ${wanted}
           ORDER BY newestMs DESC, kind DESC, number, id LIMIT ?`,
        )
        .all(...words.map(foldForSearch), limit) as Row[];
      return rows.map(jarOf);
    },
    one(of) {
      const row = byId[of.kind].get(idOf(of)) as Row | undefined;
      return row === undefined ? null : jarOf(row);
    },
  };
}

function idOf(of: Labelled): string {
  switch (of.kind) {
    case 'vessel':
      return of.vesselId;
    case 'batch':
      return of.batchId;
    case 'lot':
      return of.lotId;
  }
}

function jarOf(row: Row): LabelJar {
  return {
    of: labelledOf(row),
    id: idText(row),
    name: row.name,
    ...{ ferment: row.ferment, stage: row.stage, startedAtMs: row.startedAtMs, bottledAtMs: row.bottledAtMs },
    ...{ volumeUl: row.volumeUl, vesselNumber: row.number, spot: row.spot, copiesWanted: row.copies },
    batchId: row.batchId,
  } as LabelJar;
}

function labelledOf({ kind, id }: Row): Labelled {
  switch (kind) {
    case 'vessel':
      return { kind, vesselId: id as never };
    case 'batch':
      return { kind, batchId: id as never };
    case 'lot':
      return { kind, lotId: id as never };
  }
}

function idText({ kind, number, code, sequence }: Row): string {
  if (kind === 'vessel') return labelId({ kind, number: number ?? 0 });
  if (kind === 'lot') return labelId({ kind, code: code ?? '', sequence: sequence ?? 0 });
  return labelId({ kind, code: code ?? '' });
}
