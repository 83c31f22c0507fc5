import type { Database } from 'better-sqlite3';
import type { CultureLines, CultureRow, Pull } from '#core/contract/cultures.ts';
import type { ShelfRow } from '#core/contract/shelves.ts';
import type { CultureId } from '#core/ledger/ids.ts';
import type { CultureRecord } from '#core/ledger/records.ts';
import type { RecordStore } from '../ledger/record-store.ts';

/** The living cultures: where each is kept, what it has worked in, what it came from. */
export interface CulturesQuery {
  list(): CultureRow[];
  lines(cultureId: CultureId): CultureLines | null;
}

interface Counted {
  readonly childCount: number;
  readonly pullCount: number;
  readonly lastPullAtMs: number | null;
  readonly fedAtMs: number | null;
  readonly workingCount: number;
}

export function openCulturesQuery(sqlite: Database, records: RecordStore): CulturesQuery {
  const ids = sqlite.prepare('SELECT id FROM culture ORDER BY since_ms, rowid').pluck();
  const counted = sqlite.prepare(
    `SELECT (SELECT COUNT(*) FROM culture WHERE parent_culture_id = @id) AS childCount,
       (SELECT COUNT(*) FROM pull WHERE culture_id = @id) AS pullCount,
       (SELECT MAX(at_ms) FROM pull WHERE culture_id = @id) AS lastPullAtMs,
       (SELECT MAX(at_ms) FROM feeding WHERE culture_id = @id) AS fedAtMs,
       (SELECT COUNT(*) FROM fill JOIN batch ON batch.id = fill.batch_id
          WHERE fill.culture_id = @id AND batch.keeps_culture_id IS NULL) AS workingCount`,
  );
  const keptIn = sqlite
    .prepare(
      `SELECT shelf_row.shown FROM batch JOIN fill ON fill.batch_id = batch.id
       JOIN shelf_row ON shelf_row.vessel_id = fill.id WHERE batch.keeps_culture_id = ? ORDER BY shelf_row.number`,
    )
    .pluck();
  const children = sqlite.prepare(
    'SELECT id AS cultureId, name, sort, since_ms AS sinceMs FROM culture WHERE parent_culture_id = ? ORDER BY since_ms, rowid',
  );
  const pulls = sqlite.prepare(
    `SELECT pull.id AS entryId, pull.number, pull.at_ms AS atMs, pull.vessel_id AS vesselId,
       vessel.number AS vesselNumber, pull.volume_ul AS volumeUl, pull.batch_id AS batchId,
       batch.code AS batchCode, batch.name AS batchName,
       (SELECT stage FROM fill WHERE fill.batch_id = pull.batch_id ORDER BY volume_ul DESC LIMIT 1) AS stage
     FROM pull JOIN vessel ON vessel.id = pull.vessel_id JOIN batch ON batch.id = pull.batch_id
     WHERE pull.culture_id = ? ORDER BY pull.number DESC`,
  );

  const row = (culture: CultureRecord): CultureRow => {
    const kept = (keptIn.all(culture.id) as string[]).map((shown) => JSON.parse(shown) as ShelfRow);
    const parent = culture.parentCultureId === null ? null : records.get('culture', culture.parentCultureId);
    const dues = kept.flatMap((k) => (k.due === null ? [] : [k.due])).sort((a, b) => a.latestMs - b.latestMs);
    return {
      ...{ cultureId: culture.id, name: culture.name, sort: culture.sort, source: culture.source },
      ...{ note: culture.note, sinceMs: culture.sinceMs },
      ...{ parentCultureId: culture.parentCultureId, parentName: parent?.name ?? null },
      ...(counted.get({ id: culture.id }) as Counted),
      keptIn: kept,
      due: dues[0] ?? null,
    };
  };

  const ancestors = (culture: CultureRecord): { cultureId: CultureId; name: string }[] => {
    const line: { cultureId: CultureId; name: string }[] = [];
    const seen = new Set<string>([culture.id]);
    let above = culture.parentCultureId;
    while (above !== null && !seen.has(above)) {
      seen.add(above);
      const parent = records.get('culture', above);
      if (parent === null) break;
      line.unshift({ cultureId: parent.id, name: parent.name });
      above = parent.parentCultureId;
    }
    return line;
  };

  return {
    list: () =>
      (ids.all() as CultureId[]).flatMap((id) => {
        const culture = records.get('culture', id);
        return culture === null ? [] : [row(culture)];
      }),
    lines(cultureId) {
      const culture = records.get('culture', cultureId);
      if (culture === null) return null;
      return {
        ...{ culture: row(culture), ancestors: ancestors(culture) },
        children: children.all(cultureId) as CultureLines['children'],
        pulls: pulls.all(cultureId) as Pull[],
      };
    },
  };
}
