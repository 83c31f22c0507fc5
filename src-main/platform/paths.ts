import { join, posix, win32 } from 'node:path';

/** What decides where a program keeps its files. */
export interface Surroundings {
  readonly platform: string;
  readonly home: string;
  readonly env: Readonly<Record<string, string | undefined>>;
}

/**
 * The folder of Undercroft's own files: XDG_DATA_HOME on Linux (a relative value is ignored, as the XDG Base Directory
 * specification asks), Library/Application Support on macOS, APPDATA on Windows.
 *
 * @returns a full path; the folder need not exist yet
 */
export function dataFolder({ platform, home, env }: Surroundings): string {
  if (platform === 'win32') {
    return win32.join(env['APPDATA'] ?? win32.join(home, 'AppData', 'Roaming'), 'Undercroft');
  }
  if (platform === 'darwin') return posix.join(home, 'Library', 'Application Support', 'Undercroft');
  const xdg = env['XDG_DATA_HOME'];
  const base = xdg !== undefined && posix.isAbsolute(xdg) ? xdg : posix.join(home, '.local', 'share');
  return posix.join(base, 'Undercroft');
}

/** The cellar that is opened when none is named. */
export function defaultCellarFile(folder: string): string {
  return join(folder, 'cellar.undercroft');
}
