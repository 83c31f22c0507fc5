import type { FileRefusal } from '#core/contract/cellar.ts';
import { sayFileRefusal } from './file-words.ts';

export interface UnopenedSaid {
  readonly what: string;
  readonly why: string;
  /** Whether lines may still be read out of the file itself. */
  readonly canBeSaved: boolean;
}

/** Why the cellar at home did not open, and that nothing was done to it. */
export function sayUnopened(refusal: FileRefusal): UnopenedSaid {
  switch (refusal.type) {
    case 'Damaged':
      if (refusal.detail === 'CHECK')
        return {
          what: 'The check found faults in this cellar.',
          why: `${refusal.file} is closed now and was left as it is. Save what can be read of it, put a backup in its place, or open it again as it is.`,
          canBeSaved: true,
        };
      return {
        what: 'The file is damaged.',
        why: `${refusal.file} was left as it is (${refusal.detail}). Save what can be read of it, or put a backup in its place.`,
        canBeSaved: true,
      };
    case 'NotACellar':
      return {
        what: 'The file no longer begins as a cellar does.',
        why: `${refusal.file} was damaged, or something else was written there. It was left as it is. Save what can be read of it, or put a backup in its place.`,
        canBeSaved: true,
      };
    case 'NewerVersion':
      return {
        what: 'The file was written by a newer Undercroft.',
        why: `${refusal.file} has version ${refusal.fileVersion}; this program knows up to ${refusal.programVersion}. Nothing is wrong with it, and it was left as it is: open it with the newer program. An older backup in its place would lack what was written since.`,
        canBeSaved: false,
      };
    default:
      return { what: 'The file could not be used.', why: sayFileRefusal(refusal), canBeSaved: false };
  }
}
