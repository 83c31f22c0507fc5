import type { Progress } from '#core/contract/cellar.ts';
import { runDesktop, type DesktopParts } from '#main/hosts/electron/desktop.ts';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setImmediate } from 'node:timers/promises';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { stubRouter } from '../loopback/stub-router.ts';

/** Stands in for Electron, whose program is not needed to see in which order it would be asked what. */
const electron = vi.hoisted(() => {
  type Heed = (...words: unknown[]) => unknown;
  const asked: string[] = [];
  const heeding = new Map<string, Heed>();
  const windows: FakeWindow[] = [];
  const errors: string[] = [];
  const settings = { hasLock: true };
  /** What the last sheet was answered with; waits while nobody answers. */
  const sheet = { answer: new Promise<void>(() => undefined) };

  class Emitter {
    readonly heeds = new Map<string, Heed[]>();
    on(name: string, heed: Heed) {
      this.heeds.set(name, [...(this.heeds.get(name) ?? []), heed]);
    }
    once(name: string, heed: Heed) {
      this.on(name, heed);
    }
    emit(name: string, ...words: unknown[]): unknown {
      return (this.heeds.get(name) ?? []).map((heed) => heed(...words)).at(-1);
    }
  }

  class FakeWindow extends Emitter {
    readonly webContents = Object.assign(new Emitter(), {
      id: windows.length + 1,
      sent: [] as unknown[][],
      openHandler: undefined as Heed | undefined,
      setWindowOpenHandler(heed: Heed) {
        this.openHandler = heed;
      },
      send(...words: unknown[]) {
        this.sent.push(words);
      },
    });
    readonly options: Record<string, unknown>;
    loaded = '';
    focused = 0;
    shown = 0;
    constructor(options: Record<string, unknown>) {
      super();
      this.options = options;
      windows.push(this);
    }
    loadURL(url: string) {
      this.loaded = url;
      return Promise.resolve();
    }
    show() {
      this.shown += 1;
    }
    focus() {
      this.focused += 1;
    }
    isMinimized = () => false;
    isMaximized = () => false;
    isFullScreen = () => false;
    destroyed = false;
    progress: number[] = [];
    isDestroyed = () => this.destroyed;
    destroy() {
      this.destroyed = true;
      this.emit('closed');
    }
    setProgressBar(progress: number) {
      this.progress.push(progress);
    }
    getNormalBounds = () => ({ x: 10, y: 20, width: 900, height: 700 });
  }

  const app = Object.assign(new Emitter(), {
    setPath: (name: string) => asked.push(`setPath ${name}`),
    requestSingleInstanceLock: () => {
      asked.push('lock');
      return settings.hasLock;
    },
    enableSandbox: () => asked.push('sandbox'),
    whenReady: () => {
      asked.push('ready');
      return Promise.resolve();
    },
    exit: (code: number) => asked.push(`exit ${code}`),
    quit: () => asked.push('quit'),
    getVersion: () => '0.1.0',
    setAboutPanelOptions: () => undefined,
  });
  const display = { id: 1, workArea: { x: 0, y: 0, width: 1920, height: 1040 } };
  return {
    asked,
    windows,
    errors,
    settings,
    sheet,
    heeding,
    module: {
      app,
      BrowserWindow: FakeWindow,
      dialog: {
        showErrorBox: (_title: string, text: string) => errors.push(text),
        showMessageBox: () => sheet.answer,
      },
      ipcMain: { on: (name: string, heed: Heed) => heeding.set(name, heed) },
      Menu: {
        buildFromTemplate: (template: unknown) => template,
        setApplicationMenu: (menu: unknown) => heeding.set('menu', () => menu),
      },
      nativeTheme: { shouldUseDarkColors: true },
      protocol: {
        registerSchemesAsPrivileged: () => asked.push('scheme'),
        handle: (scheme: string, heed: Heed) => heeding.set(`scheme ${scheme}`, heed),
      },
      screen: { getPrimaryDisplay: () => display, getAllDisplays: () => [display] },
      session: {
        defaultSession: {
          setPermissionRequestHandler: (heed: Heed) => heeding.set('permission', heed),
          setPermissionCheckHandler: (heed: Heed) => heeding.set('permission check', heed),
          setDevicePermissionHandler: (heed: Heed) => heeding.set('device', heed),
          webRequest: {
            onBeforeRequest: (heed: Heed) => heeding.set('request', heed),
            onHeadersReceived: (heed: Heed) => heeding.set('headers', heed),
          },
        },
      },
    },
  };
});

