import {
  closeSync,
  existsSync,
  fsyncSync,
  mkdirSync,
  openSync,
  renameSync,
  rmSync,
  writeSync,
} from 'node:fs';
import { dirname, isAbsolute, join, resolve } from 'node:path';
import { FileRefused, refusalFrom } from '../cellar/file-refused.ts';
import { passingName, refuseBadTarget } from '../cellar/write-aside.ts';

/** Where something is written that was taken out: under a passing name until it is whole, never over anything. */
export interface OutFile {
  /** Begins a file: the one that was asked for, or one of the folder. */
  begin(name: string): void;
  write(text: string): void;
  writeBytes(bytes: Buffer): void;
  /** Throws away what was written so far, to begin anew. */
  again(): void;
  /** Gives it its name. */
  finish(): { readonly file: string; readonly bytes: number };
  /** Leaves nothing behind; does nothing once it is finished. */
  abandon(): void;
}

/** @throws FileRefused when nothing can be written there */
export function openOutFile(path: string, cellarFile: string, isFolder: boolean): OutFile {
  const target = isAbsolute(path) ? resolve(path) : resolve(dirname(cellarFile), path);
  refuseBadTarget(target, cellarFile);
  if (/\.undercroft$/iu.test(target)) throw new FileRefused({ type: 'CellarsName', file: target });
  const partial = passingName(target);
  let open: number | null = null;
  let bytes = 0;
  let finished = false;
  const guarded = <T>(work: () => T): T => {
    try {
      return work();
    } catch (error) {
      throw error instanceof FileRefused ? error : new FileRefused(refusalFrom(error, target));
    }
  };
  const close = (): void => {
    if (open === null) return;
    const file = open;
    open = null;
    try {
      fsyncSync(file);
    } finally {
      closeSync(file);
    }
  };
  const writeBytes = (all: Buffer): void => {
    guarded(() => {
      if (open === null) throw new Error('no file has been begun');
      for (let done = 0; done < all.length;) done += writeSync(open, all, done);
      bytes += all.length;
    });
  };
  const clear = (): void => {
    close();
    rmSync(partial, { recursive: true, force: true });
    bytes = 0;
  };
  const makeFolder = (): void => {
    if (isFolder) mkdirSync(partial);
  };
  guarded(makeFolder);
  return {
    begin(name) {
      guarded(() => {
        close();
        open = openSync(isFolder ? join(partial, name) : partial, 'wx');
      });
    },
    write: (text) => {
      writeBytes(Buffer.from(text, 'utf8'));
    },
    writeBytes,
    again() {
      guarded(() => {
        clear();
        makeFolder();
      });
    },
    finish() {
      return guarded(() => {
        close();
        if (existsSync(target)) throw new FileRefused({ type: 'AlreadyThere', file: target });
        renameSync(partial, target);
        finished = true;
        return { file: target, bytes };
      });
    },
    abandon() {
      if (!finished) clear();
    },
  };
}
