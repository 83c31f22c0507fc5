import type { ShelfRow } from '#core/contract/shelves.ts';
import type { HouseUnits } from '#core/quantities/house-units.ts';
import { sayVolume } from '../words/quantity-words.ts';
import { sayVesselAway, sayVesselKind, vesselTitle } from '../words/vessel-words.ts';

/** A vessel on one line, as it stands in a chooser once chosen: `A2, Apple vinegar 3`. */
export function vesselLine(row: ShelfRow): string {
  const title =
    row.batchName === null && row.vesselName === ''
      ? `empty ${row.silhouette} ${row.number}`
      : vesselTitle(row);
  return row.spot === null ? `${title} (not placed)` : `${row.spot}, ${title}`;
}

/** What a keeper weighs before pouring: what it is, what is in it, how much room is left, and whether it rests or is out. */
export function vesselRoom(row: ShelfRow, house: HouseUnits, nowMs: number): string {
  const away = sayVesselAway(row, nowMs);
  const kind = [`vessel ${row.number}`, sayVesselKind(row, house), ...away].join(', ');
  const freeUl = row.capacityUl - row.volumeUl;
  if (row.volumeUl === 0) return `${kind}, empty`;
  const free = freeUl <= 0 ? 'full' : `${sayVolume(freeUl, house)} free`;
  return `${kind}, ${sayVolume(row.volumeUl, house)} in it, ${free}`;
}

/** A vessel as a sentence of the book names it: its own name, its spot, or its number. */
export function vesselShort(row: ShelfRow): string {
  return row.vesselName !== '' ? row.vesselName : (row.spot ?? `#${row.number}`);
}
