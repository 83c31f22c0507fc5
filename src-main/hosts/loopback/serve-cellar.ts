import type { Log } from '../../platform/log.ts';
import type { CellarRouter } from '../call-faults.ts';
import type { HostOptions } from '../options.ts';
import type { PageFile } from '../page-files.ts';
import { sentenceOf } from '../sentence-of.ts';
import type { AppWindow } from './app-window.ts';
import { openHttpHost, PortRefusedError, type HttpHost } from './http-host.ts';

export interface OpenCellar {
  readonly router: CellarRouter;
  /** The backup on closing; null when there is nothing to do. Stopped, it leaves nothing behind. */
  backUpBeforeClosing(signal: AbortSignal): AsyncGenerator<unknown, unknown, void> | null;
  close(): void;
}

/** A window that could be opened, and the port that it would like to find the program at. */
export interface WindowToOpen {
  readonly wishedPort: number | undefined;
  open(url: string, port: number): AppWindow;
  /** Gives up what was prepared; called whether or not the window was opened. */
  release(): void;
}

export interface ServeParts {
  readonly options: HostOptions;
  readonly open: () => OpenCellar;
  readonly page: (path: string) => PageFile | undefined | Promise<PageFile | undefined>;
  readonly strict: boolean;
  /** Prepares a window; absent when there is no browser, no display, or none is wanted. */
  readonly prepareWindow: (() => WindowToOpen) | undefined;
  /** Settles when the person asks the program to end at the terminal. */
  readonly stop: Promise<void>;
  /** Settles when the person asks once more, while the program is ending. */
  readonly skip: () => Promise<void>;
  readonly log: Log;
}

/**
 * Runs the program as a loopback host until its window closes or the person stops it.
 *
 * @returns the exit code: 0 when it ran and ended, 1 when it could not start
 */
export async function serveCellar(parts: ServeParts): Promise<0 | 1> {
  const { log, options } = parts;
  let cellar: OpenCellar | undefined;
  let window: WindowToOpen | undefined;
  let host: HttpHost | undefined;
  try {
    cellar = parts.open();
    window = tryToPrepare(parts);
    host = await openHost(parts, cellar, window?.wishedPort);
    if (options.readyLine) log.say(`READY ${host.entrance()}`);
    await untilDone(parts, host, window);
    return 0;
  } catch (error) {
    const sentence = sentenceOf(error);
    if (sentence === undefined) throw error;
    log.refuse(sentence);
    return 1;
  } finally {
    await host?.close();
    window?.release();
    if (cellar !== undefined) await closeCellar(cellar, parts);
  }
}

/** Backs the cellar up first, where that is wished; asking the program to end once more skips it. */
async function closeCellar(cellar: OpenCellar, { log, skip }: ServeParts): Promise<void> {
  const skipped = new AbortController();
  try {
    const backup = cellar.backUpBeforeClosing(skipped.signal);
    if (backup === null) return;
    log.say('Backing up before closing. Press Ctrl+C again to skip it.');
    void skip().then(() => {
      skipped.abort();
    });
    while ((await backup.next()).done !== true);
  } catch (error) {
    if (!skipped.signal.aborted)
      log.fault('The backup on closing was not made; the cellar itself is saved.', error);
  } finally {
    cellar.close();
  }
}

/** The port the person named, or else the one the window knows if it is free, or else any. */
async function openHost(
  { options, page, strict, log }: ServeParts,
  { router }: OpenCellar,
  wishedPort: number | undefined,
): Promise<HttpHost> {
  const openAt = (port: number | undefined) =>
    openHttpHost({ router, page, strict, log, ...(port === undefined ? {} : { port }) });
  if (options.port !== undefined || wishedPort === undefined) return openAt(options.port);
  try {
    return await openAt(wishedPort);
  } catch (error) {
    if (error instanceof PortRefusedError) return openAt(undefined);
    throw error;
  }
}

async function untilDone(
  parts: ServeParts,
  host: HttpHost,
  prepared: WindowToOpen | undefined,
): Promise<void> {
  const window = prepared?.open(host.entrance(), host.port);
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
function tryToPrepare({ prepareWindow, log }: ServeParts): WindowToOpen | undefined {
  try {
    return prepareWindow?.();
  } catch (error) {
    log.fault('The browser window could not be prepared.', error);
    return undefined;
  }
}
