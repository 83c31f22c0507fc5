import type { Database } from 'better-sqlite3';
import type { EntryId, VesselId } from '#core/ledger/ids.ts';
import type { BatchRecord, FillRecord, LotRecord, TrailStep } from '#core/ledger/records.ts';
import type { RecordStore } from '../ledger/record-store.ts';
import type { Standing } from '../shelves/standing-facts.ts';
import { openStandingReadings } from '../shelves/standing-readings.ts';

/** A bottling as the rules look at a standing liquid: what it was until it was bottled, closed up since. */
export interface BottledStandings {
  /** Null when the line that filled the bottles cannot be followed. */
  of(lot: LotRecord, batch: BatchRecord): Standing | null;
}

const READINGS_LOOKED_AT = 200;

export function openBottledStandings(sqlite: Database, records: RecordStore): BottledStandings {
  const readings = openStandingReadings(sqlite);
  const flow = sqlite.prepare(
    'SELECT from_vessel_id AS vesselId, from_trail AS trail FROM flow WHERE to_lot_id = ? ORDER BY id LIMIT 1',
  );
  const before = sqlite
    .prepare(
      `SELECT entry_image.before FROM entry_image JOIN entry ON entry.sequence = entry_image.sequence
       WHERE entry.entry_id = ? AND entry_image.record_kind = 'fill' AND entry_image.record_id = ?`,
    )
    .pluck();
  const changed = sqlite
    .prepare(
      `SELECT MAX(at) FROM (
         SELECT at_ms AS at FROM addition WHERE vessel_id = @vesselId AND batch_id = @batchId AND at_ms <= @atMs
         UNION ALL SELECT at_ms FROM flow WHERE to_vessel_id = @vesselId AND to_batch_id = @batchId AND at_ms <= @atMs)`,
    )
    .pluck();

  /** The liquid as it stood before the bottles were filled; null when nothing tells. */
  const filledFrom = (lotId: EntryId, vesselId: VesselId): FillRecord | null => {
    const image = before.get(lotId, vesselId) as string | null | undefined;
    return image === null || image === undefined ? null : (JSON.parse(image) as FillRecord);
  };

  return {
    of(lot, batch) {
      const poured = flow.get(lot.id) as { vesselId: VesselId | null; trail: string } | undefined;
      if (poured?.vesselId === undefined || poured.vesselId === null) return null;
      const vessel = records.get('vessel', poured.vesselId);
      if (vessel === null) return null;
      const { vesselId } = poured;
      const image = filledFrom(lot.id, vesselId);
      const was = image !== null && image.batchId === lot.batchId ? image : null;
      const lastChange = changed.get({ vesselId, batchId: lot.batchId, atMs: lot.atMs }) as number | null;
      const trail: TrailStep[] = [
        ...(JSON.parse(poured.trail) as TrailStep[]),
        { vesselId, batchId: lot.batchId, untilMs: lot.atMs },
      ];
      const composedAtMs = was === null ? lot.atMs : Math.max(was.composedAtMs, lastChange ?? 0);
      const fill: FillRecord = {
        // It stands in no vessel: nothing that was read or told there afterwards speaks of it.
        ...{ id: lot.id as string as VesselId, batchId: lot.batchId, writtenBy: lot.writtenBy, trail },
        ...{ volumeUl: lot.left * lot.bottleUl, massesUg: lot.massesUg, origins: lot.origins },
        stage: lot.keptApartFor === '' ? (was?.stage ?? 'ready') : 'quarantine',
        ...{ stageSinceMs: lot.atMs, sinceMs: lot.atMs, settledAtMs: lot.atMs, onLees: false },
        ...{ cultureId: was?.cultureId ?? null, pull: was?.pull ?? null },
        // Where nothing tells, no reading from before the bottling counts.
        ...{ composedAtMs, composedBy: composedAtMs === was?.composedAtMs ? was.composedBy : 'blend' },
      };
      const bottle = { ...vessel, closure: 'cork' as const, capacityUl: Math.max(1, fill.volumeUl) };
      return {
        ...{ vessel: bottle, fill, batch, fedAtMs: null, closureSinceMs: null },
        readings: readings.of(fill, READINGS_LOOKED_AT),
      };
    },
  };
}
