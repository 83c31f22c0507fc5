import type { ActOf } from './act.ts';
import type { ChangeSet } from './change-set.ts';
import { isRefusal, usableVessel } from './decide-vessels.ts';
import type { LedgerError } from './ledger-error.ts';

/** An empty vessel is cleaned, and may rest until a day. */
export function cleanVessel(book: ChangeSet, act: ActOf<'cleanVessel'>): LedgerError | null {
  const vessel = usableVessel(book, act.vesselId, 'vesselId');
  if (isRefusal(vessel)) return vessel;
  const held = book.get('fill', act.vesselId);
  if (held !== null) {
    return { type: 'VesselNotEmpty', field: 'vesselId', vesselNumber: vessel.number, holdsUl: held.volumeUl };
  }
  const { happenedAtMs } = book.context;
  if (act.restUntilMs !== null && act.restUntilMs <= happenedAtMs) {
    return {
      ...{ type: 'BeforeItBegan', field: 'restUntilMs' },
      ...{ happenedAtMs: act.restUntilMs, beganAtMs: happenedAtMs },
    };
  }
  book.put('vessel', {
    ...vessel,
    ...{ cleanedAtMs: happenedAtMs, cleanedHow: act.how, restUntilMs: act.restUntilMs },
  });
  return null;
}

/** A vessel goes out of the house with somebody, or comes back when nobody is named. */
export function lendVessel(book: ChangeSet, act: ActOf<'lendVessel'>): LedgerError | null {
  const vessel = usableVessel(book, act.vesselId, 'vesselId');
  if (isRefusal(vessel)) return vessel;
  if (vessel.holder === act.holder) return { type: 'SameHolder', field: 'holder', holder: act.holder };
  book.put('vessel', { ...vessel, holder: act.holder });
  return null;
}
