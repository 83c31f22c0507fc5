import { setImmediate } from 'node:timers/promises';
import type { CheckReport, Progress } from '#core/contract/cellar.ts';
import { entrySubjects } from '#core/ledger/entry-subjects.ts';
import type { VesselId } from '#core/ledger/ids.ts';
import { openMemoryCellar, type MemoryCellar } from '#core/ledger/memory-cellar.ts';
import type { Act } from '#core/ledger/act.ts';
import { applyAct } from '#core/ledger/post-entry.ts';
import type { Posting } from '#core/ledger/postings.ts';
import { priorImage, RECORD_KINDS, type RecordKind } from '#core/ledger/records.ts';
import { getTableName } from 'drizzle-orm';
import type { BookStore, StoredEntry } from '../ledger/book-store.ts';
import { batchWords, lineWords } from '../find/words-projection.ts';
import { RECORD_TABLES } from '../ledger/ledger.tables.ts';
import { openPictureCheck } from '../photos/check-pictures.ts';
import type { CellarServices } from './cellar-services.ts';

type Fault = CheckReport['faults'][number];
type Add = (type: string, detail: string) => void;
const PAGE = 500;
const FAULTS_SHOWN = 50;

/**
 * Checks the file page by page, reads every entry (which must parse and balance), plays the whole book in memory and
 * compares what it gives with what the file shows. Nothing is written. It lets other calls through between pages, also
 * those that write: before each comparison the lines written since are played too. It stops when it is asked to, and
 * when the cellar is closed.
 */
export async function* checkCellar(
  services: CellarServices,
  signal: AbortSignal | undefined,
): AsyncGenerator<Progress, CheckReport, void> {
  const { cellar, book } = services.session;
  const stop = signal === undefined ? cellar.closing : AbortSignal.any([cellar.closing, signal]);
  const faults: Fault[] = [];
  const add: Add = (type, detail) => {
    if (faults.length < FAULTS_SHOWN) faults.push({ type, detail });
  };
  yield { what: 'file', done: 0, total: 1 };
  await setImmediate();
  stop.throwIfAborted();
  checkFile(services, add);
  const player = openPlayer(services, add);
  // Lines written meanwhile are played before each comparison; waiting for them here might never end.
  const total = book.count();
  while (player.done < total && player.playPage()) {
    yield { what: 'book', done: Math.min(player.done, total), total };
    await setImmediate();
    stop.throwIfAborted();
  }
  const pictures = openPictureCheck(services.session.cellar.sqlite, add);
  while (pictures.checkNext()) {
    yield { what: 'pictures', done: pictures.done, total: pictures.total };
    await setImmediate();
    stop.throwIfAborted();
  }
  const compared = [
    ...RECORD_KINDS.map((kind) => () => {
      compareRecords(services, kind, player.played, add);
    }),
    () => {
      compareBatchWords(services, player.played, add);
    },
    () => {
      compareTickets(services, add);
    },
  ];
  for (const [index, compare] of compared.entries()) {
    while (player.playPage());
    compare();
    yield { what: 'shelf', done: index + 1, total: compared.length };
    await setImmediate();
    stop.throwIfAborted();
  }
  return { sound: faults.length === 0, entries: player.done, faults };
}

function checkFile({ session }: CellarServices, add: Add): void {
  const { sqlite } = session.cellar;
  for (const line of sqlite.pragma('integrity_check(20)') as { integrity_check: string }[]) {
    if (line.integrity_check !== 'ok') add('FileDamaged', line.integrity_check);
  }
  for (const orphan of sqlite.pragma('foreign_key_check') as { table: string }[]) {
    add('Orphan', orphan.table);
  }
}

interface Player {
  readonly played: MemoryCellar;
  /** Number of the last line played. */
  readonly done: number;
  /** Plays the next lines; false when there were none. */
  playPage(): boolean;
}

