import { copyFileSync, existsSync, lstatSync, mkdtempSync, readdirSync, renameSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, isAbsolute, join, resolve } from 'node:path';
import type { Clock, NewId } from '#core/base/ports.ts';
import type { FileRefusal } from '#core/contract/cellar.ts';
import { isRunning } from '../platform/is-running.ts';
import { syncFolder } from '../platform/sync-folder.ts';
import { SAMPLE_NOW_MS, writeSample } from './sample-cellar.ts';
import { openServices, type CellarServices } from './cellar-services.ts';
import { errorCode, FileRefused, refusalFrom } from './file-refused.ts';
import { fileIdentity, openCellar, type CopyBefore } from './open-cellar.ts';
import { realPlace, replaceCellar } from './replace-cellar.ts';
import { openSession } from './session.ts';
import { setAside } from './set-aside.ts';

/** The one cellar lying open on the desk, and the ways of opening another. The old one is closed only when the new one is open. */
export interface CellarDesk {
  readonly services: CellarServices;
  /**
   * Why a cellar is not open, where something can be done about it here: the home cellar that could not be opened, or one in
   * which a check found faults. An empty cellar that takes no writing then lies open in its stead. Null once another is open.
   */
  readonly unopened: FileRefusal | null;
  /** Opens a cellar by its whole path; one that is not there is begun only when `begin` says so. */
  open(file: string, begin: boolean): void;
  openSample(): void;
  openHome(): void;
  /**
   * Puts a finished cellar file, which lies beside it, in the place of the open one: whatever happens, the old or the new
   * lies there whole and is open again.
   */
  replace(candidate: string): void;
  /**
   * Closes the open cellar, in which a check found faults, and lets a stand-in lie open until it is put right or opened again.
   */
  standAside(): void;
  /**
   * Puts a finished cellar file in the place of the one that is unopened, and opens it.
   *
   * @returns where the one that was unopened now lies
   */
  putRight(candidate: string): string;
  close(): void;
}

export interface DeskOptions {
  readonly home: string;
  /** Called before the home cellar is opened, at the start or on the way back from another. */
  readonly beforeHome?: () => void;
  readonly demo: boolean;
  /** A sample told before, whole in one file: it is copied instead of being told anew. */
  readonly toldSample?: string;
  readonly clock: Clock;
  readonly newId: NewId;
  /** What is left of a file before it is brought to a new version. */
  readonly copyBefore?: CopyBefore;
}

interface OnTheDesk {
  readonly services: CellarServices;
  /** Folder of a sample, thrown away when it is closed. */
  readonly throwAway: string | null;
  readonly clock: Clock;
}

