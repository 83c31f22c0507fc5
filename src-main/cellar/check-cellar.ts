import { setImmediate } from 'node:timers/promises';
import type { CheckReport, Progress } from '#core/contract/cellar.ts';
import { openMemoryCellar } from '#core/ledger/memory-cellar.ts';
import { applyAct } from '#core/ledger/post-entry.ts';
import type { RecordKind, RecordsByKind } from '#core/ledger/records.ts';
import { RECORD_KINDS } from '#core/ledger/records.ts';
import { getTableName } from 'drizzle-orm';
import { RECORD_TABLES } from '../ledger/ledger.tables.ts';
import type { CellarServices } from './cellar-services.ts';

type Fault = CheckReport['faults'][number];
const PAGE = 500;
const FAULTS_SHOWN = 50;

/**
 * Checks the file page by page, reads every entry (which must parse and balance), plays the whole book in memory and
 * compares what it gives with what the file shows. Nothing is written. It lets other calls through between pages, and
 * stops when asked.
 */
export async function* checkCellar(
  services: CellarServices,
  signal: AbortSignal | undefined,
): AsyncGenerator<Progress, CheckReport, void> {
  const { session } = services;
  const faults: Fault[] = [];
  const add = (type: string, detail: string): void => {
    if (faults.length < FAULTS_SHOWN) faults.push({ type, detail });
  };
  yield { what: 'file', done: 0, total: 1 };
  await setImmediate();
  for (const line of session.cellar.sqlite.pragma('integrity_check(20)') as { integrity_check: string }[]) {
    if (line.integrity_check !== 'ok') add('FileDamaged', line.integrity_check);
  }
  for (const orphan of session.cellar.sqlite.pragma('foreign_key_check') as { table: string }[]) {
    add('Orphan', orphan.table);
  }
  const total = session.book.count();
  const played = openMemoryCellar();
  let done = 0;
  for (let page = session.book.page(0, PAGE); page.length > 0; page = session.book.page(done, PAGE)) {
    signal?.throwIfAborted();
    for (const entry of page) {
      done = entry.sequence;
      const outcome = applyAct(played, entry.act, { entryId: entry.id, happenedAtMs: entry.happenedAtMs });
      if (outcome.ok) played.append(entry, outcome.value);
      else add('CannotReplay', `${entry.id}: ${outcome.error.type}`);
    }
    yield { what: 'book', done, total };
    await setImmediate();
  }
  for (const [index, kind] of RECORD_KINDS.entries()) {
    signal?.throwIfAborted();
    compare(services, kind, played.records(kind), add);
    yield { what: 'shelf', done: index + 1, total: RECORD_KINDS.length };
    await setImmediate();
  }
  compareTickets(services, add);
  return { sound: faults.length === 0, entries: total, faults };
}

function compare<K extends RecordKind>(
  { session }: CellarServices,
  kind: K,
  played: ReadonlyMap<string, RecordsByKind[K]>,
  add: (type: string, detail: string) => void,
): void {
  const table = getTableName(RECORD_TABLES[kind]);
  const ids = session.cellar.sqlite.prepare(`SELECT id FROM "${table}"`).pluck().all() as string[];
  for (const id of ids) {
    const wanted = played.get(id);
    if (wanted === undefined) add('NotInTheBook', `${kind} ${id}`);
    else if (canonical(session.records.get(kind, id)) !== canonical(wanted))
      add('DiffersFromTheBook', `${kind} ${id}`);
  }
  const here = new Set(ids);
  for (const id of played.keys()) if (!here.has(id)) add('MissingFromTheShelf', `${kind} ${id}`);
}

function compareTickets(
  { session, projection }: CellarServices,
  add: (type: string, detail: string) => void,
): void {
  const rows = session.cellar.sqlite.prepare('SELECT vessel_id AS id, shown FROM shelf_row').all() as {
    id: string;
    shown: string;
  }[];
  for (const { id, shown } of rows) {
    const wanted = projection.compute(id as never);
    if (canonical(wanted) !== canonical(JSON.parse(shown))) add('TicketDiffers', `vessel ${id}`);
  }
}

/** JSON with sorted keys, so that two equal records are equal text. */
export function canonical(value: unknown): string {
  return JSON.stringify(value, (_key, inner: unknown) =>
    typeof inner === 'object' && inner !== null && !Array.isArray(inner)
      ? Object.fromEntries(Object.entries(inner).sort(([a], [b]) => (a < b ? -1 : 1)))
      : inner,
  );
}
