import type { Database } from 'better-sqlite3';
import type { Pedigree, PedigreeNode, PedigreeRoot, PedigreeStep } from '#core/contract/pedigree.ts';
import type { BatchId, CultureId, EntryId, VesselId } from '#core/ledger/ids.ts';
import type { RecordStore } from '../ledger/record-store.ts';

/** Where liquid came from and what it touched, followed step by step through the flows, each no earlier than the last. */
export interface PedigreeQuery {
  /** Null when the root is not in the cellar. */
  trace(of: PedigreeRoot, direction: Pedigree['direction']): Pedigree | null;
}

/** More than this many are no longer looked at in one go. */
const NODES_MAX = 3000;
const ENTRY_ID = 36;

type Place =
  | { readonly kind: 'batch'; readonly vesselId: VesselId; readonly batchId: BatchId }
  | { readonly kind: 'lot'; readonly lotId: EntryId }
  | { readonly kind: 'culture'; readonly cultureId: CultureId };

interface Reached {
  readonly place: Place;
  readonly atMs: number;
}

interface FlowRow {
  readonly id: string;
  readonly atMs: number;
  readonly volumeUl: number;
  readonly vesselId: VesselId | null;
  readonly batchId: BatchId | null;
  readonly lotId: EntryId | null;
}

export function openPedigreeQuery(sqlite: Database, records: RecordStore): PedigreeQuery {
  const giver = 'from_vessel_id AS vesselId, from_batch_id AS batchId, from_lot_id AS lotId';
  const taker = 'to_vessel_id AS vesselId, to_batch_id AS batchId, to_lot_id AS lotId';
  const flows = (columns: string, where: string) =>
    sqlite.prepare(
      `SELECT id, at_ms AS atMs, volume_ul AS volumeUl, ${columns} FROM flow WHERE ${where} ORDER BY at_ms, id`,
    );
  const outOfVessel = flows(taker, 'from_vessel_id = ? AND from_batch_id = ? AND at_ms >= ?');
  const outOfLot = flows(taker, 'from_lot_id = ? AND at_ms >= ?');
  const intoVessel = flows(giver, 'to_vessel_id = ? AND to_batch_id = ? AND at_ms <= ?');
  const intoLot = flows(giver, 'to_lot_id = ? AND at_ms <= ?');
  const pullsOf = sqlite.prepare(
    `SELECT id, at_ms AS atMs, volume_ul AS volumeUl, vessel_id AS vesselId, batch_id AS batchId, NULL AS lotId
     FROM pull WHERE culture_id = ? AND at_ms >= ? ORDER BY at_ms, id`,
  );
  const pullsInto = sqlite.prepare(
    `SELECT id, culture_id AS cultureId, at_ms AS atMs, volume_ul AS volumeUl FROM pull
     WHERE vessel_id = ? AND batch_id = ? AND at_ms <= ? ORDER BY at_ms, id`,
  );
  const keptAs = sqlite.prepare(
    `SELECT DISTINCT span.vessel_id AS vesselId, span.batch_id AS batchId, MIN(span.from_ms) AS atMs
     FROM batch JOIN stage_span AS span ON span.batch_id = batch.id
     WHERE batch.keeps_culture_id = ? GROUP BY span.vessel_id, span.batch_id`,
  );
  const standsAs = sqlite.prepare(
    `SELECT vessel_id AS vesselId, batch_id AS batchId, MIN(from_ms) AS atMs FROM stage_span
     WHERE batch_id = ? GROUP BY vessel_id ORDER BY atMs`,
  );
  const daughters = sqlite.prepare('SELECT id, since_ms AS atMs FROM culture WHERE parent_culture_id = ?');
  const lotsOf = sqlite.prepare('SELECT id, at_ms AS atMs FROM lot WHERE batch_id = ?');

  /** Where a root stands or stood, with the time from which on, or up to which, it counts. */
  const rootsOf = (of: PedigreeRoot, direction: Pedigree['direction']): readonly Reached[] | null => {
    const ever = direction === 'back' ? Number.MAX_SAFE_INTEGER : 0;
    switch (of.kind) {
      case 'batch': {
        if (records.get('batch', of.batchId) === null) return null;
        const places = standsAs.all(of.batchId) as (Pick<FlowRow, 'atMs'> & { vesselId: VesselId })[];
        const lots = lotsOf.all(of.batchId) as { id: EntryId; atMs: number }[];
        const stood = places.map(({ vesselId, atMs }) => ({
          place: { kind: 'batch' as const, vesselId, batchId: of.batchId },
          atMs: direction === 'back' ? ever : atMs,
        }));
        if (direction === 'onward') return stood;
        return [
          ...stood,
          ...lots.map(({ id, atMs }) => ({ place: { kind: 'lot' as const, lotId: id }, atMs })),
        ];
      }
      case 'culture':
        return records.get('culture', of.cultureId) === null
          ? null
          : [{ place: { kind: 'culture', cultureId: of.cultureId }, atMs: ever }];
      case 'lot': {
        const lot = records.get('lot', of.lotId);
        return lot === null ? null : [{ place: { kind: 'lot', lotId: of.lotId }, atMs: lot.atMs }];
      }
      case 'vessel': {
        const fill = records.get('fill', of.vesselId);
        if (fill === null) return null;
        const place = { kind: 'batch' as const, vesselId: of.vesselId, batchId: fill.batchId };
        return [{ place, atMs: direction === 'back' ? ever : fill.sinceMs }];
      }
    }
  };

  interface Neighbour extends Reached {
    readonly volumeUl: number;
    readonly entryId: EntryId | null;
  }
  const fromRow = (row: FlowRow): Neighbour[] => {
    const { atMs, volumeUl, vesselId, batchId, lotId } = row;
    const entryId = row.id.slice(0, ENTRY_ID) as EntryId;
    if (lotId !== null) return [{ place: { kind: 'lot', lotId }, atMs, volumeUl, entryId }];
    if (vesselId === null || batchId === null) return [];
    return [{ place: { kind: 'batch', vesselId, batchId }, atMs, volumeUl, entryId }];
  };

  const onward = ({ place, atMs }: Reached): Neighbour[] => {
    switch (place.kind) {
      case 'batch':
        return (outOfVessel.all(place.vesselId, place.batchId, atMs) as FlowRow[]).flatMap(fromRow);
      case 'lot':
        return (outOfLot.all(place.lotId, atMs) as FlowRow[]).flatMap(fromRow);
      case 'culture': {
        const kept = keptAs.all(place.cultureId) as { vesselId: VesselId; batchId: BatchId; atMs: number }[];
        const young = daughters.all(place.cultureId) as { id: CultureId; atMs: number }[];
        return [
          ...kept.map(({ vesselId, batchId, atMs: since }) => ({
            place: { kind: 'batch' as const, vesselId, batchId },
            ...{ atMs: Math.max(atMs, since), volumeUl: 0, entryId: null },
          })),
          ...(pullsOf.all(place.cultureId, atMs) as FlowRow[]).flatMap(fromRow),
          ...young.map(({ id, atMs: since }) => ({
            place: { kind: 'culture' as const, cultureId: id },
            ...{ atMs: Math.max(atMs, since), volumeUl: 0, entryId: null },
          })),
        ];
      }
    }
  };

  const back = ({ place, atMs }: Reached): Neighbour[] => {
    switch (place.kind) {
      case 'batch': {
        const pulls = pullsInto.all(place.vesselId, place.batchId, atMs) as {
          readonly id: EntryId;
          readonly cultureId: CultureId;
          readonly atMs: number;
          readonly volumeUl: number;
        }[];
        return [
          ...(intoVessel.all(place.vesselId, place.batchId, atMs) as FlowRow[]).flatMap(fromRow),
          ...pulls.map((pull) => ({
            place: { kind: 'culture' as const, cultureId: pull.cultureId },
            ...{ atMs: pull.atMs, volumeUl: pull.volumeUl, entryId: pull.id },
          })),
        ];
      }
      case 'lot':
        return (intoLot.all(place.lotId, atMs) as FlowRow[]).flatMap(fromRow);
      case 'culture': {
        const parentId = records.get('culture', place.cultureId)?.parentCultureId ?? null;
        if (parentId === null) return [];
        return [{ place: { kind: 'culture', cultureId: parentId }, atMs, volumeUl: 0, entryId: null }];
      }
    }
  };

  const nodeOf = ({ place, atMs }: Reached): PedigreeNode => {
    const nothing = {
      ...{ batchId: null, lotId: null, cultureId: null, vesselId: null, vesselNumber: null, code: '' },
      ...{ standingUl: null, stage: null, bottlesLeft: null, bottleUl: null, keptApartFor: '' },
    };
    const found = { ...nothing, key: keyOf(place), kind: place.kind, atMs };
    switch (place.kind) {
      case 'batch': {
        const batch = records.get('batch', place.batchId);
        const fill = records.get('fill', place.vesselId);
        const stands = fill !== null && fill.batchId === place.batchId;
        return {
          ...found,
          ...{
            batchId: place.batchId,
            vesselId: place.vesselId,
            name: batch?.name ?? '',
            code: batch?.code ?? '',
          },
          vesselNumber: records.get('vessel', place.vesselId)?.number ?? null,
          ...{ standingUl: stands ? fill.volumeUl : null, stage: stands ? fill.stage : null },
        };
      }
      case 'lot': {
        const lot = records.get('lot', place.lotId);
        const batch = lot === null ? null : records.get('batch', lot.batchId);
        return {
          ...found,
          ...{
            lotId: place.lotId,
            batchId: lot?.batchId ?? null,
            name: batch?.name ?? '',
            code: batch?.code ?? '',
          },
          ...{ bottlesLeft: lot?.left ?? 0, bottleUl: lot?.bottleUl ?? null },
          keptApartFor: lot?.keptApartFor ?? '',
        };
      }
      case 'culture': {
        const name = records.get('culture', place.cultureId)?.name ?? '';
        return { ...found, cultureId: place.cultureId, name };
      }
    }
  };

  return {
    trace(of, direction) {
      const roots = rootsOf(of, direction);
      if (roots === null) return null;
      const isBetter = (now: number, known: number): boolean =>
        direction === 'onward' ? now < known : now > known;
      const best = new Map<string, number>();
      const reached = new Map<string, Reached>();
      const steps = new Map<string, PedigreeStep>();
      const waiting: Reached[] = [...roots];
      let more = false;
      for (let at = waiting.shift(); at !== undefined; at = waiting.shift()) {
        const key = keyOf(at.place);
        const known = best.get(key);
        if (known !== undefined && !isBetter(at.atMs, known)) continue;
        if (known === undefined && best.size >= NODES_MAX) {
          more = true;
          continue;
        }
        best.set(key, at.atMs);
        reached.set(key, at);
        for (const next of direction === 'onward' ? onward(at) : back(at)) {
          const other = keyOf(next.place);
          const [from, to] = direction === 'onward' ? [key, other] : [other, key];
          const { atMs, volumeUl, entryId } = next;
          steps.set(`${from} ${to} ${entryId ?? ''} ${atMs}`, { from, to, atMs, volumeUl, entryId });
          waiting.push({ place: next.place, atMs });
        }
      }
      return {
        ...{ direction, more, nodes: [...reached.values()].map(nodeOf) },
        steps: [...steps.values()].filter(({ from, to }) => reached.has(from) && reached.has(to)),
      };
    },
  };
}

function keyOf(place: Place): string {
  switch (place.kind) {
    case 'batch':
      return `batch:${place.batchId}:${place.vesselId}`;
    case 'lot':
      return `lot:${place.lotId}`;
    case 'culture':
      return `culture:${place.cultureId}`;
  }
}
