import type { ChangeSet } from './change-set.ts';
import { spotRefused } from './decide-vessels.ts';
import type { LedgerError } from './ledger-error.ts';
import { POINTERS, type RecordKind } from './records.ts';

/**
 * Why a record that a reversal has just brought back does not fit the cellar as it now stands: what it points at is
 * gone, its spot or its number was given to another since, or a vessel and what it would hold no longer go together.
 * Null when it fits, or when the record is not there.
 */
export function misfitOf(book: ChangeSet, kind: RecordKind, id: string): LedgerError | null {
  return pointsNowhere(book, kind, id) ?? takenSince(book, kind, id) ?? vesselAndFill(book, kind, id);
}

function pointsNowhere(book: ChangeSet, kind: RecordKind, id: string): LedgerError | null {
  const record = book.get(kind, id) as Readonly<Record<string, unknown>> | null;
  if (record === null) return null;
  for (const [what, pointers] of Object.entries(POINTERS) as [
    RecordKind,
    readonly [RecordKind, string][],
  ][]) {
    for (const [from, field] of pointers) {
      const pointedAt = from === kind ? record[field] : null;
      if (typeof pointedAt === 'string' && book.get(what, pointedAt) === null) {
        return { type: 'NotFound', field: 'entryId', what, id: pointedAt };
      }
    }
  }
  return null;
}

function takenSince(book: ChangeSet, kind: RecordKind, id: string): LedgerError | null {
  const { reader } = book;
  const isBack = reader.get(kind, id) === null;
  const twice = givenTwice(book, kind, id);
  if (twice !== null) return twice;
  const [vessel, batch, shelf] = [book.get('vessel', id), book.get('batch', id), book.get('shelf', id)];
  if (kind === 'vessel' && vessel !== null) {
    if (isBack && reader.vesselNumberTaken(vessel.number)) return taken('vessel number', `${vessel.number}`);
    const refused = spotRefused(book, vessel.shelfId, vessel.position, vessel.id);
    return refused === null ? null : { ...refused, field: 'entryId' };
  }
  if (kind === 'batch' && batch !== null && isBack && reader.batchCodeTaken(batch.code)) {
    return taken('batch code', batch.code);
  }
  if (kind === 'shelf' && shelf !== null) {
    if (isBack && reader.shelfLetterTaken(shelf.letter)) return taken('shelf letter', shelf.letter);
    const { positions } = shelf;
    const highestInUse = reader.highestPosition(shelf.id);
    if (highestInUse > positions) return { type: 'ShelfTooShort', field: 'entryId', positions, highestInUse };
  }
  return null;
}

/** Two records of one correction cannot have the same number, letter, code or spot. */
function givenTwice(book: ChangeSet, kind: RecordKind, id: string): LedgerError | null {
  const [vessel, batch, shelf] = [book.get('vessel', id), book.get('batch', id), book.get('shelf', id)];
  if (kind === 'vessel' && vessel !== null) {
    const { number, shelfId, position } = vessel;
    const same = book.alsoWritten('vessel', id, (other) => other.number === number);
    if (same !== null) return taken('vessel number', `${number}`);
    const there = book.alsoWritten(
      'vessel',
      id,
      (other) => shelfId !== null && other.shelfId === shelfId && other.position === position,
    );
    if (there !== null) {
      return {
        type: 'PositionTaken',
        field: 'entryId',
        position: position ?? 0,
        byVesselNumber: there.number,
      };
    }
  }
  if (kind === 'batch' && batch !== null) {
    const same = book.alsoWritten('batch', id, (other) => other.code === batch.code);
    if (same !== null) return taken('batch code', batch.code);
  }
  if (kind === 'shelf' && shelf !== null) {
    const same = book.alsoWritten('shelf', id, (other) => other.letter === shelf.letter);
    if (same !== null) return taken('shelf letter', shelf.letter);
  }
  return null;
}

/** A vessel holds no more than its brim, and a retired one nothing. The other of the two was written since, and rests on this. */
function vesselAndFill(book: ChangeSet, kind: RecordKind, id: string): LedgerError | null {
  if (kind !== 'vessel' && kind !== 'fill') return null;
  const [vessel, fill] = [book.get('vessel', id), book.get('fill', id)];
  if (vessel === null || fill === null) return null;
  if (!vessel.retired && fill.volumeUl <= vessel.capacityUl) return null;
  const { writtenBy } = kind === 'vessel' ? fill : vessel;
  return { type: 'LaterEntriesRest', field: 'entryId', entryIds: [writtenBy] };
}

function taken(what: string, value: string): LedgerError {
  return { type: 'AlreadyTaken', field: 'entryId', what, value };
}
