import BetterSqlite, { type Database } from 'better-sqlite3';
import type { BackupManifest } from '#core/strongbox/manifest.ts';
import { readMigrations } from '../cellar/migrate.ts';
import { openBookStore } from '../ledger/book-store.ts';
import { openPictureCheck } from '../photos/check-pictures.ts';
import { payloadFacts } from './payload-facts.ts';

export type Tell = (what: 'file' | 'book' | 'pictures', done: number, total: number) => void;

const PAGE = 500;
const FAULTS_TOLD = 20;

/**
 * Checks the cellar in a backup from within: SQLite's own full check, the tables against those this program makes, every
 * line of the book (it must be read and balance, and no number may be missing), the pictures by their checksums, and the
 * counts against what the seal says. Writes nothing.
 *
 * @returns the faults found, at most twenty; the number of lines that balance
 */
export function checkPayload(
  sqlite: Database,
  manifest: Pick<BackupManifest, 'counts' | 'lastEntry' | 'cellar'> | null,
  tell: Tell = () => undefined,
): { readonly faults: string[]; readonly entriesBalanced: number } {
  const faults: string[] = [];
  const add = (type: string, detail: string): void => {
    if (faults.length < FAULTS_TOLD) faults.push(`${type}: ${detail}`);
  };
  tell('file', 0, 1);
  checkFile(sqlite, add);
  tell('file', 1, 1);
  if (faults.length > 0) return { faults, entriesBalanced: 0 };
  const entriesBalanced = checkBook(sqlite, add, tell);
  checkPictures(sqlite, add, tell);
  if (manifest !== null) {
    const { counts, lastEntry, cellar } = payloadFacts(sqlite);
    const told = JSON.stringify([manifest.counts, manifest.lastEntry, manifest.cellar]);
    if (JSON.stringify([counts, lastEntry, cellar]) !== told) add('DiffersFromTheSeal', 'counts');
  }
  return { faults, entriesBalanced };
}

function checkFile(sqlite: Database, add: (type: string, detail: string) => void): void {
  try {
    for (const line of sqlite.pragma('integrity_check(20)') as { integrity_check: string }[]) {
      if (line.integrity_check !== 'ok') add('FileDamaged', line.integrity_check);
    }
    for (const orphan of sqlite.pragma('foreign_key_check') as { table: string }[])
      add('Orphan', orphan.table);
    const version = sqlite.pragma('user_version', { simple: true }) as number;
    const own = ownSchema(version);
    const here = schemaOf(sqlite, version);
    for (const name of new Set([...own.keys(), ...here.keys()])) {
      if (own.get(name) !== here.get(name)) add('NotOurTable', name);
    }
  } catch (error) {
    add('FileDamaged', codeOf(error));
  }
}

function checkBook(sqlite: Database, add: (type: string, detail: string) => void, tell: Tell): number {
  let done = 0;
  let balanced = 0;
  try {
    const book = openBookStore(sqlite);
    const total = book.count();
    for (;;) {
      const page = book.page(done, PAGE);
      const last = page.at(-1)?.sequence;
      if (last === undefined) break;
      if (last - done !== page.length) add('LineMissing', `between ${done + 1} and ${last}`);
      balanced += page.length;
      done = last;
      tell('book', done, total);
    }
  } catch (error) {
    add('LineUnreadable', `after ${done}: ${codeOf(error)}`);
  }
  return balanced;
}

function checkPictures(sqlite: Database, add: (type: string, detail: string) => void, tell: Tell): void {
  if ((sqlite.pragma('user_version', { simple: true }) as number) < VERSION_WITH_PICTURES) return;
  const pictures = openPictureCheck(sqlite, add);
  while (pictures.checkNext()) tell('pictures', pictures.done, pictures.total);
}

/** `0004_keep_photos_and_tastings.sql`. */
const VERSION_WITH_PICTURES = 4;

/** The tables and indexes, and for the newest version the triggers too, as this program itself makes them. */
function ownSchema(version: number): ReadonlyMap<string, string> {
  const { steps, triggers } = readMigrations();
  const own = new BetterSqlite(':memory:');
  try {
    for (const step of steps) if (step.version <= version) own.exec(step.sql);
    if (version === steps.length) own.exec(triggers);
    return schemaOf(own, version);
  } finally {
    own.close();
  }
}

/** What stands in the schema, without SQLite's own tables. Triggers of an older version are made anew before any runs. */
function schemaOf(sqlite: Database, version: number): ReadonlyMap<string, string> {
  const { steps } = readMigrations();
  const rows = sqlite
    .prepare(
      `SELECT type, name, coalesce(sql, '') AS sql FROM sqlite_schema WHERE name NOT LIKE 'sqlite\\_%' ESCAPE '\\'`,
    )
    .all() as { type: string; name: string; sql: string }[];
  const counted = rows.filter(
    ({ type }) => version === steps.length || (type !== 'trigger' && type !== 'view'),
  );
  return new Map(counted.map(({ type, name, sql }) => [`${type} ${name}`, sql]));
}

function codeOf(error: unknown): string {
  if (error instanceof Error && 'code' in error && typeof error.code === 'string') return error.code;
  return error instanceof Error ? error.name : 'unknown';
}
