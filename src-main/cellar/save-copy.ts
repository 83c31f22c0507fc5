import { existsSync, renameSync, rmSync, statSync } from 'node:fs';
import { dirname, isAbsolute, resolve } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import BetterSqlite from 'better-sqlite3';
import type { Progress } from '#core/contract/cellar.ts';
import { FileRefused, refusalFrom } from './file-refused.ts';
import type { OpenCellar } from './open-cellar.ts';

const PAGES_A_STEP = 400;

/**
 * Writes a whole copy of the cellar by SQLite's online backup, under a passing name first and then, checked, under
 * its own. Nothing is ever written over. Stopped or failed, it leaves nothing behind.
 */
export async function* saveCopy(
  cellar: OpenCellar,
  path: string,
  signal: AbortSignal | undefined,
): AsyncGenerator<Progress, { file: string; bytes: number }, void> {
  const file = isAbsolute(path) ? path : resolve(dirname(cellar.file), path);
  const partial = `${file}.partial`;
  refuseBadTarget(file);
  let reached: Progress = { what: 'copy', done: 0, total: 1 };
  let failed: unknown = null;
  let finished = false;
  const running = cellar.sqlite
    .backup(partial, {
      progress: ({ totalPages, remainingPages }) => {
        signal?.throwIfAborted();
        reached = { what: 'copy', done: totalPages - remainingPages, total: Math.max(1, totalPages) };
        return PAGES_A_STEP;
      },
    })
    .catch((error: unknown) => {
      failed = error;
    })
    .finally(() => {
      finished = true;
    });
  try {
    while (!finished) {
      yield reached;
      await Promise.race([running, setTimeout(60)]);
    }
    signal?.throwIfAborted();
    if (failed !== null) throw new FileRefused(refusalFrom(failed, file));
    yield { ...reached, done: reached.total };
    makePlainFile(partial, file);
    if (existsSync(file)) throw new FileRefused({ type: 'AlreadyThere', file });
    renameSync(partial, file);
    return { file, bytes: statSync(file).size };
  } finally {
    await running;
    for (const end of ['', '-wal', '-shm', '-journal']) rmSync(`${partial}${end}`, { force: true });
  }
}

function refuseBadTarget(file: string): void {
  if (existsSync(file)) throw new FileRefused({ type: 'AlreadyThere', file });
  const folder = statSync(dirname(file), { throwIfNoEntry: false });
  if (folder === undefined) throw new FileRefused({ type: 'FolderMissing', file });
  if (!folder.isDirectory()) throw new FileRefused({ type: 'BadPath', file });
}

/** A backup stays in WAL mode; a copy to carry away is one plain file, and is read through once before it is called done. */
function makePlainFile(partial: string, file: string): void {
  try {
    const copy = new BetterSqlite(partial);
    try {
      copy.pragma('journal_mode = DELETE');
      const answer = copy.pragma('quick_check(1)', { simple: true });
      if (answer !== 'ok') throw new FileRefused({ type: 'Damaged', file, detail: String(answer) });
    } finally {
      copy.close();
    }
  } catch (error) {
    if (error instanceof FileRefused) throw error;
    throw new FileRefused(refusalFrom(error, file));
  }
}
