import { accessSync, constants, readdirSync, statSync } from 'node:fs';
import { dirname, isAbsolute, join, resolve } from 'node:path';
import type { BackupFolder, FolderListing, ListedBackup, StrongboxEvent } from '#core/contract/strongbox.ts';
import { ENCRYPTED_ENDING, isBackupName } from '#core/strongbox/backup-name.ts';
import { errorCode } from '../cellar/file-refused.ts';
import { BackupRefused, backupRefusedFrom } from './backup-refused.ts';
import { readSealOfOurs } from './tasks.ts';

const LISTED_MAX = 500;

export function stateOfFolder(folder: string): BackupFolder['state'] {
  try {
    const stat = statSync(folder, { throwIfNoEntry: false });
    if (stat === undefined) return 'missing';
    if (!stat.isDirectory()) return 'notAFolder';
    accessSync(folder, constants.W_OK | constants.R_OK);
    return 'ready';
  } catch (error) {
    const code = errorCode(error);
    return code === 'EACCES' || code === 'EROFS' || code === 'EPERM' ? 'readOnly' : 'missing';
  }
}

/** A backup file as it lies in a folder, with what is known of it without reading it whole. */
export interface FoundBackup extends Omit<ListedBackup, 'ofThisCellar'> {
  readonly bookId: string | null;
}

/** The backups in a folder, newest file first. An encrypted one is known by what this computer wrote down of it. */
export function backupsIn(
  folder: string,
  events: readonly StrongboxEvent[],
  most = LISTED_MAX,
): FoundBackup[] {
  return namesOrNone(folder)
    .filter(({ name, isFile }) => isFile && isBackupName(name))
    .flatMap(({ name }) => {
      const file = join(folder, name);
      const stat = statOf(file);
      return stat === undefined ? [] : [{ file, name, bytes: stat.size, changed: stat.mtimeMs }];
    })
    .sort((a, b) => b.changed - a.changed)
    .slice(0, most)
    .map(({ file, name, bytes }) =>
      name.endsWith(ENCRYPTED_ENDING)
        ? knownBackup({ folder, file, name, bytes }, events)
        : sealedBackup({ folder, file, bytes }),
    );
}

function sealedBackup(at: { folder: string; file: string; bytes: number }): FoundBackup {
  try {
    const { madeAtMs, reason, cellar, counts } = readSealOfOurs(at.file);
    const self = { madeAtMs, reason, cellarName: cellar.name, entries: counts.entries };
    return { ...at, encrypted: false, self, bookId: cellar.bookId, refusal: null };
  } catch (error) {
    return { ...at, encrypted: false, self: null, bookId: null, refusal: refusalOf(error, at.file) };
  }
}

function knownBackup(
  { name, ...at }: { folder: string; file: string; name: string; bytes: number },
  events: readonly StrongboxEvent[],
): FoundBackup {
  const plain = name.slice(0, -'.age'.length);
  for (const event of events) {
    if (event.kind !== 'backup' || event.file === null || !event.file.endsWith(plain)) continue;
    const { atMs: madeAtMs, reason, cellarName, entries, bookId } = event;
    return { ...at, encrypted: true, self: { madeAtMs, reason, cellarName, entries }, bookId, refusal: null };
  }
  return { ...at, encrypted: true, self: null, bookId: null, refusal: null };
}

/** Folders and backups under a folder: names alone, nothing of any other file. */
export function listFolder(path: string): FolderListing {
  if (!isAbsolute(path) || path.includes('\0')) throw new BackupRefused({ type: 'BadPath', file: path });
  const folder = resolve(path);
  try {
    if (!statSync(folder).isDirectory()) throw new BackupRefused({ type: 'BadPath', file: folder });
    const names = namesIn(folder);
    const folders = names.filter(({ name, isFolder }) => isFolder && !name.startsWith('.'));
    const backups = names.filter(({ name, isFile }) => isFile && isBackupName(name));
    const shown = (of: typeof names) => of.slice(0, LISTED_MAX).map(({ name }) => name);
    const parent = dirname(folder);
    return {
      ...{ folder, parent: parent === folder ? null : parent },
      ...{ folders: shown(folders), backups: shown(backups) },
      more: folders.length > LISTED_MAX || backups.length > LISTED_MAX,
    };
  } catch (error) {
    throw backupRefusedFrom(error, folder);
  }
}

/** Of a folder that is not there, is none, or may not be read, nothing can be listed. */
function namesOrNone(folder: string): ReturnType<typeof namesIn> {
  try {
    return namesIn(folder);
  } catch {
    return [];
  }
}

function namesIn(folder: string): { name: string; isFile: boolean; isFolder: boolean }[] {
  return readdirSync(folder, { withFileTypes: true })
    .map((entry) => {
      // A link counts as what it leads to.
      const stat = entry.isSymbolicLink() ? statOf(join(folder, entry.name)) : entry;
      return { name: entry.name, isFile: stat?.isFile() === true, isFolder: stat?.isDirectory() === true };
    })
    .sort((a, b) => (a.name < b.name ? -1 : 1));
}

function statOf(path: string) {
  try {
    return statSync(path, { throwIfNoEntry: false });
  } catch {
    return undefined;
  }
}

function refusalOf(error: unknown, file: string) {
  return backupRefusedFrom(error, file).refusal;
}
