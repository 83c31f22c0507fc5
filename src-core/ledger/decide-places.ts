import type { ActOf } from './act.ts';
import type { ChangeSet } from './change-set.ts';
import type { LedgerError } from './ledger-error.ts';

export function addPlace(book: ChangeSet, act: ActOf<'addPlace'>): LedgerError | null {
  book.put('place', { id: act.placeId, name: act.name, note: act.note });
  return null;
}

export function editPlace(book: ChangeSet, act: ActOf<'editPlace'>): LedgerError | null {
  const place = book.get('place', act.placeId);
  if (place === null) return { type: 'NotFound', field: 'placeId', what: 'place', id: act.placeId };
  book.put('place', { ...place, name: act.name, note: act.note });
  return null;
}

export function addShelf(book: ChangeSet, act: ActOf<'addShelf'>): LedgerError | null {
  if (book.get('place', act.placeId) === null) {
    return { type: 'NotFound', field: 'placeId', what: 'place', id: act.placeId };
  }
  if (book.reader.shelfLetterTaken(act.letter)) {
    return { type: 'AlreadyTaken', field: 'letter', what: 'shelf letter', value: act.letter };
  }
  const { shelfId: id, placeId, name, letter, positions } = act;
  book.put('shelf', { id, placeId, name, letter, positions });
  return null;
}

export function editShelf(book: ChangeSet, act: ActOf<'editShelf'>): LedgerError | null {
  const shelf = book.get('shelf', act.shelfId);
  if (shelf === null) return { type: 'NotFound', field: 'shelfId', what: 'shelf', id: act.shelfId };
  const highestInUse = book.reader.highestPosition(act.shelfId);
  if (highestInUse > act.positions) {
    return { type: 'ShelfTooShort', field: 'positions', positions: act.positions, highestInUse };
  }
  book.put('shelf', { ...shelf, name: act.name, positions: act.positions });
  return null;
}
