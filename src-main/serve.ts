import { homedir } from 'node:os';
import { join } from 'node:path';
import { compose } from './compose.ts';
import { openAppWindow } from './hosts/loopback/app-window.ts';
import { developmentPage } from './hosts/loopback/development-page.ts';
import { readKeptWindowSize } from './hosts/loopback/kept-window-size.ts';
import { claimProfileSlot } from './hosts/loopback/profile-slot.ts';
import { serveCellar, type WindowToOpen } from './hosts/loopback/serve-cellar.ts';
import { readOptions, type HostOptions } from './hosts/options.ts';
import { pageFilesIn } from './hosts/page-files.ts';
import { terminalLog } from './platform/log.ts';
import { dataFolder } from './platform/paths.ts';

/**
 * The loopback entry: the cellar in a browser window, or at an address.
 *
 * @param options what the person asked for
 * @param browser full path of the browser to open a window in, when there is one and a display
 * @returns the exit code
 */
export async function serve(options: HostOptions, browser: string | undefined): Promise<number> {
  const development = process.env['ELECTRON_RENDERER_URL'];
  // Set by the journeys alone: telling the sample's year takes longer than all else that a start does.
  const toldSample = process.env['UNDERCROFT_TOLD_SAMPLE'] || undefined;
  const folder = dataFolder({ platform: process.platform, home: homedir(), env: process.env });
  return serveCellar({
    options,
    open: () =>
      compose({
        demo: options.demo,
        dataFolder: folder,
        keepWatch: true,
        ...(toldSample === undefined ? {} : { toldSample }),
        ...(options.cellar === undefined ? {} : { cellar: options.cellar }),
      }),
    page:
      development === undefined
        ? pageFilesIn(join(import.meta.dirname, '../renderer'))
        : developmentPage(development),
    strict: development === undefined,
    prepareWindow: browser === undefined ? undefined : () => windowIn(browser, folder),
    stop: stopAsked(),
    skip: stopAsked,
    log: terminalLog,
  });
}

function windowIn(browser: string, folder: string): WindowToOpen {
  const profile = claimProfileSlot(join(folder, 'window'));
  return {
    wishedPort: profile.keptPort,
    open(url, port) {
      profile.keepPort(port);
      return openAppWindow({
        browser,
        url,
        profileFolder: profile.folder,
        kept: readKeptWindowSize(profile.folder),
        isRoot: process.getuid?.() === 0,
      });
    },
    release() {
      profile.release();
    },
  };
}

/** Ctrl+C, a closed terminal, or being asked to end. */
function stopAsked(): Promise<void> {
  return new Promise((resolve) => {
    for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) {
      process.once(signal, () => {
        resolve();
      });
    }
  });
}

if (import.meta.main) {
  const reading = readOptions(process.argv.slice(2));
  if (reading.ok) {
    process.exitCode = await serve(reading.options, undefined);
  } else {
    terminalLog.refuse(reading.sentence);
    process.exitCode = 2;
  }
}
