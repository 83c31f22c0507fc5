import { constants, copyFileSync, existsSync, linkSync, renameSync, rmSync } from 'node:fs';
import { dirname } from 'node:path';
import { syncFolder } from '../platform/sync-folder.ts';
import { SQLITE_ENDS } from './write-aside.ts';

/** What SQLite keeps of a file's last lines; its shared memory is made anew. */
const LOGS = ['-wal', '-journal'] as const;

export interface SetAside {
  /** Where the file now lies, with its log beside it. */
  readonly aside: string;
  /** Puts it back under its name, over what was put there. */
  readonly putBack: () => void;
}

/**
 * Gives a cellar that cannot be opened a second name, so that another can take its place by one rename: whatever happens
 * meanwhile, something lies under the first name. Its log, which may hold the last lines, goes along.
 *
 * @param day ISO day for the new name
 * @throws what the file system throws; the file then lies where it lay
 */
export function setAside(file: string, day: string): SetAside {
  const aside = freeName(file, day);
  try {
    linkSync(file, aside);
  } catch {
    // A stick with a simple file system knows no second names.
    copyFileSync(file, aside, constants.COPYFILE_EXCL);
  }
  for (const end of LOGS) move(`${file}${end}`, `${aside}${end}`);
  rmSync(`${file}-shm`, { force: true });
  syncFolder(dirname(file));
  return {
    aside,
    putBack: () => {
      for (const end of SQLITE_ENDS) rmSync(`${file}${end}`, { force: true });
      renameSync(aside, file);
      for (const end of LOGS) move(`${aside}${end}`, `${file}${end}`);
      syncFolder(dirname(file));
    },
  };
}

function move(from: string, to: string): void {
  if (existsSync(from)) renameSync(from, to);
}

/** `cellar.undercroft` becomes `cellar.set-aside-2026-11-28.undercroft`, with a number behind the day where that is taken. */
function freeName(file: string, day: string): string {
  const dot = /\.undercroft$/u.exec(file)?.index ?? file.length;
  for (let nth = 1; ; nth += 1) {
    const tail = nth === 1 ? day : `${day}-${String(nth)}`;
    const name = `${file.slice(0, dot)}.set-aside-${tail}${file.slice(dot)}`;
    if (['', ...SQLITE_ENDS].every((end) => !existsSync(`${name}${end}`))) return name;
  }
}
