import { randomBytes } from 'node:crypto';
import {
  existsSync,
  linkSync,
  readFileSync,
  readdirSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { isRunning } from '../platform/is-running.ts';
import { syncFolder } from '../platform/sync-folder.ts';
import { FileRefused } from './file-refused.ts';

// A cellar is replaced by one rename: whatever happens, there is the old file or the new one under its name, never a part
// of either. Everything before the rename happens under names that are swept at the next opening.

/** Where a file truly lies when its name is a link: SQLite keeps its log there, and a rename must not take the link's place. */
export function realPlace(file: string): string {
  try {
    return realpathSync(file);
  } catch {
    return file;
  }
}

/** A name beside a cellar for the file that is to take its place. */
export function candidateName(file: string): string {
  return `${file}.restoring-${randomBytes(6).toString('hex')}`;
}

const MARK_LASTS_MS = 10 * 60_000;

/** Says that this program is about to put another file in the place of one that it closes. */
const markOf = (file: string): string => `${file}.replacing`;

/**
 * Puts a finished cellar file in the place of another, which `close` closes and `open` opens again.
 *
 * @throws what `open` throws, after putting the old file back where the file system allows it
 */
export function replaceCellar(parts: {
  readonly file: string;
  readonly candidate: string;
  readonly close: () => void;
  readonly open: () => void;
}): void {
  const { file, candidate, close, open } = parts;
  const kept = `${file}.replaced-${randomBytes(6).toString('hex')}`;
  writeFileSync(markOf(file), String(process.pid));
  try {
    close();
    refuseLeftLog(file, open);
    const isKept = keepBeside(file, kept);
    try {
      renameSync(candidate, file);
    } catch (error) {
      open();
      throw error;
    }
    syncFolder(dirname(file));
    try {
      open();
    } catch (error) {
      if (!isKept) throw error;
      renameSync(kept, file);
      open();
      throw error;
    }
  } finally {
    rmSync(kept, { force: true });
    rmSync(markOf(file), { force: true });
  }
}

/** A log that was not taken into the old file would be read into the new one. */
function refuseLeftLog(file: string, open: () => void): void {
  if ((statSync(`${file}-wal`, { throwIfNoEntry: false })?.size ?? 0) === 0) {
    rmSync(`${file}-wal`, { force: true });
    rmSync(`${file}-shm`, { force: true });
    return;
  }
  open();
  throw new FileRefused({ type: 'OtherFault', file, detail: 'LOG_NOT_CLOSED' });
}

/** A second name for the old file until the new one has been opened; a stick with a simple file system knows none. */
function keepBeside(file: string, kept: string): boolean {
  try {
    linkSync(file, kept);
    return true;
  } catch {
    return false;
  }
}

/** Whether another program that still runs is putting a file in the place of this one. */
export function isBeingReplaced(file: string): boolean {
  const mark = markOf(file);
  if (!existsSync(mark)) return false;
  const pid = Number(readFileSync(mark, 'utf8'));
  // A number may long be another program's; putting a file in place takes moments.
  if (Math.abs(Date.now() - statSync(mark).mtimeMs) > MARK_LASTS_MS) return false;
  return Number.isInteger(pid) && pid > 0 && pid !== process.pid && isRunning(pid);
}

/** Throws away what a restoring that was cut off left beside a cellar. Called with the cellar held. */
export function sweepReplacing(file: string): void {
  const names = new RegExp(`^(?:restoring|replaced)-[0-9a-f]{12}(?:-wal|-shm|-journal)?$`);
  const start = `${basename(file)}.`;
  for (const name of readdirSync(dirname(file))) {
    if (!name.startsWith(start)) continue;
    const rest = name.slice(start.length);
    if (names.test(rest) || rest === 'replacing') rmSync(join(dirname(file), name), { force: true });
  }
}
