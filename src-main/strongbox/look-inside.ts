import { mkdirSync, statSync } from 'node:fs';
import { basename, join } from 'node:path';
import type { Progress } from '#core/contract/cellar.ts';
import type { BackupSelf, VerifiedBackup } from '#core/contract/strongbox-files.ts';
import type { LastEntry } from '#core/strongbox/manifest.ts';
import { isHeld } from '../cellar/open-cellar.ts';
import { passingName, throwAway } from '../cellar/write-aside.ts';
import { isAgeFile } from './age-file.ts';
import { BackupRefused, backupRefusedFrom } from './backup-refused.ts';
import type { BatchInside } from './batches-inside.ts';
import { inWorker } from './in-worker.ts';
import { selfOf } from './self-of.ts';

/** A backup, and what opens it. */
export interface BackupChosen {
  readonly file: string;
  readonly passphrase: string | null;
  /** Where a readable copy of an encrypted one lies while it is looked at: a folder of the program's own. */
  readonly workFolder: string;
}

export interface Looked {
  readonly backup: BackupSelf;
  readonly batches: readonly BatchInside[];
  /** Whether the line that was asked for stands in its book. */
  readonly hasLine: boolean;
}

/**
 * Says what is in a backup, with every byte of it proven first. Nothing is changed, neither there nor here.
 *
 * @param line a line of another book that is looked for in this one
 *
 * @throws BackupRefused when it is no backup, not whole, newer than this program, or not opened by the passphrase
 */
export async function* lookInside(
  chosen: BackupChosen,
  signal: AbortSignal | undefined,
  line: LastEntry | null = null,
): AsyncGenerator<Progress, Looked, void> {
  return yield* withPlain(chosen, signal, async function* (plain, encrypted, stop) {
    const { manifest, batches, hasLine } = yield* inWorker('look', { file: plain, line }, stop);
    const { size: bytes } = statSync(chosen.file);
    return { backup: selfOf(manifest, { file: chosen.file, bytes, encrypted }), batches, hasLine };
  });
}

/**
 * Proves every byte of a backup, opens it, and checks the file, its book and its pictures.
 *
 * @throws BackupRefused as `lookInside`, and `Unsound` when what was sealed is no sound cellar
 */
export async function* verifyBackup(
  chosen: BackupChosen,
  signal: AbortSignal | undefined,
): AsyncGenerator<Progress, VerifiedBackup, void> {
  return yield* withPlain(chosen, signal, async function* (plain, encrypted, stop) {
    const { manifest, entriesBalanced } = yield* inWorker('verify', { file: plain }, stop);
    const { size: bytes } = statSync(chosen.file);
    return {
      ...selfOf(manifest, { file: chosen.file, bytes, encrypted }),
      ...{ parts: manifest.payload.partSha256.length, entriesBalanced },
    };
  });
}

/** Does something with a readable backup: the file itself, or a copy decrypted for as long as it takes. */
export async function* withPlain<T>(
  { file, passphrase, workFolder }: BackupChosen,
  signal: AbortSignal | undefined,
  work: (plain: string, encrypted: boolean, stop: AbortSignal) => AsyncGenerator<Progress, T, void>,
): AsyncGenerator<Progress, T, void> {
  const stop = signal ?? new AbortController().signal;
  let plain: string | null = null;
  try {
    if (file.includes('\0')) throw new BackupRefused({ type: 'BadPath', file });
    if (isHeld(file)) throw new BackupRefused({ type: 'InUse', file });
    if (!(await isAgeFile(file))) return yield* work(file, false, stop);
    if (passphrase === null) throw new BackupRefused({ type: 'PassphraseNeeded', file });
    mkdirSync(workFolder, { recursive: true, mode: 0o700 });
    plain = passingName(join(workFolder, basename(file)));
    yield* inWorker('decrypt', { file, target: plain, passphrase }, stop);
    return yield* work(plain, true, stop);
  } catch (error) {
    if (stop.aborted) throw error;
    const { refusal } = backupRefusedFrom(error, file);
    throw new BackupRefused(refusal.file === plain ? { ...refusal, file } : refusal);
  } finally {
    if (plain !== null) throwAway(plain);
  }
}