/** Throws `FileRefused` when the first cellar cannot be opened. */
export function openDesk(options: DeskOptions): CellarDesk {
  const { home, beforeHome, demo, toldSample, clock, newId, copyBefore } = options;
  const openFile = (file: string): OnTheDesk => {
    const cellar = openCellar(file, undefined, copyBefore);
    try {
      return { services: openServices(openSession(cellar, clock, newId)), throwAway: null, clock };
    } catch (error) {
      cellar.close();
      throw isDamage(error) ? new FileRefused(refusalFrom(error, file)) : error;
    }
  };
  const openAtHome = (): OnTheDesk => {
    beforeHome?.();
    return openFile(home);
  };
  const openSampleCopy = (): OnTheDesk => {
    sweepSamples();
    const folder = mkdtempSync(join(tmpdir(), `${SAMPLE_FOLDER}${process.pid}-`));
    const startedAt = clock();
    // The sample's year ends on a set day; from there its clock runs on as the real one does.
    let toldAtMs: number | null = null;
    const sampleClock: Clock = () => toldAtMs ?? SAMPLE_NOW_MS + (clock() - startedAt);
    const file = join(folder, 'sample.undercroft');
    if (toldSample !== undefined) copyFileSync(toldSample, file);
    const services = openServices(openSession(openCellar(file), sampleClock, newId));
    if (toldSample === undefined) {
      writeSample(services, (nowMs) => {
        toldAtMs = nowMs;
      });
    }
    return { services, throwAway: folder, clock: sampleClock };
  };
  let unopened: FileRefusal | null = null;
  /** An empty cellar that takes no writing, while the home cellar is to be put right. */
  const openStandIn = (): OnTheDesk => {
    sweepSamples();
    const folder = mkdtempSync(join(tmpdir(), `${SAMPLE_FOLDER}${process.pid}-`));
    const opened = openFile(join(folder, 'stand-in.undercroft'));
    opened.services.session.cellar.holdStill();
    return { ...opened, throwAway: folder };
  };
  /** The home cellar, or a stand-in that says why it is not the home cellar. */
  const openHomeOrStandIn = (): OnTheDesk => {
    try {
      return openAtHome();
    } catch (error) {
      if (!(error instanceof FileRefused) || !canBePutRight(error.refusal)) throw error;
      const standIn = openStandIn();
      unopened = error.refusal;
      return standIn;
    }
  };
  const putAway = ({ services, throwAway }: OnTheDesk): void => {
    services.session.cellar.close();
    if (throwAway !== null) rmSync(throwAway, { recursive: true, force: true });
  };

  let current = demo ? openSampleCopy() : openHomeOrStandIn();
  const swap = (openNext: () => OnTheDesk): void => {
    const last = current;
    current = openNext();
    unopened = null;
    putAway(last);
  };
  /** True for the open file by whatever path it is named: through a link, or in other letters where those do not count. */
  const isOpen = (file: string): boolean => {
    const open = current.services.session.cellar.file;
    const identity = fileIdentity(file);
    return file === open || (identity !== null && identity === fileIdentity(open));
  };
  return {
    get services() {
      return current.services;
    },
    get unopened() {
      return unopened;
    },
    open(file, begin) {
      if (!isAbsolute(file)) throw new FileRefused({ type: 'BadPath', file });
      const full = resolve(file);
      if (full.includes('\0')) throw new FileRefused({ type: 'BadPath', file });
      if (!begin && !existsSync(full)) throw new FileRefused({ type: 'NoSuchFile', file: full });
      if (isOpen(full)) return;
      swap(() => openFile(full));
    },
    openSample: () => {
      swap(openSampleCopy);
    },
    openHome: () => {
      if (!isOpen(home)) swap(openAtHome);
    },
    replace(candidate) {
      const last = current;
      const { file } = last.services.session.cellar;
      replaceCellar({
        ...{ file: realPlace(file), candidate },
        close: () => {
          last.services.session.cellar.close();
        },
        open: () => {
          const session = openSession(openCellar(file), last.clock, newId);
          try {
            current = { ...last, services: openServices(session) };
          } catch (error) {
            session.cellar.close();
            throw error;
          }
        },
      });
    },
    standAside() {
      const { file } = current.services.session.cellar;
      swap(openStandIn);
      unopened = { type: 'Damaged', file, detail: FOUND_BY_CHECK };
    },
    putRight(candidate) {
      const wanted = unopened?.file ?? home;
      const file = realPlace(wanted);
      const { aside, putBack } = setAside(file, new Date(clock()).toISOString().slice(0, 10));
      try {
        renameSync(candidate, file);
        syncFolder(dirname(file));
        swap(() => openFile(wanted));
      } catch (error) {
        putBack();
        throw error;
      }
      return aside;
    },
    close: () => {
      putAway(current);
    },
  };
}

/** The code of damage that a check found in a cellar that opens. */
const FOUND_BY_CHECK = 'CHECK';

/** What the file itself is to blame for, and not the moment. */
function isDamage(error: unknown): boolean {
  return /^SQLITE_(?:CORRUPT|NOTADB)|^(?:Zod|Syntax)/u.test(errorCode(error));
}

/** A file that was named by a slip is no cellar and never was: there is nothing to put right, and the terminal says so. */
function canBePutRight({ type, file }: FileRefusal): boolean {
  return (
    type === 'Damaged' || type === 'NewerVersion' || (type === 'NotACellar' && file.endsWith('.undercroft'))
  );
}

const SAMPLE_FOLDER = 'undercroft-sample-';

/** Samples left by programs that were killed are thrown away; those of programs still running, or of other people, are not touched. */
function sweepSamples(): void {
  for (const name of readdirSync(tmpdir())) {
    const pid = new RegExp(`^${SAMPLE_FOLDER}(\\d+)-`).exec(name)?.[1];
    const folder = join(tmpdir(), name);
    if (pid !== undefined && !isRunning(Number(pid)) && isOurs(folder))
      rmSync(folder, { recursive: true, force: true });
  }
}

/** Whether a folder belongs to who runs this program; true where the system does not say, as on Windows. */
function isOurs(folder: string): boolean {
  const stat = lstatSync(folder, { throwIfNoEntry: false });
  return stat !== undefined && (process.getuid === undefined || stat.uid === process.getuid());
}
