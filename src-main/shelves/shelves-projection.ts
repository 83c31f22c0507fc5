import type { Database } from 'better-sqlite3';
import type { Headline, ShelfRow } from '#core/contract/shelves.ts';
import { FERMENTS } from '#core/ferments/registry.ts';
import { correctedGravity } from '#core/ferments/interpret-reading.ts';
import type { VesselId } from '#core/ledger/ids.ts';
import type { BatchRecord, FillRecord, ReadingRecord } from '#core/ledger/records.ts';
import { STAGES } from '#core/ledger/stage.ts';
import { closureConcern } from '#core/schedule/closure-concern.ts';
import { foldForSearch } from '../find/fold-for-search.ts';
import type { RecordStore } from '../ledger/record-store.ts';
import { uncertaintiesOf } from '../safety/measurements.ts';
import { dueOf, type Standing } from './standing-facts.ts';
import { openStandingReadings } from './standing-readings.ts';

/** Raised whenever a ticket shows something it did not before, or shows it otherwise. */
const TICKET_FORMAT = 4;

/** Readings looked back on for a ticket and for what is due: more than any round needs. */
const READINGS_FOR_A_TICKET = 24;

/** Keeps the one line a vessel that the shelf is drawn from; everything in it follows from the records. */
export interface ShelvesProjection {
  /** Works the row out anew and writes it; returns it, or null when the vessel no longer stands (retired or undone). */
  refresh(vesselId: VesselId): ShelfRow | null;
  /** Works the row out without writing it. */
  compute(vesselId: VesselId): ShelfRow | null;
  standing(vesselId: VesselId, readingLimit: number): Standing | null;
  /** Writes every ticket anew when they were last written in another format than this program's. */
  bringUpToDate(): void;
}

export function openShelvesProjection(sqlite: Database, records: RecordStore): ShelvesProjection {
  const readings = openStandingReadings(sqlite);
  const lastFed = sqlite.prepare('SELECT MAX(at_ms) FROM feeding WHERE culture_id = ?').pluck();
  const usedSince = sqlite
    .prepare('SELECT 1 FROM stage_span WHERE vessel_id = ? AND from_ms >= ? LIMIT 1')
    .pluck();
  const remove = sqlite.prepare('DELETE FROM shelf_row WHERE vessel_id = ?');
  const put = sqlite.prepare(
    `INSERT INTO shelf_row (vessel_id, number, shelf_id, position, stage_rank, stage, in_use, silhouette, capacity_ul,
       due_ideal_ms, due_latest_ms, search, shown)
     VALUES (@vesselId, @number, @shelfId, @position, @stageRank, @stage, @inUse, @silhouette, @capacityUl,
       @dueIdealMs, @dueLatestMs, @search, @shown)
     ON CONFLICT (vessel_id) DO UPDATE SET number = excluded.number, shelf_id = excluded.shelf_id,
       position = excluded.position, stage_rank = excluded.stage_rank, stage = excluded.stage,
       in_use = excluded.in_use, silhouette = excluded.silhouette, capacity_ul = excluded.capacity_ul,
       due_ideal_ms = excluded.due_ideal_ms, due_latest_ms = excluded.due_latest_ms,
       search = excluded.search, shown = excluded.shown`,
  );
  const written = sqlite.prepare(
    `SELECT number, shelf_id AS shelfId, position, stage_rank AS stageRank, stage, in_use AS inUse, silhouette,
       capacity_ul AS capacityUl, due_ideal_ms AS dueIdealMs, due_latest_ms AS dueLatestMs, search, shown
     FROM shelf_row WHERE vessel_id = ?`,
  );
  const putFace = sqlite.prepare(
    'UPDATE shelf_row SET search = @search, shown = @shown WHERE vessel_id = @vesselId',
  );
  const fed = (cultureId: string | null): number | null =>
    cultureId === null ? null : (lastFed.get(cultureId) as number | null);

  const standing = (vesselId: VesselId, limit: number): Standing | null => {
    const vessel = records.get('vessel', vesselId);
    const fill = records.get('fill', vesselId);
    if (vessel === null || fill === null) return null;
    const batch = records.get('batch', fill.batchId);
    if (batch === null) throw new Error(`fill ${vesselId} points at no batch`);
    const fedAtMs = fed(batch.keepsCultureId ?? fill.cultureId);
    const closureSinceMs = closureConcern(vessel.closure, fill.stage, batch.ferment)
      ? Math.max(fill.sinceMs, vessel.closureSinceMs)
      : null;
    return { vessel, fill, batch, readings: readings.of(fill, limit), fedAtMs, closureSinceMs };
  };

  const compute = (vesselId: VesselId): ShelfRow | null => {
    const vessel = records.get('vessel', vesselId);
    if (vessel === null || vessel.retired) return null;
    const here = standing(vesselId, READINGS_FOR_A_TICKET);
    // A vessel that was filled after it was cleaned is not clean any more, though the record still tells of it.
    const { cleanedAtMs } = vessel;
    const isClean =
      here === null && cleanedAtMs !== null && usedSince.get(vesselId, cleanedAtMs) === undefined;
    return shelfRow(records, vessel, here, isClean);
  };

  const refresh = (vesselId: VesselId): ShelfRow | null => {
    const row = compute(vesselId);
    if (row === null) {
      remove.run(vesselId);
      return null;
    }
    const sorted = {
      ...{ number: row.number, shelfId: row.shelfId, position: row.position },
      ...{ stageRank: STAGES.indexOf(row.stage), stage: row.stage, inUse: row.stage === 'empty' ? 0 : 1 },
      ...{ silhouette: row.silhouette, capacityUl: row.capacityUl },
      ...{ dueIdealMs: row.due?.idealMs ?? null, dueLatestMs: row.due?.latestMs ?? null },
    };
    const told = { search: searchText(row), shown: JSON.stringify(row) };
    const was = written.get(vesselId) as Readonly<Record<string, unknown>> | undefined;
    const same = (given: Readonly<Record<string, unknown>>): boolean =>
      was !== undefined && Object.entries(given).every(([field, value]) => was[field] === value);
    // The indexes lie over what a ticket is sorted and counted by: they are left alone when only its face changed.
    if (!same(sorted)) put.run({ vesselId, ...sorted, ...told });
    else if (!same(told)) putFace.run({ vesselId, ...told });
    return row;
  };

  return {
    standing,
    compute,
    refresh,
    bringUpToDate() {
      const format = sqlite.prepare('SELECT ticket_format FROM cellar WHERE id = 1').pluck().get();
      if (format === TICKET_FORMAT) return;
      sqlite
        .transaction(() => {
          for (const id of sqlite.prepare('SELECT id FROM vessel').pluck().all()) refresh(id as VesselId);
          sqlite.prepare('UPDATE cellar SET ticket_format = ? WHERE id = 1').run(TICKET_FORMAT);
        })
        .immediate();
    },
  };
}

