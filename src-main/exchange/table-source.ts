import { getTableColumns, getTableName } from 'drizzle-orm';
import type { SQLiteColumn } from 'drizzle-orm/sqlite-core';
import { csvLine, type Cell } from '#core/exchange/csv-text.ts';
import type { Look, Row } from '#core/exchange/table-columns.ts';
import { BOOK_COLUMNS, INGREDIENTS, shapeOf, tableNameOf, type TableShape } from '#core/exchange/tables.ts';
import { RECORD_KINDS, type RecordKind } from '#core/ledger/records.ts';
import type { CellarSession } from '../cellar/session.ts';
import { RECORD_TABLES } from '../ledger/ledger.tables.ts';

/** A table of the cellar as it goes out, read a page at a time. */
export interface TableSource {
  readonly name: string;
  count(): number;
  heading(): string;
  /** The lines after a key, or null when there are no more. */
  page(after: string | number): { readonly lines: readonly string[]; readonly last: string | number } | null;
  readonly first: string | number;
}

const PAGE = 400;
const STRUCK = 'EXISTS (SELECT 1 FROM strike WHERE strike.id = entry.entry_id)';

/** Every table that goes out: one for each kind of record, what went in, and the lines of the book. */
export function tableSources(session: CellarSession): TableSource[] {
  const kinds = RECORD_KINDS.map((kind) => recordSource(session, kind));
  const ingredients = sourceOf(session, 'ingredients', INGREDIENTS, keyedById('batch'));
  const book = bookSource(
    session,
    'entries',
    { columns: BOOK_COLUMNS, lines: (row) => [row] },
    { columns: `entry.*, ${STRUCK} AS struck`, where: '1 = 1' },
  );
  return [...kinds, ingredients, book];
}

function recordSource(session: CellarSession, kind: RecordKind): TableSource {
  const table = RECORD_TABLES[kind];
  const columns = Object.values(getTableColumns(table) as Record<string, SQLiteColumn>);
  const booleans = new Set(columns.filter((c) => c.dataType === 'boolean').map((c) => c.name));
  const shape = shapeOf(
    kind,
    columns.map((c) => c.name),
    booleans,
  );
  return sourceOf(session, tableNameOf(kind), shape, keyedById(getTableName(table)));
}

/** Ids are made in the order of time, so the oldest come first. */
function keyedById(table: string): Reading {
  return {
    count: `SELECT COUNT(*) FROM "${table}"`,
    page: `SELECT * FROM "${table}" WHERE id > ? ORDER BY id LIMIT ${PAGE}`,
    ...{ key: 'id', first: '' },
  };
}

function bookSource(
  session: CellarSession,
  name: string,
  shape: TableShape,
  { columns, where }: { readonly columns: string; readonly where: string },
): TableSource {
  return sourceOf(session, name, shape, {
    count: `SELECT COUNT(*) FROM entry WHERE ${where}`,
    page: `SELECT ${columns} FROM entry WHERE sequence > ? AND ${where} ORDER BY sequence LIMIT ${PAGE}`,
    ...{ key: 'sequence', first: 0 },
  });
}

interface Reading {
  readonly count: string;
  readonly page: string;
  readonly key: string;
  readonly first: string | number;
}

function sourceOf(
  { cellar }: CellarSession,
  name: string,
  { columns, lines }: TableShape,
  reading: Reading,
): TableSource {
  const { sqlite } = cellar;
  const look = lookIn(sqlite);
  return {
    ...{ name, first: reading.first },
    count: () => sqlite.prepare(reading.count).pluck().get() as number,
    heading: () => csvLine(columns.map(({ heading }) => heading)),
    page(after) {
      const rows = sqlite.prepare(reading.page).all(after) as Row[];
      const last = rows.at(-1)?.[reading.key];
      if (typeof last !== 'string' && typeof last !== 'number') return null;
      const line = (row: Row): string => csvLine(columns.map((column): Cell => column.cell(row, look)));
      return { lines: rows.flatMap((row) => lines(row).map(line)), last };
    },
  };
}

/** Rows by their ids, each read once a table. */
function lookIn(sqlite: CellarSession['cellar']['sqlite']): Look {
  const found = new Map<string, Row | null>();
  return {
    of(kind, id) {
      const key = `${kind} ${id}`;
      const known = found.get(key);
      if (known !== undefined) return known;
      const table = getTableName(RECORD_TABLES[kind]);
      const row =
        (sqlite.prepare(`SELECT * FROM "${table}" WHERE id = ?`).get(id) as Row | undefined) ?? null;
      found.set(key, row);
      return row;
    },
  };
}
