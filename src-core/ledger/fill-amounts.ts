import { largestRemainder } from './allocate.ts';
import type { ChangeSet } from './change-set.ts';
import { isRefusal, usableVessel } from './decide-vessels.ts';
import type { LedgerError } from './ledger-error.ts';
import type { FillRecord, VesselRecord } from './records.ts';

export interface Filled {
  readonly vessel: VesselRecord;
  readonly fill: FillRecord;
}

/** The vessel with what stands in it, or why it cannot be drawn on. */
export function filledVessel(book: ChangeSet, id: string, field: string): Filled | LedgerError {
  const vessel = usableVessel(book, id, field);
  if (isRefusal(vessel)) return vessel;
  const fill = book.get('fill', id);
  if (fill === null) return { type: 'VesselEmpty', field, vesselNumber: vessel.number };
  if (book.context.happenedAtMs < fill.sinceMs) {
    return {
      type: 'BeforeItBegan',
      field: 'happenedAtMs',
      happenedAtMs: book.context.happenedAtMs,
      beganAtMs: fill.sinceMs,
    };
  }
  return { vessel, fill };
}

/** Refuses to take more than a vessel holds. */
export function overdrawn({ vessel, fill }: Filled, wantedUl: number, field: string): LedgerError | null {
  if (wantedUl <= fill.volumeUl) return null;
  return { type: 'VesselOverdrawn', field, vesselNumber: vessel.number, heldUl: fill.volumeUl, wantedUl };
}

/** Refuses to put in more than a vessel has room for. */
export function overfilled(
  vessel: VesselRecord,
  heldUl: number,
  wantedUl: number,
  field: string,
): LedgerError | null {
  const roomUl = vessel.capacityUl - heldUl;
  if (wantedUl <= roomUl) return null;
  return { type: 'VesselOverfilled', field, vesselNumber: vessel.number, roomUl, wantedUl };
}

export type Origins = Readonly<Record<string, number>>;

/**
 * Parts a fill's origins by volume: the first part for each amount given, in order, the last for what stays.
 * Each origin's parts sum to what it was, to the token (largest remainder).
 */
export function partOrigins(fill: FillRecord, takenUl: readonly number[]): Origins[] {
  const restUl = fill.volumeUl - takenUl.reduce((a, b) => a + b, 0);
  const weights = [...takenUl, restUl];
  const parts: Record<string, number>[] = weights.map(() => ({}));
  for (const [origin, tokens] of Object.entries(fill.origins)) {
    largestRemainder(tokens, weights).forEach((share, index) => {
      const part = parts[index];
      if (part !== undefined && share > 0) part[origin] = share;
    });
  }
  return parts;
}

export function joinOrigins(a: Origins, b: Origins): Origins {
  const joined: Record<string, number> = { ...a };
  for (const [origin, tokens] of Object.entries(b)) joined[origin] = (joined[origin] ?? 0) + tokens;
  return joined;
}

/** Leaves the rest standing with its share of the origins, or leaves the vessel empty when nothing is left. */
export function leaveRest(book: ChangeSet, fill: FillRecord, takenUl: number, restOrigins: Origins): void {
  const volumeUl = fill.volumeUl - takenUl;
  if (volumeUl === 0) book.remove('fill', fill.id);
  else book.put('fill', { ...fill, volumeUl, origins: restOrigins });
}
