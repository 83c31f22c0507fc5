import type { ActOf } from './act.ts';
import type { ChangeSet } from './change-set.ts';
import { inStage } from './decide-batches.ts';
import { isRefusal } from './decide-vessels.ts';
import { filledVessel } from './fill-amounts.ts';
import type { LedgerError } from './ledger-error.ts';

/** Keeps apart everything that descends from one thing, all of it or nothing. What is kept apart already stays so. */
export function quarantine(book: ChangeSet, act: ActOf<'quarantine'>): LedgerError | null {
  if (act.vesselIds.length + act.lotIds.length === 0) return { type: 'NothingToAdd', field: 'vesselIds' };
  for (const vesselId of new Set(act.vesselIds)) {
    const filled = filledVessel(book, vesselId, 'vesselIds');
    if (isRefusal(filled)) return filled;
    book.put('fill', inStage(book, filled.fill, 'quarantine'));
  }
  for (const lotId of new Set(act.lotIds)) {
    const lot = book.get('lot', lotId);
    if (lot === null) return { type: 'NotFound', field: 'lotIds', what: 'lot', id: lotId };
    book.put('lot', { ...lot, keptApartFor: act.reason });
  }
  return null;
}

export function releaseBottles(book: ChangeSet, act: ActOf<'releaseBottles'>): LedgerError | null {
  const lot = book.get('lot', act.lotId);
  if (lot === null) return { type: 'NotFound', field: 'lotId', what: 'lot', id: act.lotId };
  if (lot.keptApartFor === '') return { type: 'NothingToAdd', field: 'lotId' };
  book.put('lot', { ...lot, keptApartFor: '' });
  return null;
}
