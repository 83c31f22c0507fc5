import { mkdirSync } from 'node:fs';
import { basename, join } from 'node:path';
import type { Progress } from '#core/contract/cellar.ts';
import type { BackupRefusal, VerifiedBackup } from '#core/contract/strongbox-files.ts';
import { encryptedName } from '#core/strongbox/backup-name.ts';
import { giveItsName, passingName, refuseBadTarget, throwAway } from '../cellar/write-aside.ts';
import { inWorker } from './in-worker.ts';
import { encryptAndProve, refusedAs } from './write-backup.ts';

export interface Elsewhere {
  readonly folder: string;
  /** Null when the copy lies there and was proven. */
  readonly refusal: BackupRefusal | null;
}

export interface Carrying {
  readonly backup: VerifiedBackup;
  readonly folders: readonly string[];
  readonly encrypt: boolean;
  /** Null while it has not been said in this session. */
  readonly passphrase: string | null;
  readonly workFolder: string;
}

/**
 * Carries a finished backup to more folders, encrypted first where that is wished. A folder that is not there, or is full,
 * takes nothing away from the backup that was made, and is told. Nothing readable goes out while the passphrase is missing.
 */
export async function* carryElsewhere(
  { backup, folders, encrypt, passphrase, workFolder }: Carrying,
  stop: AbortSignal,
): AsyncGenerator<Progress, Elsewhere[], void> {
  if (folders.length === 0) return [];
  if (!encrypt) return yield* copyToEach(backup.file, basename(backup.file), folders, stop);
  if (passphrase === null) {
    return folders.map((folder) => ({ folder, refusal: { type: 'PassphraseNeeded', file: folder } }));
  }
  mkdirSync(workFolder, { recursive: true, mode: 0o700 });
  const name = encryptedName(basename(backup.file));
  const ready = passingName(join(workFolder, name));
  try {
    yield* encryptAndProve({ plain: backup.file, ready, passphrase, id: backup.id, workFolder }, stop);
    return yield* copyToEach(ready, name, folders, stop);
  } finally {
    throwAway(ready);
  }
}

async function* copyToEach(
  file: string,
  name: string,
  folders: readonly string[],
  stop: AbortSignal,
): AsyncGenerator<Progress, Elsewhere[], void> {
  const elsewhere: Elsewhere[] = [];
  for (const folder of folders) elsewhere.push(yield* copyTo(file, name, folder, stop));
  return elsewhere;
}

async function* copyTo(
  file: string,
  name: string,
  folder: string,
  stop: AbortSignal,
): AsyncGenerator<Progress, Elsewhere, void> {
  const target = join(folder, name);
  let partial: string | null = null;
  try {
    refuseBadTarget(target, null);
    partial = passingName(target);
    yield* inWorker('copy', { file, target: partial }, stop);
    giveItsName(partial, target);
    return { folder, refusal: null };
  } catch (error) {
    if (stop.aborted) throw error;
    return { folder, refusal: refusedAs(error, target).refusal };
  } finally {
    if (partial !== null) throwAway(partial);
  }
}
