import { accessSync, closeSync, constants, existsSync, openSync, readSync, statSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import BetterSqlite from 'better-sqlite3';
import type { Database } from 'better-sqlite3';
import { drizzle, type BetterSQLite3Database } from 'drizzle-orm/better-sqlite3';
import { CELLAR_APPLICATION_ID } from './cellar-header.ts';
import { CellarGone, CellarHeldStill } from './cellar-gone.ts';
import { errorCode, FileRefused, refusalFrom } from './file-refused.ts';
import { migrate, readMigrations, type Migrations } from './migrate.ts';
import { isBeingReplaced, realPlace, sweepReplacing } from './replace-cellar.ts';

export { CELLAR_APPLICATION_ID };
const HEADER_BYTES = 100;

/** An open cellar file: held for writing by this program alone until closed. */
export interface OpenCellar {
  readonly file: string;
  readonly sqlite: Database;
  readonly db: BetterSQLite3Database;
  readonly fileVersion: number;
  /** Aborted when the file is being closed, so that long work on it stops. */
  readonly closing: AbortSignal;
  /**
   * Asked before anything is written. Throws `CellarGone` when what lies under its name is no longer the file that was opened,
   * `CellarHeldStill` while a backup is being put in its place.
   */
  readonly refuseWriting: () => void;
  /** Refuses all writing until what it answers is called, or the file is closed. */
  readonly holdStill: () => () => void;
  close(): void;
}

/**
 * The files this process holds, by device and inode. On POSIX, closing any descriptor of a file gives up every lock the
 * process has on it (fcntl(2)), so a file held here is not even looked at again, by whatever path it is named.
 */
const held = new Set<string>();

/** Whether this process holds a file open as a cellar: then nothing else here may open or close it, not even to look. */
export function isHeld(path: string): boolean {
  return held.has(fileIdentity(path) ?? '');
}

/** What tells one file from another whatever path it is named by; null when there is none. Opens nothing. */
export function fileIdentity(path: string): string | null {
  const stat = statSync(path, { bigint: true, throwIfNoEntry: false });
  return stat === undefined ? null : `${stat.dev}:${stat.ino}`;
}

/**
 * Opens a cellar file, making it when there is none, and brings it to the newest version.
 *
 * Throws `FileRefused` (and leaves the file untouched) for a file that is not a cellar, is from a newer version,
 * is damaged, is held by another program, or lies where nothing can be written.
 */
export function openCellar(
  path: string,
  migrations: Migrations = readMigrations(),
  copyBefore: CopyBefore = leaveCopy,
): OpenCellar {
  const file = resolve(path);
  try {
    lookBeforeOpening(file, migrations.steps.length);
    const sqlite = new BetterSqlite(file, { timeout: 200 });
    try {
      return takeHold(file, sqlite, migrations, copyBefore);
    } catch (error) {
      sqlite.close();
      throw error;
    }
  } catch (error) {
    throw error instanceof FileRefused ? error : new FileRefused(refusalFrom(error, file));
  }
}

function takeHold(
  file: string,
  sqlite: Database,
  migrations: Migrations,
  copyBefore: CopyBefore,
): OpenCellar {
  // Exclusive locking keeps a second program out for as long as this one runs; the lock goes with the process.
  sqlite.pragma('locking_mode = EXCLUSIVE');
  sqlite.exec('BEGIN EXCLUSIVE; COMMIT;');
  // Another program has closed it for a moment, to put a restored cellar in its place.
  if (isBeingReplaced(realPlace(file))) throw new FileRefused({ type: 'InUse', file });
  const isNew = (sqlite.prepare('SELECT COUNT(*) FROM sqlite_schema').pluck().get() as number) === 0;
  sqlite.pragma('journal_mode = WAL');
  sqlite.pragma('synchronous = FULL');
  sqlite.pragma('foreign_keys = ON');
  sqlite.pragma('trusted_schema = OFF');
  if (isNew) sqlite.pragma(`application_id = ${CELLAR_APPLICATION_ID}`);
  const from = migrateSafely(sqlite, migrations, file, copyBefore);
  if (from < migrations.steps.length) sqlite.pragma('wal_checkpoint(TRUNCATE)');
  const identity = fileIdentity(file) ?? '';
  held.add(identity);
  sweepReplacing(realPlace(file));
  const closing = new AbortController();
  let still = false;
  return {
    ...{ file, sqlite, db: drizzle(sqlite), fileVersion: migrations.steps.length, closing: closing.signal },
    refuseWriting: () => {
      if (fileIdentity(file) !== identity) throw new CellarGone(file);
      if (still) throw new CellarHeldStill(file);
    },
    holdStill: () => {
      still = true;
      sqlite.pragma('query_only = ON');
      return () => {
        still = false;
        if (sqlite.open) sqlite.pragma('query_only = OFF');
      };
    },
    close: () => {
      if (!sqlite.open) return;
      closing.abort();
      try {
        sqlite.pragma('wal_checkpoint(TRUNCATE)');
      } catch (error) {
        // What is in the log and cannot be taken into the file now is taken in at the next opening.
        if (notTakenNow(error)) return;
        throw error;
      } finally {
        sqlite.close();
        held.delete(identity);
      }
    },
  };
}

function notTakenNow(error: unknown): boolean {
  return /^SQLITE_(?:FULL|IOERR|READONLY|BUSY)/u.test(errorCode(error));
}

/** Leaves a whole copy of a file with data before its version is raised. */
export type CopyBefore = (sqlite: Database, file: string, newVersion: number) => void;

/** Beside the file itself. */
export const leaveCopy: CopyBefore = (sqlite, file, newVersion) => {
  const copy = `${file}.before-version-${newVersion}`;
  if (!existsSync(copy)) sqlite.prepare('VACUUM INTO ?').run(copy);
};

/** For a file that is itself a copy. */
export const leaveNoCopy: CopyBefore = () => undefined;

function migrateSafely(
  sqlite: Database,
  migrations: Migrations,
  file: string,
  copyBefore: CopyBefore,
): number {
  const version = sqlite.pragma('user_version', { simple: true }) as number;
  const newest = migrations.steps.length;
  if (version > 0 && version < newest) copyBefore(sqlite, file, newest);
  return migrate(sqlite, migrations, file);
}

/** Reads the header as plain bytes, so that a foreign file is never opened by SQLite at all. */
function lookBeforeOpening(file: string, newest: number): void {
  const stat = statSync(file, { throwIfNoEntry: false });
  if (stat === undefined) {
    if (!existsSync(dirname(file))) throw new FileRefused({ type: 'FolderMissing', file });
    accessSync(dirname(file), constants.W_OK);
    return;
  }
  if (!stat.isFile()) throw new FileRefused({ type: 'BadPath', file });
  if (isHeld(file)) throw new FileRefused({ type: 'InUse', file });
  accessSync(file, constants.R_OK | constants.W_OK);
  accessSync(dirname(file), constants.W_OK);
  if (stat.size === 0) return;
  const header = readHeader(file);
  const isSqlite = header.subarray(0, 16).toString('latin1') === 'SQLite format 3\0';
  if (!isSqlite || header.length < HEADER_BYTES || header.readUInt32BE(68) !== CELLAR_APPLICATION_ID) {
    throw new FileRefused({ type: 'NotACellar', file });
  }
  const fileVersion = header.readUInt32BE(60);
  if (fileVersion > newest) {
    throw new FileRefused({ type: 'NewerVersion', file, fileVersion, programVersion: newest });
  }
}

function readHeader(file: string): Buffer {
  const header = Buffer.alloc(HEADER_BYTES);
  const handle = openSync(file, 'r');
  try {
    return header.subarray(0, readSync(handle, header, 0, HEADER_BYTES, 0));
  } finally {
    closeSync(handle);
  }
}
