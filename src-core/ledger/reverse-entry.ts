import type { ActOf } from './act.ts';
import type { ChangeSet } from './change-set.ts';
import { misfitOf } from './fit-again.ts';
import type { EntryId } from './ids.ts';
import type { LedgerError } from './ledger-error.ts';
import type { PriorImage } from './records.ts';

/**
 * Reverses an entry by restoring every record it changed to what it was before, in a new entry. Refused, with
 * the later entries named, when a later entry has written or taken away one of those records or points at one that
 * would go, and when a record brought back would not fit the cellar as it stands now. Reversing a reversal brings
 * the original back: undo, redo and striking are this one act, but only undo and redo reverse a reversal.
 */
export function reverse(book: ChangeSet, act: ActOf<'reverse'>): LedgerError | null {
  const { reader } = book;
  const target = reader.entry(act.entryId);
  if (target === null) return { type: 'NotFound', field: 'entryId', what: 'entry', id: act.entryId };
  if (act.how === 'strike' && target.act.kind === 'reverse') {
    return { type: 'CannotReverse', field: 'entryId', kind: target.act.kind };
  }
  if (reader.get('strike', act.entryId) !== null) return { type: 'AlreadyStruck', field: 'entryId' };
  const resting = laterEntries(book, act.entryId, target.images);
  if (resting.length > 0) return { type: 'LaterEntriesRest', field: 'entryId', entryIds: resting };
  for (const { kind, id, before } of target.images) {
    if (before === null) book.remove(kind, id);
    else book.restore(kind, before);
  }
  for (const { kind, id } of target.images) {
    const misfit = misfitOf(book, kind, id);
    if (misfit !== null) return misfit;
  }
  book.put('strike', { id: act.entryId });
  // What the entry posted sums to zero, so taking each posting back through the store leaves the store itself right.
  for (const { account, deltaUl, massesUg = {} } of target.postings) {
    book.post(account, 'store', deltaUl, massesUg);
  }
  return null;
}

function laterEntries(book: ChangeSet, target: EntryId, images: readonly PriorImage[]): EntryId[] {
  const { reader } = book;
  const later = new Set<EntryId>();
  // Records that go together do not rest on one another: those of the entry itself, or of the one it had brought back.
  const own = new Set([target, ...images.map(({ afterWriter }) => afterWriter)]);
  for (const { kind, id, before, afterWriter } of images) {
    const now = reader.get(kind, id);
    if (now !== null && now.writtenBy !== afterWriter) later.add(now.writtenBy);
    if (now === null && afterWriter !== null) {
      const taker = reader.takenAwayBy(kind, id);
      if (taker === null) throw new Error(`${kind} ${id} is gone and no entry took it away`);
      later.add(taker);
    }
    if (before === null && now !== null) {
      for (const { writtenBy } of reader.restingOn(kind, id)) if (!own.has(writtenBy)) later.add(writtenBy);
    }
  }
  return [...later];
}
