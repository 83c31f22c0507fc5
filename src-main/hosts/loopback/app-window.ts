import { spawn } from 'node:child_process';
import type { KeptWindowSize } from './kept-window-size.ts';

/** The program's page in a browser window of its own, without address bar or tabs. */
export interface AppWindow {
  /** Settles when the browser has ended, with how it ended. */
  readonly ended: Promise<{ readonly failed: boolean }>;
  /** Asks the browser to end. */
  close(): void;
}

export interface AppWindowParts {
  readonly browser: string;
  readonly url: string;
  readonly profileFolder: string;
  /** How large the last window was; undefined the first time. */
  readonly kept: KeptWindowSize | undefined;
  /** A browser refuses to run its sandbox as root. */
  readonly isRoot: boolean;
}

const firstSize: KeptWindowSize = { width: 1280, height: 820, isMaximized: false };

/**
 * What the browser is started with. It keeps to our profile, asks no questions at its first start, and makes no calls of
 * its own to the network.
 */
export function appWindowArguments(parts: Omit<AppWindowParts, 'browser'>): string[] {
  const { url, profileFolder, kept = firstSize, isRoot } = parts;
  return [
    `--app=${url}`,
    `--user-data-dir=${profileFolder}`,
    '--class=Undercroft',
    '--no-first-run',
    '--no-default-browser-check',
    '--disable-background-networking',
    '--disable-component-update',
    '--disable-default-apps',
    '--disable-sync',
    '--disable-features=Translate,MediaRouter',
    '--password-store=basic',
    `--window-size=${kept.width},${kept.height}`,
    ...(kept.isMaximized ? ['--start-maximized'] : []),
    ...(isRoot ? ['--no-sandbox', '--test-type'] : []),
  ];
}

/** Opens the window; a browser that cannot be started at all ends at once as failed. */
export function openAppWindow(parts: AppWindowParts): AppWindow {
  const child = spawn(parts.browser, appWindowArguments(parts), { stdio: 'ignore' });
  const ended = new Promise<{ failed: boolean }>((resolve) => {
    child.once('error', () => {
      resolve({ failed: true });
    });
    child.once('exit', (code) => {
      resolve({ failed: code !== 0 });
    });
  });
  return {
    ended,
    close() {
      child.kill('SIGTERM');
    },
  };
}
