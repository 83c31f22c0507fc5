import { describe, expect, test } from 'vitest';
import { wrongWay } from './layer-rules.ts';
import { importsOf, projectFiles, projectPaths, type Import, type SourceFile } from './source-files.ts';

const sources = projectFiles(['.ts', '.svelte', '.mjs']).filter(({ path }) => path.startsWith('src-'));
const imports = sources.flatMap(importsOf);

describe('the layers', () => {
  test('each import points the way the house is built', () => {
    const wrong = imports.flatMap((one) => {
      const reason = wrongWay(one);
      return reason === undefined ? [] : [`${one.from} imports ${one.to}: ${reason}`];
    });
    expect(wrong).toEqual([]);
  });

  test('no file imports itself, directly or around a corner', () => {
    expect(cycles(imports)).toEqual([]);
  });

  test('an import of our own names its file whole', () => {
    const paths = new Set(projectPaths());
    const unfound = imports.filter(
      ({ to, isPackage }) => !isPackage && !paths.has(to) && /\.(ts|svelte|mjs)$|\/[^.]+$/.test(to),
    );
    expect(unfound.map(({ from, to }) => `${from} imports ${to}`)).toEqual([]);
  });

  test('each source file is used by something', () => {
    const used = new Set(
      projectFiles(['.ts', '.svelte', '.mjs', '.html']).flatMap((file) =>
        importsOf(file).map(({ to }) => to),
      ),
    );
    const entries =
      /^src-main\/(main|serve)\.ts$|^src-main\/bootstrap\/|\/preload\.ts$|-worker\.ts$|^src-renderer\/main\.ts$/;
    const unused = sources.filter(
      ({ path }) => !used.has(path) && !entries.test(path) && !path.endsWith('.d.ts'),
    );
    expect(unused.map(({ path }) => path)).toEqual([]);
  });
});

describe('the rule itself', () => {
  const one = (from: string, to: string, isPackage = false): Import => ({ from, to, isPackage });

  test.each([
    one('src-core/ledger/a.ts', 'src-core/quantities/b.ts'),
    one('src-core/ledger/a.ts', 'src-core/ledger/b.ts'),
    one('src-core/contract/a.ts', 'zod', true),
    one('src-main/ledger/a.ts', 'src-core/ledger/b.ts'),
    one('src-main/hosts/loopback/a.ts', 'src-main/platform/log.ts'),
    one('src-main/serve.ts', 'src-main/hosts/options.ts'),
    one('src-main/hosts/electron/a.ts', 'electron', true),
    one('src-renderer/shelves/A.svelte', 'src-renderer/ui/B.svelte'),
    one('src-renderer/App.svelte', 'src-renderer/shelves/A.svelte'),
    one('src-renderer/ui/a.ts', 'src-core/quantities/b.ts'),
  ])('allows $from to import $to', (good) => {
    expect(wrongWay(good)).toBeUndefined();
  });

  test.each([
    one('src-core/quantities/a.ts', 'src-core/ledger/b.ts'),
    one('src-core/must/a.ts', 'src-core/acid/b.ts'),
    one('src-core/brine/a.ts', 'src-core/acid/b.ts'),
    one('src-core/unknown/a.ts', 'src-core/base/b.ts'),
    one('src-core/ledger/a.ts', 'src-main/ledger/b.ts'),
    one('src-core/ledger/a.ts', 'node:fs', true),
    one('src-core/ledger/a.ts', 'drizzle-orm/sqlite-core', true),
    one('src-main/ledger/a.ts', 'src-renderer/words/b.ts'),
    one('src-main/ledger/a.ts', 'demo/sample-cellar.ts'),
    one('src-main/ledger/a.ts', 'src-main/hosts/options.ts'),
    one('src-main/ledger/a.ts', 'src-main/rpc/router.ts'),
    one('src-main/ledger/a.ts', 'electron', true),
    one('src-main/hosts/loopback/a.ts', 'src-main/ledger/b.ts'),
    one('src-main/platform/a.ts', 'src-main/cellar/b.ts'),
    one('src-renderer/shelves/a.ts', 'src-renderer/cultures/b.ts'),
    one('src-renderer/ui/a.ts', 'src-renderer/words/b.ts'),
    one('src-renderer/ui/a.ts', 'src-core/ledger/b.ts'),
    one('src-renderer/words/a.ts', 'src-renderer/backend/b.ts'),
    one('src-renderer/acts/a.ts', 'src-renderer/shelves/b.ts'),
    one('src-renderer/shelves/a.ts', 'src-main/ledger/b.ts'),
    one('src-renderer/shelves/a.ts', 'node:path', true),
  ])('refuses $from importing $to', (bad) => {
    expect(wrongWay(bad)).toBeTypeOf('string');
  });

  test('reads every way of writing an import', () => {
    const file: SourceFile = {
      path: 'src-main/ledger/a.ts',
      text: [
        "import { a } from './b.ts';",
        "import type {\n  C,\n} from '#core/ledger/c.ts';",
        "import './side-effect.ts';",
        "export * from '../rpc/d.ts';",
        "const e = await import('./e.ts');",
        "import f from 'zod';",
        "const text = 'an import of something from elsewhere';",
      ].join('\n'),
    };
    expect(importsOf(file).map(({ to }) => to)).toEqual([
      'src-main/ledger/b.ts',
      'src-core/ledger/c.ts',
      'src-main/ledger/side-effect.ts',
      'src-main/rpc/d.ts',
      'src-main/ledger/e.ts',
      'zod',
    ]);
  });

  test('finds a cycle', () => {
    expect(cycles([one('a.ts', 'b.ts'), one('b.ts', 'c.ts'), one('c.ts', 'b.ts')])).toEqual([
      'b.ts → c.ts → b.ts',
    ]);
  });
});

/** Each cycle once, written as the way round it. */
function cycles(edges: readonly Import[]): string[] {
  const next = Map.groupBy(
    edges.filter(({ isPackage }) => !isPackage),
    ({ from }) => from,
  );
  const finished = new Set<string>();
  const found: string[] = [];
  const visit = (file: string, way: readonly string[]) => {
    const at = way.indexOf(file);
    if (at !== -1) {
      found.push([...way.slice(at), file].join(' → '));
      return;
    }
    if (finished.has(file)) return;
    for (const { to } of next.get(file) ?? []) visit(to, [...way, file]);
    finished.add(file);
  };
  for (const file of next.keys()) visit(file, []);
  return found;
}
