import { linkSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';

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
    if (holder === OURS) break;
    // Just given back: the next try may take it.
    if (holder === GONE) continue;
    if (!isRunning(Number(holder))) {
      takeAway(lock, holder, own);
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

const OURS = Symbol('ours');
const GONE = Symbol('gone');

/**
 * The lock comes into being with its holder's name in it, by linking: nobody ever reads one that is half written.
 *
 * @param {string} lock
 * @param {string} own
 * @returns {string | typeof OURS | typeof GONE} what the lock says, when another has it
 */
function claim(lock, own) {
  const named = `${lock}.${own}`;
  writeFileSync(named, own);
  try {
    linkSync(named, lock);
    return OURS;
  } catch (error) {
    if (!isCode(error, 'EEXIST')) throw error;
  } finally {
    rmSync(named, { force: true });
  }
  try {
    return readFileSync(lock, 'utf8');
  } catch (error) {
    if (isCode(error, 'ENOENT')) return GONE;
    throw error;
  }
}

/**
 * Takes away a lock whose holder is gone. Another start may have done so first and have its own there by now, so what
 * was taken is looked at, and put back when it is not the one that was meant.
 *
 * @param {string} lock
 * @param {string} holder
 * @param {string} own
 */
function takeAway(lock, holder, own) {
  const aside = `${lock}.gone-${own}`;
  try {
    renameSync(lock, aside);
    if (readFileSync(aside, 'utf8') !== holder) linkSync(aside, lock);
  } catch (error) {
    if (!isCode(error, 'ENOENT') && !isCode(error, 'EEXIST')) throw error;
  } finally {
    rmSync(aside, { force: true });
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
