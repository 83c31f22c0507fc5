import BetterSqlite from 'better-sqlite3';
import type { Database } from 'better-sqlite3';
import { randomUUID } from 'node:crypto';

type Row = Readonly<Record<string, string | number | null>>;

/** The rows that one entry put into the file, by table, and how many bytes of text and numbers they hold. */
export interface WrittenRows {
  readonly entry: Row;
  readonly subjects: readonly Row[];
  readonly images: readonly Row[];
  readonly reading: Row;
  readonly ticket: Row;
  readonly count: number;
  readonly bytes: number;
}

export interface BareWriter {
  readonly write: () => void;
  readonly close: () => void;
}

/** Reads what the newest entry, which must be a reading, wrote. */
export function rowsOfNewestEntry(file: string): WrittenRows {
  const sqlite = new BetterSqlite(file);
  try {
    const one = (sql: string, ...values: unknown[]) => sqlite.prepare(sql).get(...values) as Row;
    const many = (sql: string, ...values: unknown[]) => sqlite.prepare(sql).all(...values) as Row[];
    const entry = one('SELECT * FROM entry ORDER BY sequence DESC LIMIT 1');
    const subjects = many('SELECT * FROM entry_subject WHERE sequence = ?', entry['sequence']);
    const images = many('SELECT * FROM entry_image WHERE sequence = ?', entry['sequence']);
    const reading = one('SELECT * FROM reading WHERE id = ?', entry['entry_id']);
    const ticket = one('SELECT * FROM shelf_row WHERE vessel_id = ?', reading['vessel_id']);
    const all = [entry, ...subjects, ...images, reading, ticket];
    const bytes = all.flatMap((row) => Object.values(row)).reduce<number>((sum, v) => sum + bytesOf(v), 0);
    return { entry, subjects, images, reading, ticket, count: all.length, bytes };
  } finally {
    sqlite.close();
  }
}

function bytesOf(value: string | number | null): number {
  return value === null ? 0 : typeof value === 'number' ? 8 : Buffer.byteLength(value);
}

/** The settings under which the program itself writes. */
function openDurably(file: string): Database {
  const sqlite = new BetterSqlite(file);
  sqlite.pragma('locking_mode = EXCLUSIVE');
  sqlite.pragma('journal_mode = WAL');
  sqlite.pragma('synchronous = FULL');
  sqlite.pragma('foreign_keys = ON');
  return sqlite;
}

/** The least that can be durable: one immediate transaction with one row of that many bytes. */
export function openBareRow(file: string, bytes: number): BareWriter {
  const sqlite = openDurably(file);
  sqlite.exec('CREATE TABLE line (sequence INTEGER PRIMARY KEY, bytes TEXT NOT NULL) STRICT');
  const insert = sqlite.prepare('INSERT INTO line (bytes) VALUES (?)');
  const text = 'x'.repeat(bytes);
  const transaction = sqlite.transaction(() => {
    insert.run(text);
  });
  return {
    write: () => {
      transaction.immediate();
    },
    close: () => {
      sqlite.close();
    },
  };
}

/** The same rows into the same tables with the same indexes, by prepared statements and without a thought. */
export function openSameRows(file: string, rows: WrittenRows): BareWriter {
  const sqlite = openDurably(file);
  const into = (table: string, row: Row, leftOut: readonly string[] = []) => {
    const columns = Object.keys(row).filter((column) => !leftOut.includes(column));
    const values = columns.map((column) => `@${column}`);
    return sqlite.prepare(
      `INSERT OR REPLACE INTO ${table} (${columns.join(', ')}) VALUES (${values.join(', ')})`,
    );
  };
  const entry = into('entry', rows.entry, ['sequence']);
  const subjects = rows.subjects.map((row) => ({ row, insert: into('entry_subject', row) }));
  const images = rows.images.map((row) => ({ row, insert: into('entry_image', row) }));
  const reading = into('reading', rows.reading);
  const ticket = into('shelf_row', rows.ticket);
  const transaction = sqlite.transaction((id: string) => {
    const { lastInsertRowid: sequence } = entry.run({ ...rows.entry, entry_id: id, request_id: id });
    for (const { row, insert } of subjects) insert.run({ ...row, sequence });
    for (const { row, insert } of images) insert.run({ ...row, sequence });
    reading.run({ ...rows.reading, id, written_by: id });
    ticket.run(rows.ticket);
  });
  return {
    write: () => {
      transaction.immediate(randomUUID());
    },
    close: () => {
      sqlite.close();
    },
  };
}
