import type { FileRefusal } from '#core/contract/cellar.ts';

/** A cellar file that cannot be opened, made or written, with the fact of why and a sentence for a terminal. */
export class FileRefused extends Error {
  readonly refusal: FileRefusal;
  readonly sentence: string;

  constructor(refusal: FileRefusal) {
    const sentence = fileRefusalSentence(refusal);
    super(sentence);
    this.name = 'FileRefused';
    this.refusal = refusal;
    this.sentence = sentence;
  }
}

/** The plain sentence for a person at a terminal or in a system dialog; the window has its own words. */
export function fileRefusalSentence(refusal: FileRefusal): string {
  const { file } = refusal;
  switch (refusal.type) {
    case 'NotACellar':
      return `${file} is not an Undercroft cellar. It was left as it is.`;
    case 'NewerVersion':
      return `${file} was written by a newer Undercroft (file version ${refusal.fileVersion}; this program knows ${refusal.programVersion}). It was left as it is.`;
    case 'Damaged':
      return `${file} is damaged and was left as it is (${refusal.detail}).`;
    case 'InUse':
      return `${file} is open in another program, so it was left alone. Close it there, then try again.`;
    case 'FolderReadOnly':
      return `${file} cannot be written: its folder or the file is read-only. Choose another folder or change its permissions.`;
    case 'FolderMissing':
      return `The folder of ${file} does not exist. Make it first, or choose another place.`;
    case 'DiskFull':
      return `The disk is full, so ${file} was not written. What was saved before is still there.`;
    case 'AlreadyThere':
      return `${file} already exists, and nothing is written over. Choose another name.`;
    case 'NoSuchFile':
      return `${file} does not exist.`;
    case 'BadPath':
      return `${file} is not a place for a file.`;
    case 'CellarsName':
      return `${file} ends like a cellar and would be none.`;
    case 'OtherFault':
      return `${file} could not be opened (${refusal.detail}). It was left as it is.`;
  }
}

/** Turns what SQLite or the file system threw into a refusal. Told apart by code, never by message text. */
export function refusalFrom(error: unknown, file: string): FileRefusal {
  const code = errorCode(error);
  if (code.startsWith('SQLITE_BUSY') || code.startsWith('SQLITE_LOCKED')) return { type: 'InUse', file };
  if (code === 'SQLITE_NOTADB') return { type: 'NotACellar', file };
  if (code.startsWith('SQLITE_CORRUPT')) return { type: 'Damaged', file, detail: code };
  if (code === 'SQLITE_FULL' || code === 'ENOSPC' || code === 'EDQUOT') return { type: 'DiskFull', file };
  if (code.startsWith('SQLITE_READONLY') || code === 'EROFS' || code === 'EACCES' || code === 'EPERM') {
    return { type: 'FolderReadOnly', file };
  }
  if (code === 'ENOENT' || code === 'ENOTDIR') return { type: 'FolderMissing', file };
  if (code === 'EISDIR' || code === 'ENAMETOOLONG' || code === 'ERR_INVALID_ARG_VALUE')
    return { type: 'BadPath', file };
  return { type: 'OtherFault', file, detail: code };
}

export function errorCode(error: unknown): string {
  if (error instanceof Error && 'code' in error && typeof error.code === 'string') return error.code;
  return error instanceof Error ? error.name : 'unknown';
}
