import { statSync } from 'node:fs';
import { dirname, isAbsolute, resolve } from 'node:path';
import BetterSqlite from 'better-sqlite3';
import type { Progress } from '#core/contract/cellar.ts';
import { copyOnline } from './copy-online.ts';
import { FileRefused, refusalFrom } from './file-refused.ts';
import type { OpenCellar } from './open-cellar.ts';
import { giveItsName, passingName, refuseBadTarget, throwAway } from './write-aside.ts';

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
  try {
    yield* copyOnline(cellar, partial, stop);
    checkAndName(partial, file);
    return { file, bytes: statSync(file).size };
  } catch (error) {
    if (signal?.aborted === true) throw error;
    if (cellar.closing.aborted) throw new FileRefused({ type: 'OtherFault', file, detail: 'CELLAR_CLOSED' });
    throw refused(error, file);
  } finally {
    throwAway(partial);
  }
}

/** A backup stays in WAL mode; a copy to carry away is one plain file, and is read through once before it is called done. */
function checkAndName(partial: string, file: string): void {
  try {
    const copy = new BetterSqlite(partial);
    try {
      copy.pragma('journal_mode = DELETE');
      const answer = copy.pragma('quick_check(1)', { simple: true });
      if (answer !== 'ok') throw new FileRefused({ type: 'Damaged', file, detail: String(answer) });
    } finally {
      copy.close();
    }
    giveItsName(partial, file);
  } catch (error) {
    throw refused(error, file);
  }
}

function refused(error: unknown, file: string): FileRefused {
  return error instanceof FileRefused ? error : new FileRefused(refusalFrom(error, file));
}
