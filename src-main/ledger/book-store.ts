import type { Database } from 'better-sqlite3';
import { z } from 'zod';
import { Act } from '#core/ledger/act.ts';
import type { Entry } from '#core/ledger/entry.ts';
import type { Subjects } from '#core/ledger/entry-subjects.ts';
import type { EntryId } from '#core/ledger/ids.ts';
import { assertBalanced, Posting } from '#core/ledger/postings.ts';
import type { PriorImage } from '#core/ledger/records.ts';
import { openUpcast } from './upcast-entry.ts';

/** The format in which acts are written now. A change of the acts raises it, and older ones are read through `upcast-entry`. */
export const ACT_FORMAT = 3;

export interface StoredEntry extends Entry {
  readonly sequence: number;
  /** The format its act is written in. Before the second, postings say volumes only. */
  readonly actFormat: number;
}

/** Appends to the book and reads it; nothing here changes or deletes a line. */
export interface BookStore {
  append(entry: Entry, requestId: string): number;
  writeSubjects(sequence: number, subjects: Subjects): void;
  writeImages(sequence: number, images: readonly PriorImage[]): void;
  byId(entryId: string): StoredEntry | null;
  byRequest(requestId: string): StoredEntry | null;
  images(sequence: number): PriorImage[];
  count(): number;
  lastWrittenAtMs(): number | null;
  /** All entries in the order they were written, a page at a time, so that a long book never stands in memory whole. */
  page(afterSequence: number, limit: number): StoredEntry[];
  fromRows(rows: readonly unknown[]): StoredEntry[];
}

const Postings = z.array(Posting);
const TypedText = z.record(z.string(), z.string());
export const ENTRY_COLUMNS =
  'sequence, entry_id, happened_at_ms, written_at_ms, act_format, act, postings, typed';

interface EntryRowInFile {
  readonly sequence: number;
  readonly entry_id: EntryId;
  readonly happened_at_ms: number;
  readonly written_at_ms: number;
  readonly act_format: number;
  readonly act: string;
  readonly postings: string;
  readonly typed: string;
}

export function openBookStore(sqlite: Database): BookStore {
  const insert = sqlite.prepare(
    `INSERT INTO entry (entry_id, request_id, kind, happened_at_ms, written_at_ms, act_format, act, postings, typed)
     VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)`,
  );
  const insertSubject = sqlite.prepare(
    `INSERT INTO entry_subject (kind, subject_id, sequence) VALUES (?, ?, ?)`,
  );
  const insertImage = sqlite.prepare(
    `INSERT INTO entry_image (sequence, ordinal, record_kind, record_id, before, after_writer) VALUES (?, ?, ?, ?, ?, ?)`,
  );
  const byId = sqlite.prepare(`SELECT ${ENTRY_COLUMNS} FROM entry WHERE entry_id = ?`);
  const byRequest = sqlite.prepare(`SELECT ${ENTRY_COLUMNS} FROM entry WHERE request_id = ?`);
  const images = sqlite.prepare(
    `SELECT record_kind AS kind, record_id AS id, before, after_writer AS afterWriter
     FROM entry_image WHERE sequence = ? ORDER BY ordinal`,
  );
  const page = sqlite.prepare(
    `SELECT ${ENTRY_COLUMNS} FROM entry WHERE sequence > ? ORDER BY sequence LIMIT ?`,
  );
  // The book only grows and its numbers have no holes, so the last number is the count: no scan, however long it is.
  const last = sqlite.prepare(`SELECT sequence, written_at_ms FROM entry ORDER BY sequence DESC LIMIT 1`);
  const one = (row: unknown): StoredEntry | null =>
    row === undefined ? null : readEntry(row as EntryRowInFile);
  return {
    append(entry, requestId) {
      assertBalanced(entry.postings, `before writing ${entry.id}`);
      // A line that could not be read again would close the book from there on: it is a fault, and is not written.
      Act.parse(entry.act);
      Postings.parse(entry.postings);
      const { lastInsertRowid } = insert.run(
        entry.id,
        requestId,
        entry.act.kind,
        entry.happenedAtMs,
        entry.writtenAtMs,
        ACT_FORMAT,
        JSON.stringify(entry.act),
        JSON.stringify(entry.postings),
        JSON.stringify(entry.typed),
      );
      return Number(lastInsertRowid);
    },
    writeSubjects(sequence, { vesselIds, batchIds, cultureIds }) {
      for (const id of vesselIds) insertSubject.run('vessel', id, sequence);
      for (const id of batchIds) insertSubject.run('batch', id, sequence);
      for (const id of cultureIds) insertSubject.run('culture', id, sequence);
    },
    writeImages(sequence, all) {
      all.forEach((image, ordinal) => {
        const before = image.before === null ? null : JSON.stringify(image.before);
        insertImage.run(sequence, ordinal, image.kind, image.id, before, image.afterWriter);
      });
    },
    byId: (entryId) => one(byId.get(entryId)),
    byRequest: (requestId) => one(byRequest.get(requestId)),
    images: (sequence) =>
      (images.all(sequence) as { before: string | null }[]).map((row) => ({
        ...row,
        before: row.before === null ? null : (JSON.parse(row.before) as unknown),
      })) as PriorImage[],
    count: () => (last.get() as { sequence: number } | undefined)?.sequence ?? 0,
    lastWrittenAtMs: () => (last.get() as { written_at_ms: number } | undefined)?.written_at_ms ?? null,
    page: (afterSequence, limit) => (page.all(afterSequence, limit) as EntryRowInFile[]).map(readEntry),
    fromRows: (rows) => (rows as EntryRowInFile[]).map(readEntry),
  };
}

/** Parses a stored line and checks again that it balances. Throws when the file holds something this program never wrote. */
function readEntry(row: EntryRowInFile): StoredEntry {
  const act = Act.parse(openUpcast(JSON.parse(row.act), row.act_format));
  const postings = Postings.parse(JSON.parse(row.postings));
  assertBalanced(postings, `when reading ${row.entry_id}`);
  return {
    sequence: row.sequence,
    actFormat: row.act_format,
    id: row.entry_id,
    happenedAtMs: row.happened_at_ms,
    writtenAtMs: row.written_at_ms,
    act,
    postings,
    typed: TypedText.parse(JSON.parse(row.typed)),
  };
}
