import { existsSync, readFileSync } from 'node:fs';
import { dirname, join, posix, resolve } from 'node:path';
import { gzipSync } from 'node:zlib';
import type { BenchLine } from './report.ts';

const GOAL_KB = 300;
const page = resolve(import.meta.dirname, '../../out/renderer');

/** What the built page must load before it can draw: scripts, the scripts they import at once, and styles; gzip. */
export function pageWeight(): BenchLine[] {
  const index = join(page, 'index.html');
  if (!existsSync(index)) {
    const none = { measured: 'not built', beside: '', ratio: '', met: false };
    return [{ what: 'the page, scripts and styles', ...none, goal: `<= ${GOAL_KB} kB gzip` }];
  }
  const html = readFileSync(index, 'utf8');
  const named = [...html.matchAll(/(?:src|href)="\.\/([^"]+\.(?:js|css))"/g)].flatMap((m) => m[1] ?? []);
  const files = withImports(named);
  const packed = files.map((file) => gzipSync(readFileSync(join(page, file)), { level: 9 }).length);
  const kB = packed.reduce((sum, bytes) => sum + bytes, 0) / 1000;
  return [
    {
      what: 'the page, scripts and styles',
      ...{ measured: `${kB.toFixed(1)} kB`, beside: `${files.length} files, gzip`, ratio: '' },
      ...{ goal: `<= ${GOAL_KB} kB gzip`, met: kB <= GOAL_KB },
    },
  ];
}

function withImports(named: readonly string[]): string[] {
  const found = new Set<string>();
  const waiting = [...named];
  for (let file = waiting.pop(); file !== undefined; file = waiting.pop()) {
    if (found.has(file)) continue;
    found.add(file);
    if (!file.endsWith('.js')) continue;
    const text = readFileSync(join(page, file), 'utf8');
    for (const [, path] of text.matchAll(
      /(?:^|[;}\s])import\s*(?:[^'"();]*?from\s*)?["'](\.[^"']+\.js)["']/g,
    )) {
      if (path !== undefined) waiting.push(posix.join(dirname(file), path));
    }
  }
  return [...found];
}
