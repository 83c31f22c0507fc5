import type { ActOf } from './act.ts';
import type { ChangeSet } from './change-set.ts';
import type { LedgerError } from './ledger-error.ts';

/** Filters of the ledger of batches that the keeper gave a name; they are kept in the cellar and touch no liquid. */
export function keepBatchFilter(book: ChangeSet, act: ActOf<'keepBatchFilter'>): LedgerError | null {
  book.put('batchFilter', { id: act.filterId, name: act.name, filter: act.filter });
  return null;
}

/** Gives a kept filter another name, or makes it look for something else. */
export function editBatchFilter(book: ChangeSet, act: ActOf<'editBatchFilter'>): LedgerError | null {
  const kept = book.get('batchFilter', act.filterId);
  if (kept === null) return notThere(act.filterId);
  book.put('batchFilter', { ...kept, name: act.name, filter: act.filter });
  return null;
}

export function dropBatchFilter(book: ChangeSet, act: ActOf<'dropBatchFilter'>): LedgerError | null {
  if (book.get('batchFilter', act.filterId) === null) return notThere(act.filterId);
  book.remove('batchFilter', act.filterId);
  return null;
}

function notThere(id: string): LedgerError {
  return { type: 'NotFound', field: 'filterId', what: 'filter', id };
}
