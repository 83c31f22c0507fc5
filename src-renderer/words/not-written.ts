import type { NotWritten } from '#core/contract/ledger.ts';

/** Why the disk did not take a write, and what to do. Nothing was changed by it. */
export function sayNotWritten({ type, detail }: NotWritten): string {
  switch (type) {
    case 'DiskFull':
      return 'The disk is full. Nothing was written and nothing is lost: what you typed is still here. Make room, then try again.';
    case 'ReadOnly':
      return 'This cellar file can only be read here, so nothing was written. What you typed is still here.';
    case 'Gone':
      return 'The cellar file is no longer where it was opened, so nothing was written. What you typed is still here. Put the file or its disk back, then try again; otherwise open the cellar where it now lies.';
    case 'Restoring':
      return 'A backup is just being put in the place of this cellar, so nothing can be written for a moment. What you typed is still here. Wait until the Strongbox says that it is done or stopped, look whether the cellar is the one you mean, then try again.';
    case 'OtherFault':
      return `The cellar file could not be written (${detail}). Nothing was changed; what you typed is still here. Try again.`;
  }
}
