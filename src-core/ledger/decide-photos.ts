import type { ActOf } from './act.ts';
import type { ChangeSet } from './change-set.ts';
import { isRefusal } from './decide-vessels.ts';
import type { BatchId, VesselId } from './ids.ts';
import type { LedgerError } from './ledger-error.ts';

/** What is shown or tasted: a batch, or whatever stands in a vessel at that moment. */
interface Shown {
  readonly vesselId: VesselId | null;
  readonly batchId: BatchId | null;
}

/**
 * Ties a picture to a batch or a vessel. The picture itself lies in the file by its checksum and is no record: taking
 * the act back takes away the tie, never the picture.
 */
export function addPhoto(book: ChangeSet, act: ActOf<'addPhoto'>): LedgerError | null {
  const shown = shownBy(book, act.about);
  if (isRefusal(shown)) return shown;
  const { checksum, widthPx, heightPx, caption } = act;
  book.put('photo', {
    ...{ id: book.context.entryId, ...shown, checksum, widthPx, heightPx, caption },
    atMs: book.context.happenedAtMs,
  });
  return null;
}

export function editCaption(book: ChangeSet, act: ActOf<'editCaption'>): LedgerError | null {
  const photo = book.get('photo', act.photoId);
  if (photo === null) return { type: 'NotFound', field: 'photoId', what: 'photo', id: act.photoId };
  if (photo.caption === act.caption) return { type: 'NothingToAdd', field: 'caption' };
  book.put('photo', { ...photo, caption: act.caption });
  return null;
}

/** Keeps what was tasted. A vessel must hold something; a batch may be tasted from its bottles, when it stands nowhere. */
export function tasteNote(book: ChangeSet, act: ActOf<'tasteNote'>): LedgerError | null {
  const tasted = shownBy(book, act.about);
  if (isRefusal(tasted)) return tasted;
  const { vesselId, batchId } = tasted;
  if (batchId === null) {
    const vesselNumber = vesselId === null ? 0 : (book.get('vessel', vesselId)?.number ?? 0);
    return { type: 'VesselEmpty', field: 'about', vesselNumber };
  }
  const { words, score, text, by } = act;
  if (words.length === 0 && score === null && text === '') return { type: 'NothingToAdd', field: 'words' };
  book.put('tasting', {
    ...{ id: book.context.entryId, vesselId, batchId, words, score, text, by },
    atMs: book.context.happenedAtMs,
  });
  return null;
}

function shownBy(book: ChangeSet, about: ActOf<'addPhoto'>['about']): Shown | LedgerError {
  switch (about.kind) {
    case 'vessel':
      return book.get('vessel', about.vesselId) === null
        ? { type: 'NotFound', field: 'about', what: 'vessel', id: about.vesselId }
        : { vesselId: about.vesselId, batchId: book.get('fill', about.vesselId)?.batchId ?? null };
    case 'batch':
      return book.get('batch', about.batchId) === null
        ? { type: 'NotFound', field: 'about', what: 'batch', id: about.batchId }
        : { vesselId: null, batchId: about.batchId };
  }
}
