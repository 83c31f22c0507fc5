import type { Database, Statement } from 'better-sqlite3';
import { getTableColumns, getTableName } from 'drizzle-orm';
import type { BetterSQLite3Database } from 'drizzle-orm/better-sqlite3';
import type { SQLiteTable } from 'drizzle-orm/sqlite-core';
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
  readonly put: (record: Row) => void;
  /** Writes the fields that differ, so that no index over the others is touched. */
  readonly change: (before: Row, after: Row) => void;
  readonly remove: (id: string) => void;
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
        if (change.after === null) of(change.kind).remove(change.id);
        else if (change.before === null) of(change.kind).put(toRow(change.kind, change.after));
        else of(change.kind).change(toRow(change.kind, change.before), toRow(change.kind, change.after));
      }
    },
  };
}

/** Every entry reads and writes some ten records: plain statements, and only what SQLite cannot hold as it is is mapped. */
function prepare(db: BetterSQLite3Database, table: SQLiteTable): Statements {
  const { $client } = db as BetterSQLite3Database & { readonly $client: Database };
  const columns = Object.entries(getTableColumns(table));
  const name = getTableName(table);
  const mapped = columns.filter(([, { dataType }]) => dataType === 'json' || dataType === 'boolean');
  const fields = columns.map(([key, column]) => `"${column.name}" AS "${key}"`).join(', ');
  const select = $client.prepare(`SELECT ${fields} FROM "${name}" WHERE id = ?`);
  const others = columns.filter(([key]) => key !== 'id').map(([, column]) => column.name);
  const put = $client.prepare(
    `INSERT INTO "${name}" (${columns.map(([, column]) => `"${column.name}"`).join(', ')})
     VALUES (${columns.map(() => '?').join(', ')})
     ON CONFLICT (id) DO UPDATE SET ${others.map((other) => `"${other}" = excluded."${other}"`).join(', ')}`,
  );
  const remove = $client.prepare(`DELETE FROM "${name}" WHERE id = ?`);
  const isMapped = columns.map(([, { dataType }]) => dataType === 'json' || dataType === 'boolean');
  const inFile = (record: Row, i: number): unknown => {
    const [key, column] = columns[i] ?? [];
    const value = key === undefined ? null : (record[key] ?? null);
    return isMapped[i] === true && value !== null ? column?.mapToDriverValue(value) : value;
  };
  const updates = new Map<string, Statement>();
  const updateOf = (fields: readonly number[]): Statement => {
    const key = fields.join();
    const known = updates.get(key);
    if (known !== undefined) return known;
    const sets = fields.map((i) => `"${columns[i]?.[1].name ?? ''}" = ?`).join(', ');
    const made = $client.prepare(`UPDATE "${name}" SET ${sets} WHERE id = ?`);
    updates.set(key, made);
    return made;
  };
  return {
    change(before, after) {
      const fields: number[] = [];
      const values: unknown[] = [];
      for (const [i, [key]] of columns.entries()) {
        if (before[key] === after[key]) continue;
        const now = inFile(after, i);
        if (inFile(before, i) === now) continue;
        fields.push(i);
        values.push(now);
      }
      if (fields.length === 0) return;
      const { changes } = updateOf(fields).run([...values, after['id']]);
      if (changes !== 1) throw new Error(`no row of ${name} has the id ${String(after['id'])}`);
    },
    get(id) {
      const row = select.get(id) as Row | undefined;
      if (row === undefined) return undefined;
      for (const [key, column] of mapped) {
        if (row[key] !== null) row[key] = column.mapFromDriverValue(row[key]);
      }
      return row;
    },
    put(record) {
      put.run(columns.map((_column, i) => inFile(record, i)));
    },
    remove(id) {
      remove.run(id);
    },
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
