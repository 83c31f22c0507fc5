import type { Log } from '../../platform/log.ts';
import type { CellarRouter } from '../call-faults.ts';
import type { HostOptions } from '../options.ts';
import type { PageFile } from '../page-files.ts';
import { sentenceOf } from '../sentence-of.ts';
import type { AppWindow } from './app-window.ts';
import { openHttpHost, type HttpHost } from './http-host.ts';

export interface OpenCellar {
  readonly router: CellarRouter;
  close(): void;
}

export interface ServeParts {
  readonly options: HostOptions;
  readonly open: () => OpenCellar;
  readonly page: (path: string) => PageFile | undefined | Promise<PageFile | undefined>;
  readonly strict: boolean;
  /** Opens a window on an address; absent when there is no browser, no display, or none is wanted. */
  readonly openWindow: ((url: string) => AppWindow) | undefined;
  /** Settles when the person asks the program to end at the terminal. */
  readonly stop: Promise<void>;
  readonly log: Log;
}

/**
 * Runs the program as a loopback host until its window closes or the person stops it.
 *
 * @returns the exit code: 0 when it ran and ended, 1 when it could not start
 */
export async function serveCellar(parts: ServeParts): Promise<0 | 1> {
  let cellar: OpenCellar | undefined;
  let host: HttpHost;
  try {
    cellar = parts.open();
    const { port } = parts.options;
    host = await openHttpHost({
      router: cellar.router,
      page: parts.page,
      strict: parts.strict,
      log: parts.log,
      ...(port === undefined ? {} : { port }),
    });
  } catch (error) {
    cellar?.close();
    const sentence = sentenceOf(error);
    if (sentence === undefined) throw error;
    parts.log.refuse(sentence);
    return 1;
  }

  try {
    if (parts.options.readyLine) parts.log.say(`READY ${host.entrance()}`);
    await untilDone(parts, host);
  } finally {
    await host.close();
    cellar.close();
  }
  return 0;
}

async function untilDone(parts: ServeParts, host: HttpHost): Promise<void> {
  const window = tryToOpen(parts, host.entrance());
  if (window !== undefined) {
    const first = await Promise.race([window.ended, parts.stop.then(() => undefined)]);
    if (first === undefined) {
      window.close();
      await window.ended;
      return;
    }
    if (!first.failed) return;
    parts.log.refuse('The browser window did not open or ended by a fault of its own.');
  }
  parts.log.say(`Undercroft is open at ${host.entrance()}`);
  parts.log.say('The address works once. Press Ctrl+C here to close the cellar.');
  await parts.stop;
}

/** A window that cannot even be prepared, say in a folder that may not be written, must not keep the cellar closed. */
function tryToOpen({ openWindow, log }: ServeParts, url: string): AppWindow | undefined {
  try {
    return openWindow?.(url);
  } catch (error) {
    log.fault('The browser window could not be prepared.', error);
    return undefined;
  }
}
