import { app, dialog, ipcMain, Menu, protocol, session, type BrowserWindow } from 'electron';
import { mkdirSync } from 'node:fs';
import { join, resolve } from 'node:path';
import type { Progress } from '#core/contract/cellar.ts';
import type { Log } from '../../platform/log.ts';
import { defaultCellarFile } from '../../platform/paths.ts';
import type { CellarRouter } from '../call-faults.ts';
import { readOptions, type HostOptions } from '../options.ts';
import { pageFilesIn } from '../page-files.ts';
import { sentenceOf } from '../sentence-of.ts';
import { backUpOnClosing } from './back-up-on-closing.ts';
import { menuChannel } from './channels.ts';
import { answerPipes } from './ipc-host.ts';
import { menuTemplate } from './menu.ts';
import { guardSession, type PageAddress } from './navigation-guard.ts';
import { pageScheme, pageUrl, servePage } from './page-scheme.ts';
import { openCellarWindow } from './window.ts';

export interface DesktopCellar {
  readonly router: CellarRouter;
  readonly cellarPath: string;
  /** The backup on closing; null when there is nothing to do. Stopped, it leaves nothing behind. */
  backUpBeforeClosing(signal: AbortSignal): AsyncGenerator<Progress, unknown, void> | null;
  close(): void;
}

export interface DesktopParts {
  /** The words after the program's name. */
  readonly words: readonly string[];
  /** Opens a cellar; throws an error with a sentence when it cannot be opened. */
  readonly open: (options: HostOptions) => DesktopCellar;
  readonly dataFolder: string;
  /** Folder of the built program, with `renderer` and `preload` in it. */
  readonly built: string;
  /** Address of a development server for the page. */
  readonly development: string | undefined;
  readonly log: Log;
}

interface OpenWindow {
  readonly window: BrowserWindow;
  readonly cellar: DesktopCellar;
}

/** What a second start tells the running program: its words, and the folder they were said in. */
interface SecondStart {
  readonly words: readonly string[];
  readonly folder: string;
}

/** Runs the program as a desktop application until its last window closes. */
export async function runDesktop(parts: DesktopParts): Promise<void> {
  const { log } = parts;
  const reading = readOptions(parts.words);
  if (!reading.ok) {
    log.refuse(reading.sentence);
    app.exit(2);
    return;
  }

  const profile = join(parts.dataFolder, 'electron');
  mkdirSync(profile, { recursive: true });
  app.setPath('userData', profile);
  const said: SecondStart = { words: parts.words, folder: process.cwd() };
  if (!app.requestSingleInstanceLock(said)) {
    app.quit();
    return;
  }

  app.enableSandbox();
  protocol.registerSchemesAsPrivileged([pageScheme]);
  const page: PageAddress = { url: parts.development ?? pageUrl, strict: parts.development === undefined };
  const windows = new Map<number, OpenWindow>();
  app.on('window-all-closed', () => {
    app.quit();
  });
  app.on('second-instance', (_event, _argv, _folder, second) => {
    openAgain(second as SecondStart, windows, parts, page);
  });

  await app.whenReady();
  servePage(protocol, pageFilesIn(join(parts.built, 'renderer')));
  guardSession(session.defaultSession, page);
  answerPipes({ ipcMain, page, routerOf: (id) => windows.get(id)?.cellar.router, log });
  Menu.setApplicationMenu(
    Menu.buildFromTemplate(
      menuTemplate({
        isMac: process.platform === 'darwin',
        withTools: !page.strict,
        ask: (window, request) => {
          const asked = [...windows.values()].find((open) => open.window === window);
          asked?.window.webContents.send(menuChannel, request);
        },
      }),
    ),
  );
  app.setAboutPanelOptions({ applicationName: 'Undercroft', applicationVersion: app.getVersion() });
  if (!openCellar(reading.options, windows, parts, page)) app.exit(1);
}

/** Opens a cellar in a window of its own; false, after telling why in a dialog, when it cannot be opened. */
function openCellar(
  options: HostOptions,
  windows: Map<number, OpenWindow>,
  parts: DesktopParts,
  page: PageAddress,
): boolean {
  let cellar: DesktopCellar;
  try {
    cellar = parts.open(options);
  } catch (error) {
    const sentence = sentenceOf(error);
    if (sentence === undefined) throw error;
    parts.log.refuse(sentence);
    dialog.showErrorBox('Undercroft', sentence);
    return false;
  }
  const window = openCellarWindow({
    page,
    preload: join(parts.built, 'preload/preload.cjs'),
    stateFile: join(parts.dataFolder, 'window-state.json'),
    log: parts.log,
  });
  const { id } = window.webContents;
  windows.set(id, { window, cellar });
  backUpOnClosing(window, (signal) => cellar.backUpBeforeClosing(signal), parts.log);
  window.once('closed', () => {
    windows.delete(id);
    cellar.close();
  });
  return true;
}

/** A second start shows the window of the cellar it names, or opens that cellar in a second window. */
function openAgain(
  second: SecondStart,
  windows: Map<number, OpenWindow>,
  parts: DesktopParts,
  page: PageAddress,
): void {
  const reading = readOptions(second.words);
  if (!reading.ok) return;
  const wished =
    reading.options.cellar === undefined
      ? defaultCellarFile(parts.dataFolder)
      : resolve(second.folder, reading.options.cellar);
  const shown = [...windows.values()].find(({ cellar }) => resolve(cellar.cellarPath) === wished);
  if (shown === undefined || reading.options.demo) {
    openCellar(
      reading.options.demo ? reading.options : { ...reading.options, cellar: wished },
      windows,
      parts,
      page,
    );
    return;
  }
  if (shown.window.isMinimized()) shown.window.restore();
  shown.window.focus();
}
