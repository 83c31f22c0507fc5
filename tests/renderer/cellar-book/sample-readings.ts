import type { ReadingRow } from '#core/contract/shelves.ts';
import { BatchId, EntryId, VesselId } from '#core/ledger/ids.ts';

export const DAY = 86_400_000;
export const idOf = (n: number): string => `019a0000-0000-7000-8000-${String(n).padStart(12, '0')}`;

const EMPTY: ReadingRow = {
  entryId: EntryId.parse(idOf(0)),
  vesselId: VesselId.parse(idOf(1)),
  batchId: BatchId.parse(idOf(2)),
  atMs: 0,
  gravitySg: null,
  gravityCorrectedSg: null,
  gravityInstrument: null,
  temperatureCelsius: null,
  ph: null,
  phMethod: null,
  acidityGramsPer100Ml: null,
  acidityAs: null,
  acidityAsAceticGramsPer100Ml: null,
  acidityMethod: null,
  acidityUncertainty: null,
  volumeUl: null,
  freeSulfiteMgPerL: null,
  alcoholPercentVolume: null,
  gravityUncertainty: null,
  phUncertainty: null,
  alcoholUncertainty: null,
  detail: null,
  taste: '',
};

/** A reading on a day counted from the first of September 2026, at noon UTC. */
export function readingOn(day: number, values: Partial<ReadingRow>): ReadingRow {
  const atMs = Date.UTC(2026, 8, 1, 12) + day * DAY;
  return { ...EMPTY, entryId: EntryId.parse(idOf(1000 + day)), atMs, ...values };
}
