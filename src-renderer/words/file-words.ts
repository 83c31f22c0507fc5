import { assertNever } from '#core/base/exhaustive.ts';
import type { FileRefusal } from '#core/contract/cellar.ts';

/** Why a file could not be opened or written: what is wrong, that nothing was touched, what to do. */
export function sayFileRefusal(refusal: FileRefusal): string {
  switch (refusal.type) {
    case 'NotACellar':
      return `${refusal.file} is not an Undercroft cellar. It was left as it is. Choose a file that ends in .undercroft.`;
    case 'NewerVersion':
      return `${refusal.file} was written by a newer Undercroft (its version is ${refusal.fileVersion}; this program knows up to ${refusal.programVersion}). It was left as it is. Open it with the newer program.`;
    case 'Damaged':
      return `${refusal.file} is damaged and was not opened, nor changed (${refusal.detail}). Open a copy you have saved.`;
    case 'InUse':
      return `${refusal.file} is open in another program. Close it there, then try again.`;
    case 'FolderReadOnly':
      return `Nothing can be written in the folder of ${refusal.file}. Choose another folder, or allow writing there.`;
    case 'FolderMissing':
      return `The folder of ${refusal.file} is not there. Check the path, or plug in the disk it is on.`;
    case 'DiskFull':
      return `The disk of ${refusal.file} is full. Nothing was left half-written. Make room, then try again.`;
    case 'AlreadyThere':
      return `${refusal.file} is already there and was not overwritten. Choose another name.`;
    case 'NoSuchFile':
      return `Nothing lies at ${refusal.file}. Check the path, or begin a new cellar there.`;
    case 'BadPath':
      return `“${refusal.file}” cannot be used as the place of a file. Give the whole path, for instance /home/you/cellar.undercroft.`;
    case 'CellarsName':
      return `“${refusal.file}” ends in .undercroft, as cellars alone do, and this is none. Choose another ending.`;
    case 'OtherFault':
      return `${refusal.file} could not be used (${refusal.detail}). Nothing was changed.`;
    default:
      return assertNever(refusal);
  }
}
