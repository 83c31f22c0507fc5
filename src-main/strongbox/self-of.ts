import type { BackupSelf } from '#core/contract/strongbox-files.ts';
import type { BackupManifest } from '#core/strongbox/manifest.ts';

/** What a backup says of itself, with the file it stands in. */
export function selfOf(
  manifest: BackupManifest,
  file: { readonly file: string; readonly bytes: number; readonly encrypted: boolean },
): BackupSelf {
  const { id, madeAtMs, reason, counts, lastEntry, cellar } = manifest;
  return {
    ...file,
    ...{ id, madeAtMs, reason, programVersion: manifest.programVersion, counts, lastEntry },
    ...{ cellarName: cellar.name, isSample: cellar.isSample, bookId: cellar.bookId },
    fileVersion: cellar.fileVersion,
  };
}
