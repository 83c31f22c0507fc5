import type { Database } from 'better-sqlite3';
import type { ActDraft } from '#core/ledger/act.ts';
import type { LedgerError } from '#core/ledger/ledger-error.ts';

/** Whether the file keeps what an act refers to: the book may not point at a picture that is not there. */
export interface KeptPictures {
  /** Why an act cannot be written for want of its picture; null when it has one or needs none. */
  missingFor(act: ActDraft): LedgerError | null;
}

export function openKeptPictures(sqlite: Database): KeptPictures {
  const kept = sqlite.prepare('SELECT 1 FROM picture WHERE checksum = ? AND width_px = ? AND height_px = ?');
  return {
    missingFor(act) {
      if (act.kind !== 'addPhoto') return null;
      const { checksum: id, widthPx, heightPx } = act;
      return kept.get(id, widthPx, heightPx) === undefined
        ? { type: 'NotFound', field: 'checksum', what: 'picture', id }
        : null;
    },
  };
}
