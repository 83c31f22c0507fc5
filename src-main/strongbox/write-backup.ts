import { randomUUID } from 'node:crypto';
import { mkdirSync, statSync } from 'node:fs';
import { basename, join } from 'node:path';
import type { Progress } from '#core/contract/cellar.ts';
import type { VerifiedBackup } from '#core/contract/strongbox-files.ts';
import type { BackupReason } from '#core/strongbox/manifest.ts';
import { copyOnline } from '../cellar/copy-online.ts';
import type { OpenCellar } from '../cellar/open-cellar.ts';
import { giveItsName, passingName, refuseBadTarget, throwAway } from '../cellar/write-aside.ts';
import { programVersion } from '../platform/program-version.ts';
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
  try {
    refuseBadTarget(file, null);
  } catch (error) {
    throw backupRefusedFrom(error, file);
  }
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

/** What is refused of a passing name is told of the file it was to become. */
export function refusedAs(error: unknown, file: string): BackupRefused {
  const { refusal } = backupRefusedFrom(error, file);
  return new BackupRefused({ ...refusal, file });
}
