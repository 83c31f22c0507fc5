import type { Database } from 'better-sqlite3';
import type { ShelfRow, VesselDetail } from '#core/contract/shelves.ts';
import type { HouseRules } from '#core/contract/house-rules.ts';
import type { VesselId } from '#core/ledger/ids.ts';
import type { ReadingRecord } from '#core/ledger/records.ts';
import type { RecordStore } from '../ledger/record-store.ts';
import type { VerdictSource } from '../safety/verdict-source.ts';
import type { LiquidStory } from './liquid-story.ts';
import { readingRow } from './reading-columns.ts';
import type { ShelvesProjection } from './shelves-projection.ts';
import { dueOf } from './standing-facts.ts';

/** Readings shown beside a vessel; the leaf shows them all. */
const READINGS_SHOWN = 200;
/** A level read off a vessel or a jug is good to 3 % (safety rules, section 3; policy). */
const VOLUME_TOLERANCE = 0.03;

export interface VesselDetails {
  of(vesselId: VesselId, rules: HouseRules, nowMs: number): VesselDetail | null;
}

export function openVesselDetails(
  sqlite: Database,
  records: RecordStore,
  shelves: ShelvesProjection,
  story: LiquidStory,
  verdicts: VerdictSource,
): VesselDetails {
  const rowOf = sqlite.prepare('SELECT shown FROM shelf_row WHERE vessel_id = ?').pluck();
  return {
    of(vesselId, rules, nowMs) {
      const vessel = records.get('vessel', vesselId);
      const shown = rowOf.get(vesselId) as string | undefined;
      if (vessel === null || shown === undefined) return null;
      const row = JSON.parse(shown) as ShelfRow;
      const shelf = vessel.shelfId === null ? null : records.get('shelf', vessel.shelfId);
      const place = shelf === null ? null : records.get('place', shelf.placeId);
      const standing = shelves.standing(vesselId, READINGS_SHOWN);
      const about = {
        ...{ row, vesselNote: vessel.note, retired: vessel.retired },
        ...{ placeName: place?.name ?? null, shelfName: shelf?.name ?? null },
      };
      if (standing === null) {
        return {
          ...about,
          ...{ origins: [], parentBatch: null, cultureId: null, keepsCultureId: null, readings: [], due: [] },
          ...{ verdicts: [], told: {}, foresight: null, volumeFinding: null },
        };
      }
      const { fill, batch, readings } = standing;
      const parent = batch.parentBatchId === null ? null : records.get('batch', batch.parentBatchId);
      return {
        ...about,
        origins: story.origins(fill),
        parentBatch:
          parent === null
            ? null
            : { batchId: parent.id, name: parent.name, code: parent.code, volumeUl: batch.parentUl ?? 0 },
        ...{ cultureId: fill.cultureId, keepsCultureId: batch.keepsCultureId },
        readings: readings.map(readingRow),
        due: dueOf(standing),
        verdicts: verdicts.of(standing, rules, nowMs),
        told: verdicts.told(fill),
        foresight: story.foresight(batch),
        volumeFinding: volumeFinding(readings, fill.volumeUl, fill.sinceMs, fill.id),
      };
    },
  };
}

/** The newest level read in this very vessel against the book; null when there is none or it agrees within its own error. */
function volumeFinding(
  readings: readonly ReadingRecord[],
  bookUl: number,
  sinceMs: number,
  vesselId: VesselId,
): VesselDetail['volumeFinding'] {
  const newest = readings
    .filter((r) => r.values.volumeUl !== null && r.atMs >= sinceMs && r.vesselId === vesselId)
    .at(-1);
  const readUl = newest?.values.volumeUl ?? null;
  if (newest === undefined || readUl === null) return null;
  const toleranceUl = Math.ceil(readUl * VOLUME_TOLERANCE);
  return Math.abs(readUl - bookUl) <= toleranceUl ? null : { readUl, bookUl, toleranceUl, atMs: newest.atMs };
}