vi.mock('electron', () => electron.module);

let folder: string;
let opened: string[];
let closed: string[];
let backup: ((signal: AbortSignal) => AsyncGenerator<Progress, unknown, void>) | null;

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'undercroft-desktop-'));
  mkdirSync(join(folder, 'out/renderer'), { recursive: true });
  writeFileSync(join(folder, 'out/renderer/index.html'), '<title>Undercroft</title>');
  opened = [];
  closed = [];
  backup = null;
  electron.sheet.answer = new Promise(() => undefined);
  electron.asked.length = 0;
  electron.windows.length = 0;
  electron.errors.length = 0;
  electron.heeding.clear();
  electron.module.app.heeds.clear();
  electron.settings.hasLock = true;
});

afterEach(() => {
  rmSync(folder, { recursive: true, force: true });
});

class RefusedCellarError extends Error {
  readonly sentence = 'This file is not a cellar.';
}

function run(words: readonly string[] = []): Promise<void> {
  const parts: DesktopParts = {
    words,
    open: ({ cellar }) => {
      const cellarPath = cellar ?? join(folder, 'data/cellar.undercroft');
      if (cellarPath.endsWith('.txt')) throw new RefusedCellarError();
      opened.push(cellarPath);
      return {
        ...{ router: stubRouter().router, cellarPath, close: () => closed.push(cellarPath) },
        backUpBeforeClosing: (signal) => backup?.(signal) ?? null,
      };
    },
    dataFolder: join(folder, 'data'),
    built: join(folder, 'out'),
    development: undefined,
    log: { say: () => undefined, refuse: () => undefined, fault: () => undefined },
  };
  return runDesktop(parts);
}

function secondStart(...words: readonly string[]) {
  electron.module.app.emit('second-instance', {}, [], '', { words, folder });
}

describe('the desktop program', () => {
  test('takes its place before the engine is ready', async () => {
    await run();
    expect(electron.asked).toEqual(['setPath userData', 'lock', 'sandbox', 'scheme', 'ready']);
  });

  test('opens one guarded window on its page, shown when painted', async () => {
    await run();
    const [window] = electron.windows;
    expect(window?.loaded).toBe('undercroft://cellar/');
    expect(window?.options).toMatchObject({
      show: false,
      width: 1280,
      height: 820,
      minWidth: 760,
      minHeight: 520,
      backgroundColor: '#14191c',
      webPreferences: { sandbox: true, contextIsolation: true, nodeIntegration: false },
    });
    expect(window?.shown).toBe(0);
    window?.emit('ready-to-show');
    expect(window?.shown).toBe(1);
  });

  test('refuses permissions, devices, foreign addresses, new windows and navigation', async () => {
    await run();
    const permission = vi.fn();
    electron.heeding.get('permission')?.({}, 'geolocation', permission);
    expect(permission).toHaveBeenCalledWith(false);
    expect(electron.heeding.get('permission check')?.({}, 'geolocation')).toBe(false);
    // Only the screen may be kept on, which sticky hands need and nothing can be learnt from.
    expect(electron.heeding.get('permission check')?.({}, 'screen-wake-lock')).toBe(true);
    expect(electron.heeding.get('device')?.()).toBe(false);
    const request = vi.fn();
    electron.heeding.get('request')?.({ url: 'https://example.org/' }, request);
    expect(request).toHaveBeenCalledWith({ cancel: true });
    const headers = vi.fn();
    electron.heeding.get('headers')?.({ responseHeaders: {} }, headers);
    expect(headers.mock.calls[0]?.[0]).toMatchObject({
      responseHeaders: { 'Content-Security-Policy': expect.stringContaining("default-src 'none'") as string },
    });

    const contents = electron.windows[0]?.webContents;
    expect(contents?.openHandler?.({ url: 'undercroft://cellar/' })).toEqual({ action: 'deny' });
    for (const name of ['will-navigate', 'will-frame-navigate', 'will-redirect', 'will-attach-webview']) {
      const preventDefault = vi.fn();
      contents?.emit(name, { url: 'https://example.org/', preventDefault });
      expect(preventDefault, name).toHaveBeenCalledOnce();
    }
    const home = vi.fn();
    contents?.emit('will-navigate', { url: 'undercroft://cellar/#/shelves', preventDefault: home });
    expect(home).not.toHaveBeenCalled();
  });

  test('keeps where the window stood, and closes the cellar with it', async () => {
    await run();
    electron.windows[0]?.emit('close');
    electron.windows[0]?.emit('closed');
    expect(closed).toEqual(opened);
    await run();
    expect(electron.windows[1]?.options).toMatchObject({ x: 10, y: 20, width: 900, height: 700 });
    electron.module.app.emit('window-all-closed');
    expect(electron.asked.at(-1)).toBe('quit');
  });

  test('says in a dialog why a cellar cannot be opened', async () => {
    await run(['--cellar', join(folder, 'notes.txt')]);
    expect(electron.errors).toEqual(['This file is not a cellar.']);
    expect(electron.windows).toEqual([]);
    expect(electron.asked.at(-1)).toBe('exit 1');
  });

  test('does not start on a word it does not know', async () => {
    await run(['--colour']);
    expect(electron.asked).toEqual(['exit 2']);
  });

  test('is asked for from its menu', async () => {
    await run();
    type Item = { label?: string; submenu?: Item[]; click?: (item: unknown, window: unknown) => void };
    const menu = electron.heeding.get('menu')?.() as Item[];
    const cultures = menu.flatMap(({ submenu }) => submenu ?? []).find(({ label }) => label === 'Cultures');
    cultures?.click?.({}, electron.windows[0]);
    cultures?.click?.({}, undefined);
    expect(electron.windows[0]?.webContents.sent).toEqual([['undercroft:menu', 'cultures']]);
  });
});

