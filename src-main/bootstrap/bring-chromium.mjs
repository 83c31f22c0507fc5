import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { findBrowser } from './find-browser.mjs';

const wait = ['-o', 'DPkg::Lock::Timeout=300'];
const wanted = ['chromium', 'fonts-dejavu-core'];

/**
 * The journeys need a Chromium. Where it is missing and this is Debian (or a descendant) and root asks, it is
 * installed; anywhere else the sentence says what to do, and the tests that need no browser still run.
 */
export function bringChromium() {
  if (findBrowser({ platform: process.platform, env: process.env }) !== undefined) return;
  if (!isDebian() || process.getuid?.() !== 0) {
    console.error(howToInstall());
    return;
  }
  console.log('Installing Chromium for the tests in a real window.');
  if (!aptInstall()) {
    apt(['update', '-q']);
    if (!aptInstall()) console.error(`Chromium could not be installed. ${howToInstall()}`);
  }
}

/**
 * @returns {string} what a person types to get a browser the journeys can use
 */
export function howToInstall() {
  const command = isDebian() ? '"sudo apt-get install chromium"' : 'your system\'s own way, as "chromium"';
  return (
    `No Chromium was found. Install it by ${command} and run this again, ` +
    'or name a Chromium-family browser in the environment variable UNDERCROFT_BROWSER.'
  );
}

function aptInstall() {
  return apt(['install', '-y', '-q', '--no-install-recommends', ...wanted]);
}

/** @param {readonly string[]} command */
function apt(command) {
  const done = spawnSync('apt-get', [...wait, ...command], {
    stdio: ['ignore', 'ignore', 'inherit'],
    env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
  });
  return done.status === 0;
}

function isDebian() {
  if (!existsSync('/etc/os-release')) return false;
  return /^ID(_LIKE)?=.*debian/m.test(readFileSync('/etc/os-release', 'utf8'));
}
