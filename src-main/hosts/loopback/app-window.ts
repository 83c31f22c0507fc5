import { spawn } from 'node:child_process';
import type { ProfileSlot } from './profile-slot.ts';

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
  readonly profile: Pick<ProfileSlot, 'folder' | 'isNew'>;
  /** A browser refuses to run its sandbox as root. */
  readonly isRoot: boolean;
}

const firstSize = '1280,820';

/**
 * What the browser is started with. It keeps to our profile, asks no questions at its first start, and makes no calls of
 * its own to the network. The size is given only once; afterwards the browser remembers it.
 */
export function appWindowArguments({ url, profile, isRoot }: Omit<AppWindowParts, 'browser'>): string[] {
  return [
    `--app=${url}`,
    `--user-data-dir=${profile.folder}`,
    '--class=Undercroft',
    '--no-first-run',
    '--no-default-browser-check',
    '--disable-background-networking',
    '--disable-component-update',
    '--disable-default-apps',
    '--disable-sync',
    '--disable-features=Translate,MediaRouter',
    '--password-store=basic',
    ...(profile.isNew ? [`--window-size=${firstSize}`] : []),
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
