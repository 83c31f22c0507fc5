import type { Progress } from '#core/contract/cellar.ts';
import type { SalvageReport } from '#core/contract/salvage.ts';
import type { BackupSelf } from '#core/contract/strongbox-files.ts';
import type { CellarDesk } from '../cellar/cellar-desk.ts';
import { FileRefused } from '../cellar/file-refused.ts';
import { candidateName, realPlace } from '../cellar/replace-cellar.ts';
import { throwAway } from '../cellar/write-aside.ts';
import { BackupRefused, backupRefusedFrom } from './backup-refused.ts';
import type { BackupChosen } from './look-inside.ts';
import { takeOut } from './restore-whole.ts';
import { salvage } from './salvage.ts';

/** What takes the place of a cellar that cannot be opened: the cellar of a backup, or what can be read of it. */
export type PutRightBy =
  { readonly by: 'backup'; readonly chosen: BackupChosen } | { readonly by: 'salvage' };

export interface PutRight {
  /** Where the cellar that could not be opened now lies, whole and as it was. */
  readonly aside: string;
  readonly backup: BackupSelf | null;
  readonly salvaged: SalvageReport | null;
}

/**
 * Puts a sound cellar in the place of the one that could not be opened at the start, which is kept under another name. The
 * new one is proven beside it first; until the one rename everything can be stopped and stays as it was.
 *
 * @throws BackupRefused with what is wrong, also when there is nothing to put right
 */
export async function* putRight(
  desk: CellarDesk,
  asked: PutRightBy,
  signal: AbortSignal | undefined,
): AsyncGenerator<Progress, PutRight, void> {
  const unopened = desk.unopened?.file;
  if (unopened === undefined)
    throw new BackupRefused({ type: 'OtherFault', file: '', detail: 'NOTHING_UNOPENED' });
  const { session } = desk.services;
  const stop =
    signal === undefined ? session.cellar.closing : AbortSignal.any([session.cellar.closing, signal]);
  const file = realPlace(unopened);
  const candidate = candidateName(file);
  try {
    let backup: BackupSelf | null = null;
    let salvaged: SalvageReport | null = null;
    if (asked.by === 'backup') backup = yield* takeOut(asked.chosen, candidate, session, stop);
    else salvaged = yield* salvage({ file, target: candidate }, session, stop);
    yield { what: 'swap', done: 0, total: 1 };
    stop.throwIfAborted();
    const aside = desk.putRight(candidate);
    return {
      aside,
      backup,
      salvaged: salvaged === null ? null : { ...salvaged, file: aside, target: unopened },
    };
  } catch (error) {
    if (stop.aborted || error instanceof FileRefused) throw error;
    throw backupRefusedFrom(error, unopened);
  } finally {
    throwAway(candidate);
  }
}
