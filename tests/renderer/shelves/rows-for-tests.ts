import type { ShelfGroup, ShelfRow } from '#core/contract/shelves.ts';
import type { BatchId, ShelfId, VesselId } from '#core/ledger/ids.ts';

const id = (kind: number, n: number): string =>
  `01900000-0000-7000-800${kind}-${n.toString(16).padStart(12, '0')}`;

export const shelfId = (n: number): ShelfId => id(1, n) as ShelfId;
export const vesselId = (n: number): VesselId => id(2, n) as VesselId;
export const batchId = (n: number): BatchId => id(3, n) as BatchId;

/** A vessel as the shelf knows it, filled with a vinegar unless said otherwise. */
export function row(number: number, over: Partial<ShelfRow> = {}): ShelfRow {
  return {
    vesselId: vesselId(number),
    number,
    vesselName: '',
    silhouette: 'jar',
    capacityUl: 2_000_000,
    mouth: 'wide',
    material: 'glass',
    closure: 'cloth',
    shelfId: shelfId(1),
    spot: `A${number}`,
    position: number,
    stage: 'vinegar',
    volumeUl: 1_700_000,
    onLees: false,
    batchId: batchId(number),
    batchCode: `AV-26-00${number}`,
    batchName: `Apple vinegar ${number}`,
    ferment: 'fruitVinegar',
    startedAtMs: 0,
    sinceMs: 0,
    stageSinceMs: 0,
    headline: null,
    cultureName: null,
    pull: null,
    fedAtMs: null,
    due: null,
    closureConcern: null,
    ...{ holder: '', cleanedAtMs: null, cleanedHow: null, restUntilMs: null },
    ...over,
  };
}

/** An empty vessel. */
export const emptyRow = (number: number, over: Partial<ShelfRow> = {}): ShelfRow =>
  row(number, {
    ...{ stage: 'empty', volumeUl: 0, batchId: null, batchCode: null, batchName: null, ferment: null },
    ...{ startedAtMs: null, sinceMs: null, stageSinceMs: null },
    ...over,
  });

export function shelf(n: number, positions: number, vesselCount: number): ShelfGroup {
  return {
    ...{ key: shelfId(n), placeName: 'Pantry', shelfName: `shelf ${n}`, letter: 'ABCDEFGH'[n - 1] ?? 'Z' },
    ...{ positions, vesselCount, inUse: vesselCount, dueCount: 0 },
    tallest: vesselCount === 0 ? [] : [{ silhouette: 'jar', capacityUl: 2_000_000 }],
  };
}

/** A group without numbered places, such as a stage. */
export function loose(key: string, vesselCount: number): ShelfGroup {
  return {
    ...{ key, placeName: null, shelfName: null, letter: null, positions: null },
    ...{ vesselCount, inUse: vesselCount, dueCount: 0 },
    tallest: [{ silhouette: 'jar', capacityUl: 2_000_000 }],
  };
}
