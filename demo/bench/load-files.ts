import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { buildLoadCellar } from '../ten-thousand-vessels.ts';

const root = resolve(import.meta.dirname, '../..');
/** Where the measured cellars are kept from one run to the next. */
export const LOAD_FOLDER = join(tmpdir(), 'undercroft-bench');

/** What a built cellar depends on: with any change of these it is built anew. */
const MADE_BY = [
  ...[
    'migrations',
    'src-core/ledger',
    'src-core/ferments',
    'src-core/schedule',
    'src-core/contract/shelves.ts',
  ],
  ...[
    'src-main/ledger',
    'src-main/find',
    'src-main/shelves',
    'demo/load-story.ts',
    'demo/ten-thousand-vessels.ts',
  ],
];

/** The path of a made-up cellar of that size, built when none made by this very code lies there. */
export function loadFile(vessels: number, entries: number): string {
  const key = hashOf(MADE_BY);
  mkdirSync(LOAD_FOLDER, { recursive: true });
  for (const name of readdirSync(LOAD_FOLDER)) {
    if (!name.startsWith(key)) rmSync(join(LOAD_FOLDER, name), { recursive: true, force: true });
  }
  const path = join(LOAD_FOLDER, `${key}-${vessels}-${entries}.undercroft`);
  if (existsSync(path)) return path;
  const building = `${path}.building`;
  for (const end of ['', '-wal', '-shm']) rmSync(`${building}${end}`, { force: true });
  const startedAt = performance.now();
  console.log(`Building a cellar of ${vessels} vessels and ${entries} lines once.`);
  buildLoadCellar(building, { vessels, entries });
  renameSync(building, path);
  console.log(`It took ${((performance.now() - startedAt) / 1000).toFixed(0)} s.`);
  return path;
}

function hashOf(paths: readonly string[]): string {
  const hash = createHash('sha256');
  for (const file of paths.flatMap(filesUnder)) hash.update(file).update(readFileSync(join(root, file)));
  return hash.digest('hex').slice(0, 12);
}

function filesUnder(path: string): string[] {
  if (!statSync(join(root, path)).isDirectory()) return [path];
  return readdirSync(join(root, path))
    .sort()
    .flatMap((name) => filesUnder(`${path}/${name}`));
}
