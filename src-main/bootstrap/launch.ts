import { spawn } from 'node:child_process';
import { resolve } from 'node:path';
import type * as LoopbackEntry from '../serve.ts';
import { helpText, readOptions, type HostOptions } from '../hosts/options.ts';
import { findBrowser } from './find-browser.mjs';
import { electronProgram, fetchElectron } from './find-electron.mjs';

// What `npm start` runs, under the project's own Node 24, once everything is installed and built. It only chooses the
// host: Electron where its program is or can be had, otherwise a browser window, otherwise an address.

const root = resolve(import.meta.dirname, '../..');
const isRoot = process.getuid?.() === 0;

/** An Electron that ends this soon by a fault of its own never showed a window. */
const failedAtOnceMs = 10_000;
const smallestFaultCode = 126;

/** npm runs a script in the project's folder; a file the person names is meant from where they stand. */
const standsIn = process.env['INIT_CWD'];
if (standsIn !== undefined) process.chdir(standsIn);

process.exitCode = await launch(process.argv.slice(2));

async function launch(words: readonly string[]): Promise<number> {
  const reading = readOptions(words);
  if (!reading.ok) {
    console.error(reading.sentence);
    return 2;
  }
  const { options } = reading;
  if (options.help) {
    console.log(helpText);
    return 0;
  }
  if (options.noWindow || !hasDisplay()) return serve(options, undefined);

  const electron = electronProgram(root) ?? fetchElectron(root, Date.now());
  if (electron !== undefined) {
    const ended = await runElectron(electron, words);
    if (ended !== 'failed at once') return ended;
  }
  const browser = findBrowser({ platform: process.platform, env: process.env });
  console.log(sayWhichHost(electron !== undefined, browser !== undefined));
  return serve(options, browser);
}

function sayWhichHost(electronFailed: boolean, hasBrowser: boolean): string {
  const electron = electronFailed ? 'Electron could not start here' : 'Electron is not on this computer';
  return hasBrowser
    ? `${electron}; Undercroft opens in a browser window instead.`
    : `${electron} and no Chromium-family browser was found; Undercroft prints its address instead.`;
}

/** A window needs a screen; on macOS and Windows there always is one. */
function hasDisplay(): boolean {
  if (process.platform === 'darwin' || process.platform === 'win32') return true;
  return Boolean(process.env['DISPLAY'] ?? process.env['WAYLAND_DISPLAY']);
}

async function serve(options: HostOptions, browser: string | undefined): Promise<number> {
  const built = (await import(
    new URL('../../out/main/serve.js', import.meta.url).href
  )) as typeof LoopbackEntry;
  return built.serve(options, browser);
}

/** Runs Electron until it ends and gives its exit code. The sandbox of a browser engine does not run as root. */
function runElectron(program: string, words: readonly string[]): Promise<number | 'failed at once'> {
  const startedAt = Date.now();
  const child = spawn(program, [...(isRoot ? ['--no-sandbox'] : []), root, ...words], {
    stdio: 'inherit',
    cwd: process.cwd(),
  });
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) {
    process.on(signal, () => child.kill(signal));
  }
  return new Promise((resolveCode) => {
    child.once('error', () => {
      resolveCode('failed at once');
    });
    child.once('exit', (code, signal) => {
      const soon = Date.now() - startedAt < failedAtOnceMs;
      const fault = code === null ? signal !== 'SIGINT' && signal !== 'SIGTERM' : code >= smallestFaultCode;
      resolveCode(soon && fault ? 'failed at once' : (code ?? 1));
    });
  });
}
