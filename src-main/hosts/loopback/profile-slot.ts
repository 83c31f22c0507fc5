import { mkdirSync, readFileSync, readlinkSync, rmSync, writeFileSync } from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';

/** A browser profile of our own, kept from start to start so that the window comes back where it stood. */
export interface ProfileSlot {
  readonly folder: string;
  /**
   * The port its last window used. A browser keeps what a page put by (drafts, the chosen view) under the address with
   * its port, so the same profile should meet the same port again.
   */
  readonly keptPort: number | undefined;
  keepPort(port: number): void;
  release(): void;
}

const slotsMax = 64;

/**
 * Claims the first free profile under a folder. A browser hands a second window on the same profile to the running one
 * and ends at once, which would look as if the window had been closed; so two running Undercrofts never share one.
 *
 * @param parent folder of the profiles; made when missing
 * @param isRunning whether a process of this id runs
 */
export function claimProfileSlot(
  parent: string,
  isRunning: (pid: number) => boolean = isProcess,
): ProfileSlot {
  for (let number = 1; number <= slotsMax; number += 1) {
    const folder = join(parent, String(number));
    mkdirSync(folder, { recursive: true });
    const lock = join(folder, 'undercroft.lock');
    if (browserHolds(folder, isRunning) || !takeLock(lock, isRunning)) continue;
    const portFile = join(folder, 'undercroft.port');
    return {
      folder,
      keptPort: readPort(portFile),
      keepPort(port) {
        writeFileSync(portFile, String(port));
      },
      release() {
        rmSync(lock, { force: true });
      },
    };
  }
  throw new Error(`All ${String(slotsMax)} window profiles in ${parent} are in use.`);
}

function readPort(file: string): number | undefined {
  try {
    const port = Number(readFileSync(file, 'utf8'));
    return Number.isInteger(port) && port >= 1024 && port <= 65535 ? port : undefined;
  } catch {
    return undefined; // The first window of this profile.
  }
}

function takeLock(lock: string, isRunning: (pid: number) => boolean): boolean {
  try {
    writeFileSync(lock, String(process.pid), { flag: 'wx' });
    return true;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error;
  }
  const holder = Number(readFileSync(lock, 'utf8'));
  if (Number.isInteger(holder) && holder > 0 && isRunning(holder)) return false;
  writeFileSync(lock, String(process.pid));
  return true;
}

/** A browser left over from a program that was killed; Chromium names its process in a link called SingletonLock. */
function browserHolds(folder: string, isRunning: (pid: number) => boolean): boolean {
  let target: string;
  try {
    target = readlinkSync(join(folder, 'SingletonLock'));
  } catch {
    return false; // No such link: no browser, or a system where Chromium uses none.
  }
  const at = target.lastIndexOf('-');
  const elsewhere = target.slice(0, at) !== hostname();
  return elsewhere || isRunning(Number(target.slice(at + 1)));
}

function isProcess(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}
