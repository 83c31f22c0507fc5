import { BrowserWindow, dialog, nativeTheme, screen } from 'electron';
import type { Log } from '../../platform/log.ts';
import { guardContents, type PageAddress } from './navigation-guard.ts';
import { safePreferences } from './safe-preferences.ts';
import {
  keepWindowState,
  placeWindow,
  readWindowState,
  smallestSize,
  type WindowState,
} from './window-state.ts';

/** The wall of design, light and dark: the ground shown until the page has painted. */
const wall = { light: '#f1f4f1', dark: '#14191c' };

export interface CellarWindowParts {
  readonly page: PageAddress;
  readonly preload: string;
  readonly stateFile: string;
  readonly log: Log;
}

/** Opens a window where the last one stood; it shows itself when the page has painted. */
export function openCellarWindow({ page, preload, stateFile, log }: CellarWindowParts): BrowserWindow {
  const state = readWindowState(stateFile);
  const main = screen.getPrimaryDisplay();
  const displays = [main, ...screen.getAllDisplays().filter(({ id }) => id !== main.id)];
  const window = new BrowserWindow({
    ...placeWindow(
      state,
      displays.map(({ workArea }) => workArea),
    ),
    minWidth: smallestSize.width,
    minHeight: smallestSize.height,
    title: 'Undercroft',
    show: false,
    backgroundColor: nativeTheme.shouldUseDarkColors ? wall.dark : wall.light,
    webPreferences: safePreferences(preload),
  });
  if (state?.isMaximized === true) window.maximize();
  if (state?.isFullScreen === true) window.setFullScreen(true);
  guardContents(window.webContents, page, log);
  window.once('ready-to-show', () => {
    window.show();
  });
  window.on('close', () => {
    keepWindowState(stateFile, stateOf(window));
  });
  window.webContents.on('render-process-gone', (_event, { reason }) => {
    offerReload(window, reason, log);
  });
  window.loadURL(page.url).catch((error: unknown) => {
    log.fault('The page could not be loaded.', error);
  });
  return window;
}

function stateOf(window: BrowserWindow): WindowState {
  const { x, y, width, height } = window.getNormalBounds();
  return {
    bounds: { x, y, width, height },
    isMaximized: window.isMaximized(),
    isFullScreen: window.isFullScreen(),
  };
}

function offerReload(window: BrowserWindow, reason: string, log: Log): void {
  if (reason === 'clean-exit' || window.isDestroyed()) return;
  log.fault('The page ended by a fault of its own.', reason);
  const choice = dialog.showMessageBoxSync(window, {
    type: 'error',
    message: 'The window stopped working.',
    detail: 'What you had kept is in the cellar file. Show the page again?',
    buttons: ['Show again', 'Close'],
    defaultId: 0,
    cancelId: 1,
  });
  if (choice === 0) window.reload();
  else window.close();
}
