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

/** Tables of what a line writes under its own id, that say of which batch. */
const WRITTEN_OF_A_BATCH = [
  ...(['reading', 'lot', 'pull', 'told', 'overruling', 'addition'] as const),
  ...(['photo', 'tasting'] as const),
] as const;
/** A line may write several of these: its id, a dash and a number behind it. */
const ofItsOwn = (table: string): string =>
  `${table}.id >= restatement.id AND ${table}.id < restatement.id || '.'`;

const WROTE_OF_IT = [
  ...WRITTEN_OF_A_BATCH.map(
    (table) => `EXISTS (SELECT 1 FROM ${table} AS own WHERE own.id = restatement.id AND own.batch_id = @id)`,
  ),
  `EXISTS (SELECT 1 FROM stage_span WHERE ${ofItsOwn('stage_span')} AND stage_span.batch_id = @id)`,
  `EXISTS (SELECT 1 FROM flow WHERE ${ofItsOwn('flow')} AND (flow.from_batch_id = @id OR flow.to_batch_id = @id))`,
].join(' OR ');

export function openEntriesQuery(sqlite: Database, book: BookStore, rows: EntryRows): EntriesQuery {
  const columns = ENTRY_COLUMNS.split(', ')
    .map((column) => `entry.${column}`)
    .join(', ');
  const all = sqlite.prepare(
    `SELECT ${columns} FROM entry WHERE sequence < ? ORDER BY sequence DESC LIMIT ?`,
  );
  // A line told anew of something else is listed there too: what it then names, or what it wrote is about.
  const some = sqlite.prepare(
    `SELECT ${columns} FROM entry WHERE sequence IN (
       SELECT sequence FROM (SELECT sequence FROM entry_subject WHERE kind = @kind AND subject_id = @id
         AND sequence < @before ORDER BY sequence DESC LIMIT @limit)
       UNION
       SELECT line.sequence FROM restatement JOIN entry AS line ON line.entry_id = restatement.id
         WHERE line.sequence < @before AND (instr(restatement.act, @id) > 0 OR ${WROTE_OF_IT}))
     ORDER BY sequence DESC LIMIT @limit`,
  );
  return {
    page(about, beforeSequence, limit) {
      const before = beforeSequence ?? Number.MAX_SAFE_INTEGER;
      const found =
        about === null
          ? all.all(before, limit + 1)
          : some.all({ kind: about.kind, id: subjectId(about), before, limit: limit + 1 });
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
