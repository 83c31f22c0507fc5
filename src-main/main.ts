import { app } from 'electron';
import { homedir } from 'node:os';
import { join } from 'node:path';
import { compose } from './compose.ts';
import { runDesktop } from './hosts/electron/desktop.ts';
import { ownArguments } from './hosts/electron/own-arguments.ts';
import { terminalLog } from './platform/log.ts';
import { dataFolder } from './platform/paths.ts';

// The desktop entry, run by Electron. Nothing here waits: Electron is ready only once this file has been read to its end.

const folder = dataFolder({ platform: process.platform, home: homedir(), env: process.env });

runDesktop({
  words: ownArguments(process.argv, app.isPackaged ? undefined : app.getAppPath()),
  open: (options) =>
    compose({
      demo: options.demo,
      dataFolder: folder,
      keepWatch: true,
      ...(options.cellar === undefined ? {} : { cellar: options.cellar }),
    }),
  dataFolder: folder,
  built: join(import.meta.dirname, '..'),
  development: app.isPackaged ? undefined : process.env['ELECTRON_RENDERER_URL'],
  log: terminalLog,
}).catch((error: unknown) => {
  terminalLog.fault('Undercroft could not start.', error);
  app.exit(1);
});
