import { homedir } from 'node:os';
import { basename } from 'node:path';
import { describe, expect, test } from 'vitest';
import { projectFiles, projectPaths } from './source-files.ts';

const paths = projectPaths();
const code = projectFiles(['.ts', '.mjs', '.js', '.svelte', '.css', '.sql']);
const texts = projectFiles([
  '.ts',
  '.mjs',
  '.js',
  '.svelte',
  '.css',
  '.sql',
  '.json',
  '.md',
  '.html',
  '.npmrc',
  '.csv',
  '/run',
]);

/** A file that is one idea and still this long, with the reason. */
const longWithReason = new Map<string, string>([
  ['tests/journeys/every-act.journey.ts', 'one table of every act: how it is filled in, and its mistakes'],
]);
const linesMax = 600;

describe('names', () => {
  const source = paths.filter((path) => /^(src-|tests|demo|migrations)/.test(path));

  test('files are kebab-case, components PascalCase', () => {
    const wrong = source.filter((path) => {
      const name = basename(path);
      if (path.endsWith('.svelte')) return !/^[A-Z][A-Za-z0-9]*\.svelte$/.test(name);
      if (!/\.(ts|mjs|js|sql|css)$/.test(path) || path.startsWith('migrations/')) return false;
      return !/^[a-z0-9]+(-[a-z0-9]+)*(\.[a-z]+)*\.(ts|mjs|js|css)$/.test(name);
    });
    expect(wrong).toEqual([]);
  });

  test('a folder is called after what it can do, not after a kind of code', () => {
    const banned = /(^|\/)(utils?|common|services?|models?|types?|helpers?|lib|libs|misc|shared)\//;
    expect(source.filter((path) => banned.test(path))).toEqual([]);
  });
});

describe('what is written down', () => {
  test('no path of one machine', () => {
    // A test may make up a home; nothing may name the one it was written in.
    const written = /(?<![\w.}])\/(?:work|root)\/\w|\/Users\/\w/;
    const madeUp = /(?<![\w.}])\/(?:tmp|home\/(?!you\b)\w+)\/\w|[A-Z]:\\\\Users\\\\\w/;
    const here = [process.cwd(), homedir()].filter((path) => path.length > 1);
    expect(linesMatching(written)).toEqual([]);
    expect(linesMatching(madeUp).filter((line) => !line.startsWith('tests/'))).toEqual([]);
    expect(
      texts.filter(({ text }) => here.some((path) => text.includes(`${path}/`))).map(({ path }) => path),
    ).toEqual([]);
  });

  test('no address of a registry or of a download', () => {
    const hosts =
      /registry\.[a-z]+js|npmjs\.(?:org|com)|yarnpkg\.com|deb\.debian|githubusercontent|github\.com\/[^\s]*\/(?:releases|archive)|unpkg\.com|jsdelivr/;
    expect(linesMatching(hosts)).toEqual([]);
  });

  test('the lock names versions and hashes, no addresses', () => {
    const lock = texts.find(({ path }) => path === 'package-lock.json');
    expect(lock?.text).toContain('"integrity"');
    expect(lock?.text).not.toContain('"resolved"');
  });

  test(`no file of more than ${linesMax} lines without a reason`, () => {
    const long = code.filter(({ text }) => text.split('\n').length > linesMax).map(({ path }) => path);
    expect(long).toEqual([...longWithReason.keys()]);
  });

  test('no work left in a comment', () => {
    const left = new RegExp(
      String.raw`\b(${['TO' + 'DO', 'FIX' + 'ME', 'XX' + 'X', 'HA' + 'CK'].join('|')})\b`,
    );
    expect(linesMatching(left)).toEqual([]);
  });
});

function linesMatching(pattern: RegExp): string[] {
  return texts.flatMap(({ path, text }) =>
    text
      .split('\n')
      .flatMap((line, index) =>
        pattern.test(line) && !isThisFile(path) ? [`${path}:${index + 1}: ${line.trim()}`] : [],
      ),
  );
}

function isThisFile(path: string): boolean {
  return path === 'tests/tidy/text.test.ts';
}