function shelfRow(
  records: RecordStore,
  vessel: Standing['vessel'],
  standing: Standing | null,
  isClean: boolean,
): ShelfRow {
  const shelf = vessel.shelfId === null ? null : records.get('shelf', vessel.shelfId);
  const place = {
    ...{ vesselId: vessel.id, number: vessel.number, vesselName: vessel.name, silhouette: vessel.silhouette },
    ...{
      capacityUl: vessel.capacityUl,
      mouth: vessel.mouth,
      material: vessel.material,
      closure: vessel.closure,
    },
    ...{ shelfId: vessel.shelfId, position: vessel.position },
    spot: shelf === null || vessel.position === null ? null : `${shelf.letter}${vessel.position}`,
    holder: vessel.holder,
    cleanedAtMs: isClean ? vessel.cleanedAtMs : null,
    cleanedHow: isClean ? vessel.cleanedHow : null,
    restUntilMs: isClean ? vessel.restUntilMs : null,
  };
  if (standing === null) {
    return {
      ...place,
      ...{ stage: 'empty', volumeUl: 0, onLees: false, batchId: null, batchCode: null, batchName: null },
      ...{ ferment: null, startedAtMs: null, sinceMs: null, stageSinceMs: null, headline: null },
      ...{ cultureName: null, pull: null, fedAtMs: null, due: null, closureConcern: null },
    };
  }
  const { fill, batch, fedAtMs } = standing;
  const cultureId = batch.keepsCultureId ?? fill.cultureId;
  const [due] = dueOf(standing);
  return {
    ...place,
    ...{ stage: fill.stage, volumeUl: fill.volumeUl, onLees: fill.onLees },
    ...{ batchId: batch.id, batchCode: batch.code, batchName: batch.name, ferment: batch.ferment },
    ...{ startedAtMs: batch.startedAtMs, sinceMs: fill.sinceMs, stageSinceMs: fill.stageSinceMs },
    headline: headlineOf(standing.readings, batch, fill),
    cultureName: cultureId === null ? null : (records.get('culture', cultureId)?.name ?? null),
    pull: fill.pull,
    fedAtMs: batch.keepsCultureId === null ? null : fedAtMs,
    due: due ?? null,
    closureConcern: closureConcern(vessel.closure, fill.stage, batch.ferment),
  };
}

/** The last value of the kind that matters in this stage. */
export function headlineOf(
  readings: readonly ReadingRecord[],
  batch: BatchRecord,
  fill: FillRecord | null,
): Headline | null {
  const profile = FERMENTS[batch.ferment];
  const wanted = (fill === null ? null : profile.headline[fill.stage]) ?? profile.headlineOtherwise;
  const newestFirst = [...readings].reverse();
  for (const kind of wanted) {
    for (const reading of newestFirst) {
      const { values, atMs } = reading;
      const error = uncertaintiesOf(reading);
      if (kind === 'gravity') {
        const sg = correctedGravity(values);
        if (sg !== null) return { kind, sg, atMs, uncertainty: error.gravity };
      } else if (kind === 'ph') {
        if (values.ph !== null) return { kind, ph: values.ph, atMs, uncertainty: error.pH };
      } else if (values.acidityGramsPer100Ml !== null && values.acidityAs !== null) {
        const { acidityGramsPer100Ml: gramsPer100Ml, acidityAs: as } = values;
        return { kind, gramsPer100Ml, as, atMs, uncertainty: error.acidity };
      }
    }
  }
  return null;
}

function searchText(row: ShelfRow): string {
  const words = [row.batchName, row.batchCode, row.vesselName, row.spot, `#${row.number}`, row.cultureName];
  return foldForSearch(words.filter((word) => word !== null && word !== '').join(' · '));
}
