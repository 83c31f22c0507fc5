import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';

const fetchLimitMs = 60_000;
const dayMs = 24 * 60 * 60 * 1000;

/**
 * The Electron program that is already on this machine. The package is never imported for this: importing it starts a
 * download.
 *
 * @param {string} root folder of the project
 * @returns {string | undefined} full path of the program
 */
export function electronProgram(root) {
  const packageFolder = join(root, 'node_modules/electron');
  const pathFile = join(packageFolder, 'path.txt');
  if (!existsSync(pathFile)) return undefined;
  const program = join(packageFolder, 'dist', readFileSync(pathFile, 'utf8').trim());
  return existsSync(program) ? program : undefined;
}

/**
 * Tries once to fetch Electron the way its own package does, for a minute at most. A failure is remembered for a day,
 * so that only the first start waits. ELECTRON_SKIP_BINARY_DOWNLOAD, the package's own switch, is honoured.
 *
 * @param {string} root folder of the project
 * @param {number} now milliseconds since 1970
 * @returns {string | undefined} full path of the program, when it is there now
 */
export function fetchElectron(root, now) {
  if (process.env['ELECTRON_SKIP_BINARY_DOWNLOAD']) return undefined;
  const failureFile = join(root, 'node_modules/.undercroft-electron-failed');
  if (existsSync(failureFile) && !mayTryAgain(readFileSync(failureFile, 'utf8'), now)) return undefined;
  console.log('Fetching Electron, for at most a minute; without it the window opens in a browser.');
  const done = spawnSync(process.execPath, [join(root, 'node_modules/electron/install.js')], {
    stdio: 'ignore',
    timeout: fetchLimitMs,
    killSignal: 'SIGKILL',
  });
  const program = done.status === 0 ? electronProgram(root) : undefined;
  if (program === undefined) {
    mkdirSync(dirname(failureFile), { recursive: true });
    writeFileSync(failureFile, String(now));
  }
  return program;
}

/**
 * @param {string} failedAt what the stamp holds: milliseconds since 1970
 * @param {number} now milliseconds since 1970
 * @returns {boolean} true a day later, and for a stamp that cannot be read or lies in the future
 */
export function mayTryAgain(failedAt, now) {
  const then = Number(failedAt);
  return !(failedAt.trim() !== '' && then <= now && now - then < dayMs);
}
