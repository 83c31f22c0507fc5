import type { BackupRefusal } from '#core/contract/strongbox-files.ts';
import type { FileRefusal } from '#core/contract/cellar.ts';
import { FileRefused, refusalFrom } from '../cellar/file-refused.ts';

/** A backup that is not made or not taken, with the fact of why. The sentence is the window's. */
export class BackupRefused extends Error {
  readonly refusal: BackupRefusal;

  constructor(refusal: BackupRefusal) {
    super(`${refusal.type}: ${refusal.file}`);
    this.name = 'BackupRefused';
    this.refusal = refusal;
  }
}

/** Turns what a file system or SQLite threw into a refusal; what is one already stays as it is. */
export function backupRefusedFrom(error: unknown, file: string): BackupRefused {
  if (error instanceof BackupRefused) return error;
  const refusal: FileRefusal = error instanceof FileRefused ? error.refusal : refusalFrom(error, file);
  return new BackupRefused(refusal);
}
