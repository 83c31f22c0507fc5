import { readFileSync, rmSync, writeFileSync } from 'node:fs';

/**
 * Waits until no other start prepares the same folder, and keeps the next one waiting until this process ends: two
 * installations at once destroy each other. A lock left by a process that was killed is taken over.
 *
 * @param {string} lock file that stands for the folder's turn
 * @param {() => void} tellWaiting called once when there is someone to wait for
 */
export function takeTurn(lock, tellWaiting) {
  const own = String(process.pid);
  let told = false;
  for (;;) {
    const holder = claim(lock, own);
    if (holder === undefined) break;
    if (!isRunning(holder)) {
      rmSync(lock, { force: true });
      continue;
    }
    if (!told) tellWaiting();
    told = true;
    Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 200);
  }
  process.once('exit', () => {
    rmSync(lock, { force: true });
  });
}

/**
 * @param {string} lock
 * @param {string} own
 * @returns {number | undefined} the process that holds the turn; undefined when it is ours now
 */
function claim(lock, own) {
  try {
    writeFileSync(lock, own, { flag: 'wx' });
    return undefined;
  } catch (error) {
    if (!isCode(error, 'EEXIST')) throw error;
  }
  try {
    return Number(readFileSync(lock, 'utf8'));
  } catch (error) {
    if (isCode(error, 'ENOENT')) return Number.NaN; // Just given back; the next try takes it.
    throw error;
  }
}

/** @param {number} pid */
function isRunning(pid) {
  if (!Number.isInteger(pid) || pid <= 0) return false;
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return isCode(error, 'EPERM');
  }
}

/**
 * @param {unknown} error
 * @param {string} code
 */
function isCode(error, code) {
  return error instanceof Error && 'code' in error && error.code === code;
}
