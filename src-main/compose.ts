import { mkdirSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import type { Clock } from '#core/base/ports.ts';
import type { Progress } from '#core/contract/cellar.ts';
import { openDesk, type CellarDesk } from './cellar/cellar-desk.ts';
import { FileRefused, refusalFrom } from './cellar/file-refused.ts';
import { newIdMaker } from './platform/new-id.ts';
import { defaultCellarFile } from './platform/paths.ts';
import { systemClock } from './platform/system-clock.ts';
import { wallClock } from './platform/wall-clock.ts';
import { buildRouter, type AppRouter } from './rpc/router.ts';
import { backUpBeforeMigration } from './strongbox/back-up-before-migration.ts';
import { backupFolderIn, openStrongbox, type Strongbox } from './strongbox/strongbox-service.ts';
import { watchOver } from './strongbox/watch.ts';

export interface ComposeOptions {
  /** The cellar file to open; made when there is none. The platform's own place when absent. */
  readonly cellar?: string;
  /** Opens a copy of the sample cellar instead. */
  readonly demo?: boolean;
  /** A sample told before, of which copies are opened; without it each is told anew. */
  readonly toldSample?: string;
  /** The folder of the program's own files. */
  readonly dataFolder: string;
  readonly clock?: Clock;
  /** Lets the Strongbox make its daily backups and checks by itself; hosts do, tests and tools ask for what they want. */
  readonly keepWatch?: boolean;
}

export interface Undercroft {
  readonly router: AppRouter;
  /** What lies open; hosts use the router, tests and tools may look underneath. */
  readonly desk: CellarDesk;
  readonly cellarPath: string;
  readonly strongbox: Strongbox;
  /** The backup on closing, where it is wished and something was written: null when there is nothing to do. */
  backUpBeforeClosing(signal: AbortSignal): AsyncGenerator<Progress, unknown, void> | null;
  close(): void;
}

/**
 * The one wiring of the program, which both hosts call. Throws `FileRefused`, with a sentence for the person, when
 * the cellar cannot be opened.
 */
export function compose(options: ComposeOptions): Undercroft {
  const clock = options.clock ?? systemClock;
  const home = resolve(options.cellar ?? defaultCellarFile(options.dataFolder));
  const isOurs = options.cellar === undefined;
  const desk = openDesk({
    ...{ home, demo: options.demo === true, clock, newId: newIdMaker(clock) },
    copyBefore: backUpBeforeMigration({
      ...{ folder: backupFolderIn(options.dataFolder), clock, localTime: wallClock },
    }),
    ...(options.toldSample === undefined ? {} : { toldSample: options.toldSample }),
    beforeHome: () => {
      if (isOurs) makeFolder(home);
    },
  });
  const strongbox = openStrongbox({
    ...{ desk, dataFolder: options.dataFolder, clock, localTime: wallClock },
  });
  const watch = watchOver(strongbox, desk);
  if (options.keepWatch === true) watch.begin();
  return {
    router: buildRouter(desk, strongbox),
    desk,
    strongbox,
    get cellarPath() {
      return desk.services.session.cellar.file;
    },
    backUpBeforeClosing: (signal) => watch.backUpBeforeClosing(signal),
    close: () => {
      watch.end();
      desk.close();
    },
  };
}

/** Only the program's own folder is made; a folder the keeper names must exist, or a slip of the pen would hide a cellar. */
function makeFolder(home: string): void {
  try {
    mkdirSync(dirname(home), { recursive: true });
  } catch (error) {
    throw new FileRefused(refusalFrom(error, home));
  }
}
