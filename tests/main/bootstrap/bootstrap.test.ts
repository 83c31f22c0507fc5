import { findBrowser } from '#main/bootstrap/find-browser.mjs';
import { electronProgram, fetchElectron, mayTryAgain } from '#main/bootstrap/find-electron.mjs';
import { hashFiles, stampMatches, writeStamp } from '#main/bootstrap/stamps.mjs';
import { spawn, spawnSync } from 'node:child_process';
import {
  chmodSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';

let folder: string;

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'undercroft-ready-'));
});

afterEach(() => {
  rmSync(folder, { recursive: true, force: true });
});

function write(path: string, text: string): string {
  const file = join(folder, path);
  mkdirSync(resolve(file, '..'), { recursive: true });
  writeFileSync(file, text);
  return file;
}

describe('what is stale', () => {
  const paths = ['package.json', 'src'];
  const hash = () => hashFiles(folder, paths, ['linux']);

  beforeEach(() => {
    write('package.json', '{}');
    write('src/a.ts', 'a');
    write('src/deep/b.ts', 'b');
  });

  test('follows contents, names and facts, not times', () => {
    const before = hash();
    utimesSync(join(folder, 'src/a.ts'), 1, 1);
    expect(hash()).toBe(before);
    expect(hashFiles(folder, paths, ['darwin'])).not.toBe(before);
    write('src/a.ts', 'A');
    expect(hash()).not.toBe(before);
    write('src/a.ts', 'a');
    write('src/c.ts', '');
    expect(hash()).not.toBe(before);
    rmSync(join(folder, 'src/c.ts'));
    expect(hash()).toBe(before);
  });

  test('a stamp holds for the hash it was written for', () => {
    const stamp = join(folder, 'out/.stamp');
    expect(stampMatches(stamp, hash())).toBe(false);
    writeStamp(stamp, hash());
    expect(stampMatches(stamp, hash())).toBe(true);
    write('src/a.ts', 'changed');
    expect(stampMatches(stamp, hash())).toBe(false);
  });
});

describe('taking turns', () => {
  const script = () => {
    const turns = resolve(import.meta.dirname, '../../../src-main/bootstrap/take-turns.mjs');
    return write(
      'turn.mjs',
      `import { appendFileSync } from 'node:fs';
       import { setTimeout } from 'node:timers/promises';
       import { takeTurn } from ${JSON.stringify(turns)};
       takeTurn(${JSON.stringify(join(folder, 'turn'))}, () => {});
       appendFileSync(${JSON.stringify(join(folder, 'log'))}, 'in ');
       await setTimeout(100);
       appendFileSync(${JSON.stringify(join(folder, 'log'))}, 'out ');`,
    );
  };
  const run = (file: string) =>
    new Promise((done) => spawn(process.execPath, [file], { stdio: 'inherit' }).once('exit', done));

  test('one start at a time prepares the folder', async () => {
    const file = script();
    expect(await Promise.all([run(file), run(file), run(file)])).toEqual([0, 0, 0]);
    expect(readFileSync(join(folder, 'log'), 'utf8')).toBe('in out in out in out ');
    expect(existsSync(join(folder, 'turn'))).toBe(false);
  });

  test('a turn that was never given back is taken over', async () => {
    write('turn', 'not a process');
    expect(await run(script())).toBe(0);
  });
});

describe('the browser', () => {
  function program(name: string): string {
    const file = write(`bin/${name}`, '#!/bin/sh\n');
    chmodSync(file, 0o755);
    return file;
  }
  const machine = (env: Record<string, string>) => ({ platform: 'linux', env });

  test('is found on PATH in the order of the list', () => {
    const chrome = program('google-chrome');
    const path = { PATH: `/nowhere:${join(folder, 'bin')}` };
    expect(findBrowser(machine(path))).toBe(chrome);
    const chromium = program('chromium');
    expect(findBrowser(machine(path))).toBe(chromium);
  });

  test('is the one a person names, or none', () => {
    program('chromium');
    const mine = program('my-browser');
    const path = join(folder, 'bin');
    expect(findBrowser(machine({ PATH: path, UNDERCROFT_BROWSER: mine }))).toBe(mine);
    expect(findBrowser(machine({ PATH: path, UNDERCROFT_BROWSER: 'my-browser' }))).toBe(mine);
    expect(findBrowser(machine({ PATH: path, UNDERCROFT_BROWSER: '/no/such' }))).toBeUndefined();
  });

  test('is not a file that cannot be run', () => {
    write('bin/chromium', 'text');
    chmodSync(join(folder, 'bin/chromium'), 0o644);
    expect(findBrowser(machine({ PATH: join(folder, 'bin') }))).toBeUndefined();
    expect(findBrowser(machine({}))).toBeUndefined();
  });

  test('is looked for where each system keeps programs', () => {
    const mac = write('Applications/Google Chrome.app/Contents/MacOS/Google Chrome', '');
    chmodSync(mac, 0o755);
    const found = findBrowser({ platform: 'darwin', env: { HOME: folder } });
    expect(found).toBe(mac);
  });
});

