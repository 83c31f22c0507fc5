import BetterSqlite from 'better-sqlite3';
import { statSync } from 'node:fs';
import type { Progress } from '#core/contract/cellar.ts';
import type { BackupManifest, LastEntry } from '#core/strongbox/manifest.ts';
import { readMigrations } from '../cellar/migrate.ts';
import { decryptFile, encryptFile } from './age-file.ts';
import { BackupRefused, backupRefusedFrom } from './backup-refused.ts';
import { batchesInside, type BatchInside } from './batches-inside.ts';
import { checkPayload } from './check-payload.ts';
import { copyProven } from './copy-proven.ts';
import { payloadFacts } from './payload-facts.ts';
import { extractPayload, proveParts, readSeal, sealFile, type Unsealed } from './seal-file.ts';

// What is done with whole files, and takes as long as they are large: it runs in a worker, so that the cellar answers
// meanwhile (`in-worker.ts`). Each is given paths and plain facts, and never the open cellar's own file: closing any
// descriptor of it would give up the lock of this program (see `open-cellar.ts`).

export type Tell = (progress: Progress) => void;

export interface SealAsked {
  readonly file: string;
  readonly made: Pick<Unsealed, 'id' | 'madeAtMs' | 'reason' | 'programVersion'>;
}

export interface Inside {
  readonly manifest: BackupManifest;
  readonly batches: readonly BatchInside[];
  /** Whether the line that was asked for stands in its book under its number. */
  readonly hasLine: boolean;
}

export interface Proven {
  readonly manifest: BackupManifest;
  readonly entriesBalanced: number;
}

export const tasks = {
  /** Makes one plain file of a fresh copy, and seals it with what it says of itself. */
  seal({ file, made }: SealAsked, tell: Tell): BackupManifest {
    const copy = new BetterSqlite(file);
    try {
      copy.pragma('journal_mode = DELETE');
      const facts = payloadFacts(copy);
      copy.close();
      return sealFile(file, { ...made, ...facts }, parts(tell, 'seal'));
    } finally {
      copy.close();
    }
  },

  /** Proves every byte, then opens the cellar in it and checks it from within. */
  verify({ file }: { file: string }, tell: Tell): Proven {
    const manifest = readSealOfOurs(file);
    proveParts(file, manifest, parts(tell, 'prove'));
    const cellar = openReadOnly(file);
    try {
      const { faults, entriesBalanced } = checkPayload(cellar, manifest, (what, done, total) => {
        tell({ what, done, total });
      });
      if (faults.length > 0) throw new BackupRefused({ type: 'Unsound', file, faults });
      return { manifest, entriesBalanced };
    } finally {
      cellar.close();
    }
  },

  /** Proves every byte and says what is in it. */
  look({ file, line }: { file: string; line: LastEntry | null }, tell: Tell): Inside {
    const manifest = readSealOfOurs(file);
    proveParts(file, manifest, parts(tell, 'prove'));
    const cellar = openReadOnly(file);
    try {
      const lines = cellar.prepare('SELECT entry_id FROM entry WHERE sequence = ?').pluck();
      const hasLine = line !== null && lines.get(line.sequence) === line.entryId;
      return { manifest, batches: batchesInside(cellar), hasLine };
    } catch (error) {
      throw backupRefusedFrom(error, file);
    } finally {
      cellar.close();
    }
  },

  /** Takes the cellar out of a backup, proven part by part, into a new file. */
  async extract({ file, target }: { file: string; target: string }, tell: Tell): Promise<BackupManifest> {
    const manifest = readSealOfOurs(file);
    await extractPayload(file, target, manifest, parts(tell, 'extract'));
    return manifest;
  },

  /** Copies a backup whole, readable or encrypted, to another folder, and holds what arrived against it. */
  copy({ file, target }: { file: string; target: string }, tell: Tell): null {
    try {
      copyProven(file, target, parts(tell, 'carry'));
      return null;
    } catch (error) {
      throw backupRefusedFrom(error, target);
    }
  },

  /** Checks from within the cellar that was taken out of a backup. */
  check({ file, manifest }: { file: string; manifest: BackupManifest }, tell: Tell): null {
    const cellar = openReadOnly(file);
    try {
      const { faults } = checkPayload(cellar, manifest, (what, done, total) => {
        tell({ what, done, total });
      });
      if (faults.length > 0) throw new BackupRefused({ type: 'Unsound', file, faults });
      return null;
    } finally {
      cellar.close();
    }
  },

  async encrypt(
    { file, target, passphrase }: { file: string; target: string; passphrase: string },
    tell: Tell,
  ): Promise<{ bytes: number }> {
    try {
      await encryptFile(file, target, passphrase, bytes(tell, 'encrypt'));
      return { bytes: statSync(target).size };
    } catch (error) {
      throw backupRefusedFrom(error, target);
    }
  },

  async decrypt(
    { file, target, passphrase }: { file: string; target: string; passphrase: string },
    tell: Tell,
  ): Promise<null> {
    await decryptFile(file, target, passphrase, bytes(tell, 'decrypt'));
    return null;
  },
};
export type Tasks = typeof tasks;

/** @throws BackupRefused also for a cellar of a newer version than this program knows */
export function readSealOfOurs(file: string): BackupManifest {
  const manifest = readSeal(file);
  const programVersion = readMigrations().steps.length;
  const { fileVersion } = manifest.cellar;
  if (fileVersion > programVersion) {
    throw new BackupRefused({ type: 'NewerVersion', file, fileVersion, programVersion });
  }
  return manifest;
}

/** The seal is not opened by SQLite, which reads as far as the size in its own header. */
function openReadOnly(file: string): BetterSqlite.Database {
  try {
    const cellar = new BetterSqlite(file, { readonly: true, fileMustExist: true });
    cellar.pragma('trusted_schema = OFF');
    return cellar;
  } catch (error) {
    throw backupRefusedFrom(error, file);
  }
}

/** Parts are of 1 MB; telling of one in eight is often enough. */
function parts(tell: Tell, what: string): (done: number, total: number) => void {
  return (done, total) => {
    if (done % 8 === 0 || done === total) tell({ what, done, total });
  };
}

function bytes(tell: Tell, what: string): (done: number, total: number) => void {
  let told = 0;
  return (done, total) => {
    if (done - told < 8_388_608 && done !== total) return;
    told = done;
    tell({ what, done, total });
  };
}
