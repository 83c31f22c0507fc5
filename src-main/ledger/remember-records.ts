import { getTableColumns } from 'drizzle-orm';
import type { RecordKind, RecordsByKind } from '#core/ledger/records.ts';
import { RECORD_TABLES } from './ledger.tables.ts';
import type { RecordStore } from './record-store.ts';

const REMEMBERED_MAX = 20_000;
type AnyRecord = RecordsByKind[RecordKind];

/**
 * The same records, those read or written last kept at hand. For work that alone writes and either is carried through or
 * given up whole, since a transaction that is rolled back leaves what is remembered wrong.
 */
export function rememberRecords(records: RecordStore): RecordStore {
  const known = new Map<string, AnyRecord | null>();
  const remember = (key: string, record: AnyRecord | null): void => {
    if (known.size >= REMEMBERED_MAX) known.clear();
    known.set(key, record);
  };
  return {
    get<K extends RecordKind>(kind: K, id: string): RecordsByKind[K] | null {
      const key = `${kind}:${id}`;
      const held = known.get(key);
      if (held !== undefined) return held as RecordsByKind[K] | null;
      const record = records.get(kind, id);
      remember(key, record);
      return record;
    },
    apply(changes) {
      records.apply(changes);
      for (const { kind, id, after } of changes) {
        const key = `${kind}:${id}`;
        // A reading comes back from its columns otherwise than it went in, and is hardly ever asked for again.
        if (kind === 'reading') known.delete(key);
        else remember(key, after === null ? null : asRead(kind, after));
      }
    },
  };
}

/** The record with its fields in the order in which the file gives them, as images of it are kept. */
function asRead(kind: RecordKind, record: AnyRecord): AnyRecord {
  const fields = record as unknown as Record<string, unknown>;
  const inOrder = Object.keys(getTableColumns(RECORD_TABLES[kind])).map((name) => [
    name,
    fields[name] ?? null,
  ]);
  return Object.fromEntries(inOrder) as AnyRecord;
}