/** Plays the book from its first line, and holds each line against what was written down beside it. */
function openPlayer({ session }: CellarServices, add: Add): Player {
  const { sqlite } = session.cellar;
  const played = openMemoryCellar();
  const subjectsOf = sqlite.prepare(
    'SELECT kind, subject_id FROM entry_subject WHERE sequence = ? ORDER BY kind, subject_id',
  );
  const wordsOf = sqlite.prepare('SELECT text FROM line_words WHERE rowid = ?').pluck();
  const kindOf = sqlite.prepare('SELECT kind FROM entry WHERE sequence = ?').pluck();
  let done = 0;
  // The words of a line are those it has by now; that its telling anew is the book's is compared with the records.
  const toldAnew = (id: string): Act | null => session.records.get('restatement', id)?.act ?? null;

  const play = (entry: StoredEntry): void => {
    const outcome = applyAct(played, entry.act, { entryId: entry.id, happenedAtMs: entry.happenedAtMs });
    if (!outcome.ok) {
      add('CannotReplay', `${entry.id}: ${outcome.error.type}`);
      return;
    }
    const { changes, postings } = outcome.value;
    played.append(entry, outcome.value);
    const { vesselIds, batchIds, cultureIds } = entrySubjects(entry.act, changes);
    const subjects = [
      ...batchIds.map((id) => ({ kind: 'batch', subject_id: id })),
      ...cultureIds.map((id) => ({ kind: 'culture', subject_id: id })),
      ...vesselIds.map((id) => ({ kind: 'vessel', subject_id: id })),
    ].sort((a, b) => (a.kind + a.subject_id < b.kind + b.subject_id ? -1 : 1));
    const beside: readonly (readonly [string, unknown, unknown])[] = [
      ['kind', kindOf.get(entry.sequence), entry.act.kind],
      ['postings', entry.postings, postingsIn(entry.actFormat, postings)],
      ['subjects', subjectsOf.all(entry.sequence), subjects],
      ['images', session.book.images(entry.sequence), changes.map(priorImage)],
      ['words', wordsOf.get(entry.sequence) ?? '', lineWords(entry.act, toldAnew(entry.id))],
    ];
    for (const [what, stored, wanted] of beside) {
      if (canonical(stored) !== canonical(wanted)) add('DiffersFromTheBook', `${what} of ${entry.id}`);
    }
  };

  return {
    played,
    get done() {
      return done;
    },
    playPage() {
      const page = readLines(session.book, done, add);
      if (page === null) return false;
      page.entries.forEach(play);
      done = page.last;
      return true;
    },
  };
}

/** Lines of the first format say volumes only. */
export function postingsIn(actFormat: number, postings: readonly Posting[]): readonly Posting[] {
  if (actFormat > 1) return postings;
  return postings
    .filter(({ deltaUl }) => deltaUl !== 0)
    .map(({ account, deltaUl }) => ({ account, deltaUl }));
}

/** The next lines of the book. One that cannot be read is named and passed over, so that the rest is still checked. */
function readLines(
  book: BookStore,
  after: number,
  add: Add,
): { readonly entries: readonly StoredEntry[]; readonly last: number } | null {
  try {
    const entries = book.page(after, PAGE);
    const last = entries.at(-1)?.sequence;
    if (last === undefined) return null;
    // The book's numbers have no holes: a line that is not there was taken out behind the program's back.
    const missing = last - after - entries.length;
    if (missing > 0) add('CannotReplay', `${missing} of the lines ${after + 1} to ${last}: missing`);
    return { entries, last };
  } catch {
    const last = Math.min(after + PAGE, book.count());
    const entries: StoredEntry[] = [];
    for (let sequence = after + 1; sequence <= last; sequence += 1) {
      try {
        const line = book.page(sequence - 1, 1).find((entry) => entry.sequence === sequence);
        if (line === undefined) add('CannotReplay', `line ${sequence}: missing`);
        else entries.push(line);
      } catch (error) {
        add('CannotReplay', `line ${sequence}: ${error instanceof Error ? error.name : 'unknown'}`);
      }
    }
    return last <= after ? null : { entries, last };
  }
}

function compareRecords({ session }: CellarServices, kind: RecordKind, memory: MemoryCellar, add: Add): void {
  const played = memory.records(kind);
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

/** Every batch is found by its own words, and no other is. (The indexes themselves are part of SQLite's own check.) */
function compareBatchWords({ session }: CellarServices, memory: MemoryCellar, add: Add): void {
  const { sqlite } = session.cellar;
  const rows = sqlite
    .prepare(
      `SELECT batch_id AS id, text FROM batch_number LEFT JOIN batch_words ON batch_words.rowid = batch_number.number`,
    )
    .all() as { id: string; text: string | null }[];
  const kept = new Map(rows.map(({ id, text }) => [id, text]));
  for (const [id, batch] of memory.records('batch')) {
    if (kept.get(id) !== batchWords(batch)) add('DiffersFromTheBook', `words of batch ${id}`);
    kept.delete(id);
  }
  for (const id of kept.keys()) add('NotInTheBook', `words of batch ${id}`);
}

/** Every vessel in use has its ticket, no other has, and each says what the records say. */
function compareTickets({ session, projection }: CellarServices, add: Add): void {
  const { sqlite } = session.cellar;
  const shownOf = sqlite.prepare('SELECT shown FROM shelf_row WHERE vessel_id = ?').pluck();
  const ids = sqlite
    .prepare('SELECT id FROM vessel UNION SELECT vessel_id FROM shelf_row')
    .pluck()
    .all() as VesselId[];
  for (const id of ids) {
    const shown = shownOf.get(id) as string | undefined;
    const wanted = projection.compute(id);
    if (canonical(wanted) !== canonical(shown === undefined ? null : JSON.parse(shown))) {
      add('TicketDiffers', `vessel ${id}`);
    }
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
