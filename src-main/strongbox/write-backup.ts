import { randomUUID } from 'node:crypto';
import {
  accessSync,
  chmodSync,
  constants,
  existsSync,
  mkdirSync,
  renameSync,
  rmSync,
  statSync,
} from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import type { Progress } from '#core/contract/cellar.ts';
import type { VerifiedBackup } from '#core/contract/strongbox-files.ts';
import type { BackupReason } from '#core/strongbox/manifest.ts';
import type { OpenCellar } from '../cellar/open-cellar.ts';
import { passingName } from '../cellar/save-copy.ts';
import { programVersion } from '../platform/program-version.ts';
import { syncFolder } from '../platform/sync-folder.ts';
import { BackupRefused, backupRefusedFrom } from './backup-refused.ts';
import { inWorker } from './in-worker.ts';
import { selfOf } from './self-of.ts';

export interface BackupAsked {
  /** Whole path of the file; nothing may be there. */
  readonly file: string;
  readonly reason: BackupReason;
  readonly madeAtMs: number;
  /** Encrypts it; null leaves it as readable as the cellar is. */
  readonly passphrase: string | null;
  /** Where the readable copy lies that is encrypted: a folder of the program's own, never where the backup goes. */
  readonly workFolder: string;
}

const PAGES_A_STEP = 400;
const SQLITE_ENDS = ['-wal', '-shm', '-journal'];

/**
 * Makes a backup of the open cellar: SQLite's online backup under a passing name, sealed, read again from its first byte to
 * its last, opened and checked, and only then given its name. The cellar can be used meanwhile. Nothing is ever written
 * over; stopped, failed, or overtaken by the closing of the cellar, it leaves nothing behind.
 *
 * @throws BackupRefused when it cannot be written, or what was written is not sound
 */
export async function* writeBackup(
  cellar: OpenCellar,
  asked: BackupAsked,
  signal: AbortSignal | undefined,
): AsyncGenerator<Progress, VerifiedBackup, void> {
  const { file, passphrase, workFolder } = asked;
  refuseBadTarget(file);
  if (passphrase !== null) mkdirSync(workFolder, { recursive: true, mode: 0o700 });
  const plain = passphrase === null ? passingName(file) : passingName(join(workFolder, basename(file)));
  const passing = new Set([plain]);
  const stop = signal === undefined ? cellar.closing : AbortSignal.any([cellar.closing, signal]);
  try {
    yield* copyOnline(cellar, plain, stop);
    const made = { id: randomUUID(), madeAtMs: asked.madeAtMs, reason: asked.reason, programVersion };
    yield* inWorker('seal', { file: plain, made }, stop);
    const proven = yield* inWorker('verify', { file: plain }, stop);
    let ready = plain;
    if (passphrase !== null) {
      ready = passingName(file);
      passing.add(ready);
      yield* encryptAndProve({ plain, ready, passphrase, id: proven.manifest.id, workFolder }, stop);
    }
    giveItsName(ready, file);
    return {
      ...selfOf(proven.manifest, { file, bytes: statSync(file).size, encrypted: passphrase !== null }),
      ...{ parts: proven.manifest.payload.partSha256.length, entriesBalanced: proven.entriesBalanced },
    };
  } catch (error) {
    if (signal?.aborted === true) throw error;
    if (cellar.closing.aborted)
      throw new BackupRefused({ type: 'OtherFault', file, detail: 'CELLAR_CLOSED' });
    throw refusedAs(error, file);
  } finally {
    for (const name of passing) throwAway(name);
  }
}

/** SQLite's online backup, some pages at a time; what the keeper writes meanwhile comes along. */
export async function* copyOnline(
  cellar: Pick<OpenCellar, 'sqlite'>,
  target: string,
  stop: AbortSignal,
): AsyncGenerator<Progress, void, void> {
  let reached: Progress = { what: 'copy', done: 0, total: 1 };
  const backup: { finished: boolean; failed: unknown } = { finished: false, failed: null };
  const running = cellar.sqlite
    .backup(target, {
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
  } finally {
    await running;
  }
  stop.throwIfAborted();
  if (backup.failed !== null) throw backupRefusedFrom(backup.failed, target);
  yield { ...reached, done: reached.total };
}

export interface Encrypting {
  readonly plain: string;
  readonly ready: string;
  readonly passphrase: string;
  readonly id: string;
  readonly workFolder: string;
}

/** What was encrypted is decrypted again, and must be the very file it was. */
export async function* encryptAndProve(
  { plain, ready, passphrase, id, workFolder }: Encrypting,
  stop: AbortSignal,
): AsyncGenerator<Progress, void, void> {
  yield* inWorker('encrypt', { file: plain, target: ready, passphrase }, stop);
  const again = passingName(join(workFolder, basename(plain)));
  try {
    yield* inWorker('decrypt', { file: ready, target: again, passphrase }, stop);
    const read = yield* inWorker('verify', { file: again }, stop);
    if (read.manifest.id !== id) throw new Error('another backup came out than went in');
  } finally {
    throwAway(again);
  }
}

/** @throws BackupRefused when there is something there already, or nothing can be written there */
export function refuseBadTarget(file: string): void {
  try {
    if (file.includes('\0')) throw new BackupRefused({ type: 'BadPath', file });
    if (statSync(file, { throwIfNoEntry: false }) !== undefined) {
      throw new BackupRefused({ type: 'AlreadyThere', file });
    }
    const folder = statSync(dirname(file), { throwIfNoEntry: false });
    if (folder === undefined) throw new BackupRefused({ type: 'FolderMissing', file });
    if (!folder.isDirectory()) throw new BackupRefused({ type: 'BadPath', file });
    accessSync(dirname(file), constants.W_OK);
  } catch (error) {
    throw backupRefusedFrom(error, file);
  }
}

export function giveItsName(partial: string, file: string): void {
  if (existsSync(file)) throw new BackupRefused({ type: 'AlreadyThere', file });
  // It holds all that the cellar holds: for the keeper alone, where the file system knows such a thing.
  chmodSync(partial, 0o600);
  renameSync(partial, file);
  syncFolder(dirname(file));
}

export function throwAway(passing: string): void {
  for (const end of ['', ...SQLITE_ENDS]) {
    try {
      rmSync(`${passing}${end}`, { force: true });
    } catch {
      // Why it was to be thrown away is what counts; a name below what is no folder cannot be there at all.
    }
  }
}

/** What is refused of a passing name is told of the file it was to become. */
export function refusedAs(error: unknown, file: string): BackupRefused {
  const { refusal } = backupRefusedFrom(error, file);
  return new BackupRefused({ ...refusal, file });
}
