import { setTimeout } from 'node:timers/promises';
import type { Progress } from '#core/contract/cellar.ts';
import { beginPassing } from './write-aside.ts';
import type { OpenCellar } from './open-cellar.ts';

const PAGES_A_STEP = 400;
const LOOK_EVERY_MS = 60;

/**
 * SQLite's online backup into a file, some pages at a time; what the keeper writes meanwhile comes along. Its copy stays in the
 * mode the cellar is in, with a log, and nothing of it has been read again. The file is made here; nothing may be there.
 *
 * @throws the reason of `stop` when that came, whatever else went wrong; else what SQLite threw
 */
export async function* copyOnline(
  cellar: Pick<OpenCellar, 'sqlite'>,
  target: string,
  stop: AbortSignal,
): AsyncGenerator<Progress, void, void> {
  beginPassing(target);
  let reached: Progress = { what: 'copy', done: 0, total: 1 };
  const backup: { finished: boolean; failed: Error | null } = { finished: false, failed: null };
  const running = cellar.sqlite
    .backup(target, {
      progress: ({ totalPages, remainingPages }) => {
        stop.throwIfAborted();
        reached = { what: 'copy', done: totalPages - remainingPages, total: Math.max(1, totalPages) };
        return PAGES_A_STEP;
      },
    })
    .catch((error: unknown) => {
      backup.failed = error instanceof Error ? error : new Error(String(error));
    })
    .finally(() => {
      backup.finished = true;
    });
  try {
    while (!backup.finished) {
      yield reached;
      await Promise.race([running, setTimeout(LOOK_EVERY_MS)]);
    }
  } finally {
    // Also when who asked goes away in the middle: the file must not be thrown away under SQLite's hands.
    await running;
  }
  stop.throwIfAborted();
  if (backup.failed !== null) throw backup.failed;
  yield { ...reached, done: reached.total };
}
