import { accessSync, constants, existsSync } from 'node:fs';
import { delimiter, isAbsolute, join } from 'node:path';

const namesOnPath = [
  'chromium',
  'chromium-browser',
  'google-chrome-stable',
  'google-chrome',
  'brave-browser',
  'microsoft-edge-stable',
  'microsoft-edge',
  'vivaldi-stable',
];

const macApplications = ['Chromium', 'Google Chrome', 'Brave Browser', 'Microsoft Edge', 'Vivaldi'];

const windowsPrograms = [
  'Google\\Chrome\\Application\\chrome.exe',
  'Microsoft\\Edge\\Application\\msedge.exe',
  'Chromium\\Application\\chrome.exe',
  'BraveSoftware\\Brave-Browser\\Application\\brave.exe',
];

/**
 * A Chromium-family browser that can open a page as a window of its own. UNDERCROFT_BROWSER names one to prefer.
 *
 * @param {{ readonly platform: string, readonly env: Readonly<Record<string, string | undefined>> }} machine
 * @returns {string | undefined} full path of the program
 */
export function findBrowser(machine) {
  const wished = machine.env['UNDERCROFT_BROWSER'];
  if (wished !== undefined && wished !== '') return runnable(wished, machine.env);
  for (const candidate of candidates(machine)) {
    const found = runnable(candidate, machine.env);
    if (found !== undefined) return found;
  }
  return undefined;
}

/**
 * @param {{ readonly platform: string, readonly env: Readonly<Record<string, string | undefined>> }} machine
 * @returns {string[]}
 */
function candidates({ platform, env }) {
  if (platform === 'darwin') {
    const folders = [
      '/Applications',
      ...(env['HOME'] === undefined ? [] : [join(env['HOME'], 'Applications')]),
    ];
    return macApplications.flatMap((name) =>
      folders.map((folder) => join(folder, `${name}.app`, 'Contents/MacOS', name)),
    );
  }
  if (platform === 'win32') {
    const folders = [env['ProgramFiles'], env['ProgramFiles(x86)'], env['LocalAppData']];
    return folders
      .filter((folder) => folder !== undefined)
      .flatMap((folder) => windowsPrograms.map((program) => join(folder, program)));
  }
  return namesOnPath;
}

/**
 * @param {string} program a full path, or a name to look for on PATH
 * @param {Readonly<Record<string, string | undefined>>} env
 * @returns {string | undefined}
 */
function runnable(program, env) {
  if (isAbsolute(program)) return isRunnable(program) ? program : undefined;
  return (env['PATH'] ?? '')
    .split(delimiter)
    .filter((folder) => folder !== '')
    .map((folder) => join(folder, program))
    .find(isRunnable);
}

/** @param {string} file */
function isRunnable(file) {
  if (!existsSync(file)) return false;
  try {
    accessSync(file, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}
