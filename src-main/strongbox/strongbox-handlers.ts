import { implement } from '@orpc/server';
import { strongboxContract } from '#core/contract/strongbox.ts';
import type { BackupRefusal } from '#core/contract/strongbox-files.ts';
import type { Progress } from '#core/contract/cellar.ts';
import { aboutCellar } from '../cellar/about-cellar.ts';
import type { CellarDesk } from '../cellar/cellar-desk.ts';
import { FileRefused } from '../cellar/file-refused.ts';
import { written } from '../ledger/written.ts';
import { listFolder } from './backup-folders.ts';
import { BackupRefused, backupRefusedFrom } from './backup-refused.ts';
import { bringBackBatch, NotInBackup } from './bring-back-batch.ts';
import { verifyBackup } from './look-inside.ts';
import { putRight, type PutRightBy } from './put-right.ts';
import { restoreBeside } from './restore-whole.ts';
import { salvage } from './salvage.ts';
import type { Strongbox } from './strongbox-service.ts';

/** Answers the Strongbox's part of the contract. */
export function strongboxHandlers(desk: CellarDesk, strongbox: Strongbox) {
  const os = implement(strongboxContract);
  const about = () => aboutCellar(desk.services, desk.unopened);
  return {
    state: os.state.handler(strongbox.state),
    standing: os.standing.handler(strongbox.standing),
    settle: os.settle.handler(({ input, errors }) => {
      try {
        return strongbox.settle(input);
      } catch (error) {
        throw error instanceof BackupRefused ? errors.BACKUP_REFUSED({ data: error.refusal }) : error;
      }
    }),
    holdPassphrase: os.holdPassphrase.handler(({ input }) => strongbox.holdPassphrase(input.passphrase)),
    backUp: os.backUp.handler(async function* ({ errors, signal }) {
      return yield* refusing(errors, strongbox.backUp('byHand', signal));
    }),
    list: os.list.handler(strongbox.list),
    folders: os.folders.handler(({ input, errors }) => {
      try {
        return listFolder(input.folder ?? strongbox.choosingBegins());
      } catch (error) {
        throw error instanceof BackupRefused ? errors.BACKUP_REFUSED({ data: error.refusal }) : error;
      }
    }),
    lookInside: os.lookInside.handler(async function* ({ input, errors, signal }) {
      return yield* refusing(errors, strongbox.look(input.file, input.passphrase, signal));
    }),
    verify: os.verify.handler(async function* ({ input, errors, signal }) {
      const chosen = strongbox.chosen(input.file, input.passphrase);
      return yield* refusing(errors, verifyBackup(chosen, signal));
    }),
    restore: os.restore.handler(async function* ({ input, errors, signal }) {
      const { backup, safety } = yield* refusing(
        errors,
        strongbox.restore(input.file, input.passphrase, signal),
      );
      return { about: about(), backup, safety };
    }),
    openBeside: os.openBeside.handler(async function* ({ input, errors, signal }) {
      const { file, passphrase, target } = input;
      const asked = { ...strongbox.chosen(file, passphrase), target };
      const backup = yield* refusing(errors, restoreBeside(desk.services.session, asked, signal));
      try {
        desk.open(target, false);
      } catch (error) {
        throw errors.BACKUP_REFUSED({ data: backupRefusedFrom(error, target).refusal });
      }
      return { about: about(), backup };
    }),
    bringBackBatch: os.bringBackBatch.handler(async function* ({ input, errors, signal }) {
      const { file, passphrase, ...asked } = input;
      const chosen = { ...strongbox.chosen(file, passphrase), ...asked };
      try {
        return yield* refusing(
          errors,
          bringBackBatch(desk.services, chosen, signal, (write) => written(errors, write)),
        );
      } catch (error) {
        if (!(error instanceof NotInBackup)) throw error;
        throw errors.NOT_FOUND({ data: { what: 'batch', id: input.batchId } });
      }
    }),
    salvage: os.salvage.handler(async function* ({ input, errors, signal }) {
      const report = yield* refusing(errors, salvage(input, desk.services.session, signal), input.file);
      strongbox.noteSalvage(report);
      return report;
    }),
    standAside: os.standAside.handler(({ errors }) => {
      try {
        strongbox.standAside();
      } catch (error) {
        throw error instanceof BackupRefused ? errors.BACKUP_REFUSED({ data: error.refusal }) : error;
      }
      return about();
    }),
    putRight: os.putRight.handler(async function* ({ input, errors, signal }) {
      const asked: PutRightBy =
        input.by === 'backup'
          ? { by: 'backup', chosen: strongbox.chosen(input.file, input.passphrase) }
          : { by: 'salvage' };
      const done = yield* refusing(errors, putRight(desk, asked, signal), desk.unopened?.file);
      if (done.salvaged !== null) strongbox.noteSalvage(done.salvaged);
      return { about: about(), ...done };
    }),
    diagnostics: os.diagnostics.handler(strongbox.diagnostics),
  };
}

/** Long work whose refusals become typed errors. */
async function* refusing<T>(
  errors: { readonly BACKUP_REFUSED: (options: { data: BackupRefusal }) => Error },
  work: AsyncGenerator<Progress, T, void>,
  file = '',
): AsyncGenerator<Progress, T, void> {
  try {
    return yield* work;
  } catch (error) {
    const isRefused = error instanceof BackupRefused || error instanceof FileRefused;
    throw isRefused ? errors.BACKUP_REFUSED({ data: backupRefusedFrom(error, file).refusal }) : error;
  }
}
