import type { Database } from 'better-sqlite3';
import { eq, getTableColumns, getTableName, sql, type SQL } from 'drizzle-orm';
import type { BetterSQLite3Database } from 'drizzle-orm/better-sqlite3';
import type { SQLiteColumn, SQLiteTable } from 'drizzle-orm/sqlite-core';
import type { Change, ReadingRecord, RecordKind, RecordsByKind } from '#core/ledger/records.ts';
import { RECORD_KINDS } from '#core/ledger/records.ts';
import { RECORD_TABLES } from './ledger.tables.ts';

/** Reads and writes the records of the projections, one prepared statement a kind and a verb. */
export interface RecordStore {
  get<K extends RecordKind>(kind: K, id: string): RecordsByKind[K] | null;
  apply(changes: readonly Change[]): void;
}

type Row = Record<string, unknown>;
interface Statements {
  readonly get: (id: string) => Row | undefined;
  readonly put: { run(values: Row): unknown };
  readonly remove: { run(values: Row): unknown };
}

export function openRecordStore(db: BetterSQLite3Database): RecordStore {
  const statements = new Map<RecordKind, Statements>();
  const of = (kind: RecordKind): Statements => {
    const known = statements.get(kind);
    if (known !== undefined) return known;
    const made = prepare(db, RECORD_TABLES[kind]);
    statements.set(kind, made);
    return made;
  };
  return {
    get<K extends RecordKind>(kind: K, id: string): RecordsByKind[K] | null {
      const row = of(kind).get(id);
      return row === undefined ? null : (fromRow(kind, row) as RecordsByKind[K]);
    },
    apply(changes) {
      for (const change of inOrder(changes)) {
        if (change.after === null) of(change.kind).remove.run({ id: change.id });
        else of(change.kind).put.run(toRow(change.kind, change.after));
      }
    },
  };
}

function prepare(db: BetterSQLite3Database, table: SQLiteTable & { id: SQLiteColumn }): Statements {
  const columns = Object.keys(getTableColumns(table));
  const values = Object.fromEntries(columns.map((name) => [name, sql.placeholder(name)]));
  const excluded: Record<string, SQL> = Object.fromEntries(
    Object.entries(getTableColumns(table))
      .filter(([name]) => name !== 'id')
      .map(([name, column]) => [name, sql.raw(`excluded."${column.name}"`)]),
  );
  const here = eq(table.id, sql.placeholder('id'));
  return {
    get: prepareGet(db, table),
    put: db
      .insert(table)
      .values(values as never)
      .onConflictDoUpdate({ target: table.id, set: excluded as never })
      .prepare(),
    remove: db.delete(table).where(here).prepare(),
  };
}

/** Every entry reads some ten records: the plain statement, with only the columns that SQLite cannot hold as they are made anew. */
function prepareGet(db: BetterSQLite3Database, table: SQLiteTable): Statements['get'] {
  const columns = Object.entries(getTableColumns(table));
  const fields = columns.map(([name, column]) => `"${column.name}" AS "${name}"`).join(', ');
  const { $client } = db as BetterSQLite3Database & { readonly $client: Database };
  const select = $client.prepare(`SELECT ${fields} FROM "${getTableName(table)}" WHERE id = ?`);
  const mapped = columns.filter(([, { dataType }]) => dataType === 'json' || dataType === 'boolean');
  return (id) => {
    const row = select.get(id) as Row | undefined;
    if (row === undefined) return undefined;
    for (const [name, column] of mapped) {
      if (row[name] !== null) row[name] = column.mapFromDriverValue(row[name]);
    }
    return row;
  };
}

/** Removals free what insertions may need (a spot on a shelf, a unique code), so they go first, children before parents. */
function inOrder(changes: readonly Change[]): Change[] {
  const rank = (change: Change): number =>
    change.after === null ? -RECORD_KINDS.indexOf(change.kind) - 1 : RECORD_KINDS.indexOf(change.kind);
  return [...changes].sort((a, b) => rank(a) - rank(b));
}

/** A reading's values lie in columns of their own, with their units in the names; every other record is flat already. */
function toRow(kind: RecordKind, record: RecordsByKind[RecordKind]): Row {
  if (kind !== 'reading') return record as unknown as Row;
  const { values, ...rest } = record as ReadingRecord;
  const { detail, ...columns } = values;
  return {
    ...rest,
    ...columns,
    detail: detail === undefined || detail === null ? null : JSON.stringify(detail),
  };
}

function fromRow(kind: RecordKind, row: Row): RecordsByKind[RecordKind] {
  if (kind !== 'reading') return row as unknown as RecordsByKind[RecordKind];
  const { id, vesselId, batchId, atMs, writtenBy, detail, ...columns } = row;
  const values = typeof detail === 'string' ? { ...columns, detail: JSON.parse(detail) as unknown } : columns;
  return { id, vesselId, batchId, atMs, values, writtenBy } as unknown as ReadingRecord;
}
