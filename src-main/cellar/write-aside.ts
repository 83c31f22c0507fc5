import { randomBytes } from 'node:crypto';
import {
  accessSync,
  closeSync,
  constants,
  existsSync,
  linkSync,
  openSync,
  renameSync,
  rmSync,
  statSync,
} from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { syncFolder } from '../platform/sync-folder.ts';
import { errorCode, FileRefused, refusalFrom } from './file-refused.ts';

// What is written whole is written under a passing name beside its target, and renamed when it is finished and proven.

/** What SQLite leaves beside a file, under its name with one of these behind it. */
export const SQLITE_ENDS = ['-wal', '-shm', '-journal'] as const;

/** A name beside the target that nothing has: short, so that it is no longer than the target's own may be. */
export function passingName(file: string): string {
  const random = randomBytes(6).toString('hex');
  return join(dirname(file), `${basename(file).slice(0, 40)}.${random}.partial`);
}

/**
 * @param cellarFile a cellar beside which SQLite's own names are no places for a file; null when none can be meant
 *
 * @throws FileRefused when there is something there already, or nothing can be written there
 */
export function refuseBadTarget(file: string, cellarFile: string | null): void {
  try {
    // The names beside a cellar are SQLite's own: what lies there is taken for a part of it.
    const besideCellar = cellarFile !== null && SQLITE_ENDS.some((end) => file === `${cellarFile}${end}`);
    if (besideCellar || file.includes('\0')) throw new FileRefused({ type: 'BadPath', file });
    if (statSync(file, { throwIfNoEntry: false }) !== undefined) {
      throw new FileRefused({ type: 'AlreadyThere', file });
    }
    // A log that lies beside the name would be taken by SQLite for the new file's own, and read into it.
    const log = SQLITE_ENDS.map((end) => `${file}${end}`).find((there) => existsSync(there));
    if (log !== undefined) throw new FileRefused({ type: 'AlreadyThere', file: log });
    const folder = statSync(dirname(file), { throwIfNoEntry: false });
    if (folder === undefined) throw new FileRefused({ type: 'FolderMissing', file });
    if (!folder.isDirectory()) throw new FileRefused({ type: 'BadPath', file });
    accessSync(dirname(file), constants.W_OK);
  } catch (error) {
    throw error instanceof FileRefused ? error : new FileRefused(refusalFrom(error, file));
  }
}

/** Makes the empty file that is then written: for the keeper alone from its first byte on, where the file system knows such a thing. */
export function beginPassing(passing: string): void {
  closeSync(openSync(passing, 'wx', 0o600));
}

/**
 * Gives a finished file its name, and brings that to the disk. What came to lie there in the meantime is not written over.
 *
 * @throws FileRefused
 */
export function giveItsName(passing: string, file: string): void {
  try {
    linkSync(passing, file);
    rmSync(passing);
  } catch (error) {
    if (errorCode(error) === 'EEXIST') throw new FileRefused({ type: 'AlreadyThere', file });
    // A stick with a simple file system knows no second names.
    if (statSync(file, { throwIfNoEntry: false }) !== undefined)
      throw new FileRefused({ type: 'AlreadyThere', file });
    renameSync(passing, file);
  }
  syncFolder(dirname(file));
}

/** Throws away what was written under a passing name, with what SQLite left beside it. */
export function throwAway(passing: string): void {
  for (const end of ['', ...SQLITE_ENDS]) {
    try {
      rmSync(`${passing}${end}`, { force: true });
    } catch {
      // Why it was to be thrown away is what counts; a name below what is no folder cannot be there at all.
    }
  }
}