describe('Electron', () => {
  test('is there when its package names a program that exists', () => {
    expect(electronProgram(folder)).toBeUndefined();
    write('node_modules/electron/path.txt', 'electron');
    expect(electronProgram(folder)).toBeUndefined();
    const program = write('node_modules/electron/dist/electron', '');
    expect(electronProgram(folder)).toBe(program);
  });

  test('is fetched by its own package, and a failure is remembered for a day', () => {
    const skip = process.env['ELECTRON_SKIP_BINARY_DOWNLOAD'];
    delete process.env['ELECTRON_SKIP_BINARY_DOWNLOAD'];
    write(
      'node_modules/electron/install.js',
      "require('node:fs').writeFileSync(__dirname + '/tried', ''); process.exit(1);",
    );
    const tried = join(folder, 'node_modules/electron/tried');
    expect(fetchElectron(folder, 1_000_000)).toBeUndefined();
    expect(existsSync(tried)).toBe(true);
    rmSync(tried);
    expect(fetchElectron(folder, 2_000_000)).toBeUndefined();
    expect(existsSync(tried)).toBe(false);

    write(
      'node_modules/electron/install.js',
      `const fs = require('node:fs');
       fs.mkdirSync(__dirname + '/dist');
       fs.writeFileSync(__dirname + '/dist/electron', '');
       fs.writeFileSync(__dirname + '/path.txt', 'electron');`,
    );
    expect(fetchElectron(folder, 1_000_000 + 86_400_000)).toBe(
      join(folder, 'node_modules/electron/dist/electron'),
    );
    if (skip !== undefined) process.env['ELECTRON_SKIP_BINARY_DOWNLOAD'] = skip;
  });

  test('is not fetched when the switch of its package says so', () => {
    const skip = process.env['ELECTRON_SKIP_BINARY_DOWNLOAD'];
    process.env['ELECTRON_SKIP_BINARY_DOWNLOAD'] = '1';
    expect(fetchElectron(folder, 0)).toBeUndefined();
    expect(existsSync(join(folder, 'node_modules'))).toBe(false);
    if (skip === undefined) delete process.env['ELECTRON_SKIP_BINARY_DOWNLOAD'];
    else process.env['ELECTRON_SKIP_BINARY_DOWNLOAD'] = skip;
  });

  test.each([
    ['0', 86_399_999, false],
    ['0', 86_400_000, true],
    ['', 5, true],
    ['text', 5, true],
    ['10', 5, true],
  ])('a failure at %j, at %i: try again is %s', (failedAt, now, again) => {
    expect(mayTryAgain(failedAt, now)).toBe(again);
  });
});

describe('npm start', () => {
  const launch = resolve(import.meta.dirname, '../../../src-main/bootstrap/launch.ts');
  const start = (...words: readonly string[]) =>
    spawnSync(process.execPath, [launch, ...words], { encoding: 'utf8', timeout: 20_000 });

  test('explains itself', () => {
    const { status, stdout } = start('--help');
    expect(status).toBe(0);
    expect(stdout).toContain('npm start -- --cellar FILE');
  });

  test('ends with 2 and a sentence for a word it does not know', () => {
    const { status, stdout, stderr } = start('--colour');
    expect(status).toBe(2);
    expect(stdout).toBe('');
    expect(stderr).toBe(
      '"--colour" is not an option of Undercroft. "npm start -- --help" lists what may be said.\n',
    );
  });
});
