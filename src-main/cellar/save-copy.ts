import { randomBytes } from 'node:crypto';
import { accessSync, constants, existsSync, renameSync, rmSync, statSync } from 'node:fs';
import { basename, dirname, isAbsolute, join, resolve } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import BetterSqlite from 'better-sqlite3';
import type { Progress } from '#core/contract/cellar.ts';
import { FileRefused, refusalFrom } from './file-refused.ts';
import type { OpenCellar } from './open-cellar.ts';

const PAGES_A_STEP = 400;
const SQLITE_ENDS = ['-wal', '-shm', '-journal'];

/**
 * Writes a whole copy of the cellar by SQLite's online backup, under a passing name first and then, checked, under
 * its own. Nothing is ever written over, nor thrown away but what was made here. Stopped, failed, or overtaken by the
 * closing of the cellar, it leaves nothing behind.
 */
export async function* saveCopy(
  cellar: OpenCellar,
  path: string,
  signal: AbortSignal | undefined,
): AsyncGenerator<Progress, { file: string; bytes: number }, void> {
  const file = isAbsolute(path) ? path : resolve(dirname(cellar.file), path);
  refuseBadTarget(file, cellar.file);
  const partial = passingName(file);
  const stop = signal === undefined ? cellar.closing : AbortSignal.any([cellar.closing, signal]);
  let reached: Progress = { what: 'copy', done: 0, total: 1 };
  const backup: { finished: boolean; failed: unknown } = { finished: false, failed: null };
  const running = cellar.sqlite
    .backup(partial, {
      progress: ({ totalPages, remainingPages }) => {
        stop.throwIfAborted();
        reached = { what: 'copy', done: totalPages - remainingPages, total: Math.max(1, totalPages) };
        return PAGES_A_STEP;
      },
    })
    .catch((error: unknown) => {
      backup.failed = error;
    })
    .finally(() => {
      backup.finished = true;
    });
  try {
    while (!backup.finished) {
      yield reached;
      await Promise.race([running, setTimeout(60)]);
    }
    signal?.throwIfAborted();
    if (cellar.closing.aborted) throw new FileRefused({ type: 'OtherFault', file, detail: 'CELLAR_CLOSED' });
    if (backup.failed !== null) throw refused(backup.failed, file);
    yield { ...reached, done: reached.total };
    giveItsName(partial, file);
    return { file, bytes: statSync(file).size };
  } finally {
    await running;
    for (const end of ['', ...SQLITE_ENDS]) rmSync(`${partial}${end}`, { force: true });
  }
}

/** A name beside the target that nothing has: short, so that it is no longer than the target's own may be. */
export function passingName(file: string): string {
  const random = randomBytes(6).toString('hex');
  return join(dirname(file), `${basename(file).slice(0, 40)}.${random}.partial`);
}

/** @throws FileRefused when there is something there already, or nothing can be written there */
export function refuseBadTarget(file: string, cellarFile: string): void {
  try {
    // The names beside a cellar are SQLite's own: what lies there is taken for a part of it.
    const besideCellar = SQLITE_ENDS.some((end) => file === `${cellarFile}${end}`);
    if (besideCellar || file.includes('\0')) throw new FileRefused({ type: 'BadPath', file });
    if (statSync(file, { throwIfNoEntry: false }) !== undefined) {
      throw new FileRefused({ type: 'AlreadyThere', file });
    }
    const folder = statSync(dirname(file), { throwIfNoEntry: false });
    if (folder === undefined) throw new FileRefused({ type: 'FolderMissing', file });
    if (!folder.isDirectory()) throw new FileRefused({ type: 'BadPath', file });
    accessSync(dirname(file), constants.W_OK);
  } catch (error) {
    throw refused(error, file);
  }
}

/** A backup stays in WAL mode; a copy to carry away is one plain file, and is read through once before it is called done. */
function giveItsName(partial: string, file: string): void {
  try {
    const copy = new BetterSqlite(partial);
    try {
      copy.pragma('journal_mode = DELETE');
      const answer = copy.pragma('quick_check(1)', { simple: true });
      if (answer !== 'ok') throw new FileRefused({ type: 'Damaged', file, detail: String(answer) });
    } finally {
      copy.close();
    }
    if (existsSync(file)) throw new FileRefused({ type: 'AlreadyThere', file });
    renameSync(partial, file);
  } catch (error) {
    throw refused(error, file);
  }
}

function refused(error: unknown, file: string): FileRefused {
  return error instanceof FileRefused ? error : new FileRefused(refusalFrom(error, file));
}
