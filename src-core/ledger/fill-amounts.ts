import type { ChangeSet } from './change-set.ts';
import { isRefusal, usableVessel } from './decide-vessels.ts';
import type { LedgerError } from './ledger-error.ts';
import type { Liquid } from './liquid.ts';
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

/** Leaves the rest standing, or leaves the vessel empty when nothing is left. */
export function leaveRest(book: ChangeSet, fill: FillRecord, rest: Liquid | undefined): void {
  if (rest === undefined || rest.volumeUl === 0) book.remove('fill', fill.id);
  else book.put('fill', { ...fill, ...rest });
}
