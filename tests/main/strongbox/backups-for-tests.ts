import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Progress } from '#core/contract/cellar.ts';
import type { BackupRefusal, VerifiedBackup } from '#core/contract/strongbox-files.ts';
import { BackupRefused } from '#main/strongbox/backup-refused.ts';
import { writeBackup, type BackupAsked } from '#main/strongbox/write-backup.ts';
import { NOW, type TestDesk } from '../desk-for-tests.ts';

/** Runs long work to its end. */
export async function ended<T>(steps: AsyncGenerator<Progress, T, void>): Promise<T> {
  for (;;) {
    const step = await steps.next();
    if (step.done === true) return step.value;
  }
}

/** Why long work was refused; fails when it was not. */
export async function refusalOf(steps: AsyncGenerator<Progress, unknown, void>): Promise<BackupRefusal> {
  try {
    await ended(steps);
  } catch (error) {
    if (error instanceof BackupRefused) return error.refusal;
    throw error;
  }
  throw new Error('it was not refused');
}

/** A backup of what lies on a desk, under a plain name in a folder. */
export function backupOf(
  desk: TestDesk,
  folder: string,
  asked: Partial<BackupAsked> = {},
): Promise<VerifiedBackup> {
  mkdirSync(folder, { recursive: true });
  const { cellar } = desk.app.desk.services.session;
  return ended(
    writeBackup(
      cellar,
      {
        ...{
          file: join(folder, 'cellar.undercroft-backup'),
          reason: 'byHand',
          madeAtMs: NOW,
          passphrase: null,
        },
        workFolder: join(folder, 'work'),
        ...asked,
      },
      undefined,
    ),
  );
}
