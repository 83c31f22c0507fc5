import type { Database } from 'better-sqlite3';
import type { CellarReader, EarlierEntry, Resting } from '#core/ledger/cellar-reader.ts';
import type { EntryId, VesselId } from '#core/ledger/ids.ts';
import type { RecordKind, RecordsByKind } from '#core/ledger/records.ts';
import { POINTERS } from '#core/ledger/records.ts';
import { getTableColumns, getTableName } from 'drizzle-orm';
import type { BookStore, StoredEntry } from './book-store.ts';
import { RECORD_TABLES } from './ledger.tables.ts';
import type { RecordStore } from './record-store.ts';

/** The book's own state as the file holds it, asked by the decisions of the core. */
export function openFileReader(sqlite: Database, records: RecordStore, book: BookStore): CellarReader {
  const vesselAt = sqlite.prepare('SELECT id FROM vessel WHERE shelf_id = ? AND position = ?').pluck();
  const letter = sqlite.prepare('SELECT 1 FROM shelf WHERE letter = ?').pluck();
  const number = sqlite.prepare('SELECT 1 FROM vessel WHERE number = ?').pluck();
  const code = sqlite.prepare('SELECT 1 FROM batch WHERE code = ?').pluck();
  const lastPull = sqlite.prepare('SELECT MAX(number) FROM pull WHERE culture_id = ?').pluck();
  const highest = sqlite.prepare('SELECT MAX(position) FROM vessel WHERE shelf_id = ?').pluck();
  const pointing = pointingStatements(sqlite);
  // Read backwards from the newest image; asked only when a reversal is refused.
  const takenAway = sqlite
    .prepare(
      `SELECT entry.entry_id FROM entry_image JOIN entry USING (sequence)
       WHERE record_kind = ? AND record_id = ? AND after_writer IS NULL ORDER BY sequence DESC LIMIT 1`,
    )
    .pluck();
  const about = sqlite
    .prepare(
      `SELECT sequence FROM entry_subject WHERE kind = ? AND subject_id = ? AND sequence > ? ORDER BY sequence LIMIT 1`,
    )
    .pluck();
  const restating = sqlite
    .prepare(
      `SELECT sequence FROM entry WHERE kind = 'restate'
         AND NOT EXISTS (SELECT 1 FROM strike WHERE strike.id = entry.entry_id) ORDER BY sequence`,
    )
    .pluck();
  const found = sqlite
    .prepare(
      `SELECT before FROM entry_image WHERE record_id = ? AND sequence > ? AND record_kind = ? ORDER BY sequence LIMIT 1`,
    )
    .pluck();
  const writing = sqlite
    .prepare(
      `SELECT sequence FROM entry_image WHERE record_id = ? AND sequence > ? AND record_kind = ? ORDER BY sequence LIMIT 1`,
    )
    .pluck();
  const reversals = sqlite
    .prepare(
      `SELECT sequence FROM entry WHERE kind = 'reverse' AND json_extract(act, '$.entryId') = ? ORDER BY sequence`,
    )
    .pluck();
  const settled = sqlite
    .prepare(
      `SELECT sequence FROM entry WHERE kind = 'reconcile' AND json_extract(act, '$.readingId') = ? ORDER BY sequence`,
    )
    .pluck();
  const earlier = ({ id, sequence, happenedAtMs, act, postings }: StoredEntry): EarlierEntry => {
    return { id, sequence, happenedAtMs, act, postings, images: book.images(sequence) };
  };
  const atAll = (sequences: readonly number[]): EarlierEntry[] =>
    sequences.flatMap((sequence) => book.page(sequence - 1, 1)).map((entry) => earlier(entry));
  return {
    get: (kind, id) => records.get(kind, id),
    vesselAt: (shelfId, position) => (vesselAt.get(shelfId, position) as VesselId | undefined) ?? null,
    shelfLetterTaken: (value) => letter.get(value) !== undefined,
    vesselNumberTaken: (value) => number.get(value) !== undefined,
    batchCodeTaken: (value) => code.get(value) !== undefined,
    lastPullNumber: (culture) => (lastPull.get(culture) as number | null) ?? 0,
    highestPosition: (shelfId) => (highest.get(shelfId) as number | null) ?? 0,
    restingOn: (kind, id) => (pointing.get(kind) ?? []).flatMap((restingOn) => restingOn(id)),
    takenAwayBy: (kind, id) => (takenAway.get(kind, id) as EntryId | undefined) ?? null,
    entry(entryId) {
      const entry = book.byId(entryId);
      return entry === null ? null : earlier(entry);
    },
    foundLater(kind, id, after) {
      const before = found.get(id, after, kind) as string | null | undefined;
      return typeof before === 'string' ? (JSON.parse(before) as RecordsByKind[RecordKind]) : before;
    },
    nextWriting(kind, id, after) {
      const sequence = writing.get(id, after, kind) as number | undefined;
      return sequence === undefined ? null : (atAll([sequence])[0] ?? null);
    },
    restatings: () => atAll(restating.all() as number[]),
    reversalsOf: (entryId) => atAll(reversals.all(entryId) as number[]),
    settledBy: (readingId) => atAll(settled.all(readingId) as number[]),
    nextAbout({ kind, id }, after) {
      const sequence = about.get(kind, id, after) as number | undefined;
      const entry = sequence === undefined ? undefined : book.page(sequence - 1, 1)[0];
      return entry === undefined ? null : earlier(entry);
    },
  };
}

function pointingStatements(sqlite: Database) {
  return new Map(
    (Object.keys(POINTERS) as RecordKind[]).map((target) => [
      target,
      (POINTERS[target] ?? []).map(([from, field]) => {
        const table = RECORD_TABLES[from];
        const column = (getTableColumns(table) as Record<string, { name: string }>)[field];
        if (column === undefined) throw new Error(`${from} has no field ${field}`);
        const statement = sqlite.prepare(
          `SELECT id, written_by AS writtenBy FROM "${getTableName(table)}" WHERE "${column.name}" = ?`,
        );
        return (id: string): Resting[] =>
          (statement.all(id) as Omit<Resting, 'kind'>[]).map((row) => ({ kind: from, ...row }));
      }),
    ]),
  );
}
