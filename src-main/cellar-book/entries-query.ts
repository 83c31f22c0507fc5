import type { Database } from 'better-sqlite3';
import type { EntryRow } from '#core/contract/ledger.ts';
import { ENTRY_COLUMNS, type BookStore } from '../ledger/book-store.ts';
import type { EntryRows } from '../ledger/entry-rows.ts';

export type About =
  | { readonly kind: 'vessel'; readonly vesselId: string }
  | { readonly kind: 'batch'; readonly batchId: string }
  | { readonly kind: 'culture'; readonly cultureId: string };

/** Lines of the book, newest first, all of them or those that speak of one thing. */
export interface EntriesQuery {
  page(
    about: About | null,
    beforeSequence: number | null,
    limit: number,
  ): { entries: EntryRow[]; more: boolean };
  /** One line by its id; null when there is none. */
  one(entryId: string): EntryRow | null;
}

export function openEntriesQuery(sqlite: Database, book: BookStore, rows: EntryRows): EntriesQuery {
  const columns = ENTRY_COLUMNS.split(', ')
    .map((column) => `entry.${column}`)
    .join(', ');
  const all = sqlite.prepare(
    `SELECT ${columns} FROM entry WHERE sequence < ? ORDER BY sequence DESC LIMIT ?`,
  );
  const some = sqlite.prepare(
    `SELECT ${columns} FROM entry_subject AS about JOIN entry ON entry.sequence = about.sequence
     WHERE about.kind = ? AND about.subject_id = ? AND about.sequence < ? ORDER BY about.sequence DESC LIMIT ?`,
  );
  return {
    page(about, beforeSequence, limit) {
      const before = beforeSequence ?? Number.MAX_SAFE_INTEGER;
      const found =
        about === null
          ? all.all(before, limit + 1)
          : some.all(about.kind, subjectId(about), before, limit + 1);
      const entries = book.fromRows(found.slice(0, limit)).map((entry) => rows.of(entry));
      return { entries, more: found.length > limit };
    },
    one(entryId) {
      const entry = book.byId(entryId);
      return entry === null ? null : rows.of(entry);
    },
  };
}

function subjectId(about: About): string {
  switch (about.kind) {
    case 'vessel':
      return about.vesselId;
    case 'batch':
      return about.batchId;
    case 'culture':
      return about.cultureId;
  }
}