describe('a second start', () => {
  test('hands its words over and ends', async () => {
    electron.settings.hasLock = false;
    await run();
    expect(electron.asked.at(-1)).toBe('quit');
    expect(opened).toEqual([]);
  });

  test('brings the window of the same cellar to the front', async () => {
    await run();
    secondStart();
    expect(electron.windows).toHaveLength(1);
    expect(electron.windows[0]?.focused).toBe(1);
  });

  test('opens another cellar in a second window, and tells why it cannot', async () => {
    await run();
    secondStart('--cellar', 'other.undercroft');
    expect(opened[1]).toBe(join(folder, 'other.undercroft'));
    expect(electron.windows).toHaveLength(2);
    secondStart('--cellar', 'other.undercroft');
    expect(electron.windows).toHaveLength(2);
    expect(electron.windows[1]?.focused).toBe(1);
    secondStart('--cellar', 'notes.txt');
    expect(electron.errors).toHaveLength(1);
    expect(electron.windows).toHaveLength(2);
    secondStart('--nonsense');
    expect(electron.windows).toHaveLength(2);
  });

  describe('a window that is closed', () => {
    const pressCross = () => {
      let prevented = false;
      electron.windows[0]?.emit('close', { preventDefault: () => (prevented = true) });
      return prevented;
    };

    test('closes at once when there is nothing to back up', async () => {
      await run();
      expect(pressCross()).toBe(false);
    });

    test('waits for its backup, shows how far it is, and closes', async () => {
      backup = async function* () {
        yield await Promise.resolve({ what: 'copy', done: 1, total: 2 });
        yield { what: 'copy', done: 2, total: 2 };
      };
      await run();
      expect(pressCross()).toBe(true);
      await vi.waitFor(() => {
        expect(electron.windows[0]?.destroyed).toBe(true);
      });
      expect(electron.windows[0]?.progress).toEqual([0.5, 1]);
      expect(closed).toHaveLength(1);
    });

    test('closes when the keeper skips it', async () => {
      backup = async function* (signal) {
        yield await Promise.resolve({ what: 'copy', done: 1, total: 2 });
        while (!signal.aborted) await setImmediate();
        signal.throwIfAborted();
      };
      electron.sheet.answer = Promise.resolve();
      await run();
      pressCross();
      await vi.waitFor(() => {
        expect(electron.windows[0]?.destroyed).toBe(true);
      });
    });
  });
});
