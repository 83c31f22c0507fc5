import { existsSync, lstatSync, readdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';

/** A name of `passingName`, with what SQLite leaves beside a file. */
const PASSING = /\.[0-9a-f]{12}\.partial(?:-wal|-shm|-journal)?$/u;
/** Longer than any backup takes: what another program is just writing is left alone. */
const LEFT_MS = 86_400_000;

/** Throws away backups that were never finished, since the program was cut off: they are as large as the cellar. */
export function sweepPassing(folder: string, nowMs: number): void {
  if (!existsSync(folder)) return;
  for (const name of readdirSync(folder)) {
    if (!PASSING.test(name)) continue;
    const file = join(folder, name);
    try {
      const stat = lstatSync(file, { throwIfNoEntry: false });
      if (stat?.isFile() === true && Math.abs(nowMs - stat.mtimeMs) > LEFT_MS) rmSync(file, { force: true });
    } catch {
      // On a stick that is just being taken out, or may not be written: it is looked at again.
    }
  }
}
