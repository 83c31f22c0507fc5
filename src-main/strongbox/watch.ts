import type { Progress } from '#core/contract/cellar.ts';
import type { CellarDesk } from '../cellar/cellar-desk.ts';
import { terminalLog } from '../platform/log.ts';
import { BackupRefused } from './backup-refused.ts';
import type { Strongbox } from './strongbox-service.ts';

/** Soon after opening, when the first screen stands. */
const FIRST_LOOK_MS = 3000;
/** The daily backup waits until the keeper has settled in. */
const FIRST_BACKUP_MS = 90_000;
const LOOK_EVERY_MS = 10 * 60_000;

export interface Watch {
  begin(): void;
  backUpBeforeClosing(signal: AbortSignal): AsyncGenerator<Progress, unknown, void> | null;
  end(): void;
}

/**
 * What the Strongbox does by itself while the program runs: the quick check of each cellar that is opened, the daily backup
 * when it is due, and the backup on closing. What cannot be done is in the history and told by the window; the cellar goes on.
 */
export function watchOver(strongbox: Strongbox, desk: CellarDesk): Watch {
  const ending = new AbortController();
  const isEnding = (): boolean => ending.signal.aborted;
  let checked: unknown = null;
  let looking = false;

  const look = async (withBackup: boolean): Promise<void> => {
    if (looking || isEnding()) return;
    looking = true;
    try {
      strongbox.sweep();
      const { session } = desk.services;
      if (checked !== session) {
        checked = session;
        await strongbox.checkOpened();
      }
      const reason = withBackup ? strongbox.due() : null;
      if (reason !== null) await ended(strongbox.backUp(reason, ending.signal));
    } catch (error) {
      // What was refused is in the history; a cellar that was closed meanwhile has nothing to be told of.
      if (!(error instanceof BackupRefused) && !isEnding())
        terminalLog.fault('The Strongbox could not look after the cellar.', error);
    } finally {
      looking = false;
    }
  };
  const timers: NodeJS.Timeout[] = [];
  return {
    begin() {
      timers.push(
        setTimeout(() => void look(false), FIRST_LOOK_MS).unref(),
        setTimeout(() => void look(true), FIRST_BACKUP_MS).unref(),
        setInterval(() => void look(true), LOOK_EVERY_MS).unref(),
      );
    },
    backUpBeforeClosing: (signal) =>
      strongbox.closingIsDue() ? strongbox.backUp('onClosing', signal) : null,
    end() {
      ending.abort();
      timers.forEach(clearTimeout);
    },
  };
}

async function ended(work: AsyncGenerator<Progress, unknown, void>): Promise<void> {
  while ((await work.next()).done !== true);
}
