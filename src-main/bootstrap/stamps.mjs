import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, readdirSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';

/**
 * One hash over the names and contents of files and folders. Contents, not times, because git sets every time at
 * checkout. A path that does not exist counts as absent, so adding it later changes the hash.
 *
 * @param {string} root folder the paths are relative to
 * @param {readonly string[]} paths files or folders
 * @param {readonly string[]} [facts] further strings that matter, such as the platform
 * @returns {string}
 */
export function hashFiles(root, paths, facts = []) {
  const hash = createHash('sha256');
  for (const fact of facts) hash.update(`fact\0${fact}\0`);
  for (const path of paths) {
    for (const file of filesUnder(root, path)) {
      hash.update(`file\0${file}\0`);
      hash.update(readFileSync(join(root, file)));
    }
  }
  return hash.digest('hex');
}

/**
 * @param {string} root
 * @param {string} path
 * @returns {string[]} files in a stable order, with forward slashes
 */
function filesUnder(root, path) {
  const full = join(root, path);
  if (!existsSync(full)) return [];
  if (!statSync(full).isDirectory()) return [path];
  return readdirSync(full)
    .sort()
    .flatMap((name) => filesUnder(root, `${path}/${name}`));
}

/**
 * @param {string} file
 * @param {string} hash
 * @returns {boolean} whether the stamp was written for this very hash
 */
export function stampMatches(file, hash) {
  return existsSync(file) && readFileSync(file, 'utf8') === hash;
}

/**
 * @param {string} file
 * @param {string} hash
 */
export function writeStamp(file, hash) {
  mkdirSync(dirname(file), { recursive: true });
  writeFileSync(file, hash);
}
