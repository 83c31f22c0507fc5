import type { Database } from 'better-sqlite3';
import { ENTRY_COLUMNS, type BookStore, type StoredEntry } from './book-store.ts';

/** Which entry Undo would reverse next, and which reversal Redo would take back. Both follow from the book alone, so they survive a restart. */
export interface UndoStack {
  undoNext(): StoredEntry | null;
  redoNext(): StoredEntry | null;
}

// A reversal made by striking counts as an act of its own: it can be undone like any other.
const IS_ACT = `(kind <> 'reverse' OR json_extract(act, '$.how') = 'strike')`;
const UNSTRUCK = `NOT EXISTS (SELECT 1 FROM strike WHERE strike.id = entry.entry_id)`;

export function openUndoStack(sqlite: Database, book: BookStore): UndoStack {
  const undo = sqlite.prepare(
    `SELECT ${ENTRY_COLUMNS} FROM entry WHERE ${IS_ACT} AND ${UNSTRUCK} ORDER BY sequence DESC LIMIT 1`,
  );
  const redo = sqlite.prepare(
    `SELECT ${ENTRY_COLUMNS} FROM entry
     WHERE kind = 'reverse' AND json_extract(act, '$.how') = 'undo' AND ${UNSTRUCK}
       AND sequence > COALESCE((SELECT sequence FROM entry WHERE ${IS_ACT} ORDER BY sequence DESC LIMIT 1), 0)
     ORDER BY sequence DESC LIMIT 1`,
  );
  const one = (row: unknown): StoredEntry | null =>
    row === undefined ? null : (book.fromRows([row])[0] ?? null);
  return { undoNext: () => one(undo.get()), redoNext: () => one(redo.get()) };
}
