import { spawn } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { howToInstall } from '../src-main/bootstrap/bring-chromium.mjs';
import { findBrowser } from '../src-main/bootstrap/find-browser.mjs';

// What `npm test` and CI run: the checks of the text, then the tests, then the journeys in a real window. Each stage
// runs whatever became of the one before; the last line counts them all.

const root = resolve(import.meta.dirname, '..');
const results = join(root, 'test-results');
const stageLimitMs = 15 * 60 * 1000;

/** No test may read or write the keeper's own cellar, or fetch anything. */
const home = mkdtempSync(join(tmpdir(), 'undercroft-test-'));
const environment: NodeJS.ProcessEnv = {
  ...process.env,
  // The log is read as a file more often than on a screen.
  NO_COLOR: '1',
  XDG_DATA_HOME: home,
  ELECTRON_SKIP_BINARY_DOWNLOAD: '1',
  UNDERCROFT_BROWSER: findBrowser({ platform: process.platform, env: process.env }) ?? '',
};

interface Count {
  readonly passed: number;
  readonly failed: number;
  readonly skipped: number;
}

interface Check {
  readonly name: string;
  readonly tool: string;
  readonly words: readonly string[];
}

const lint = (name: string, ...words: readonly string[]): Check => ({
  name,
  tool: 'eslint/bin/eslint.js',
  words: ['-c', 'tests/tidy/eslint.config.js', ...words],
});

/** Those that take longest first, so that both lanes end at about the same time: the page is linted beside all the rest. */
const checks: readonly Check[] = [
  lint('lint of src-renderer', 'src-renderer'),
  lint('lint of everything else', '.', '--ignore-pattern', 'src-renderer/**'),
  { name: 'format', tool: 'prettier/bin/prettier.cjs', words: ['--check', '--log-level', 'warn', '.'] },
  ...['src-core', 'src-main', 'src-main/hosts/electron/tsconfig.preload.json', 'tests', '.'].map(
    (project) => ({
      name: `types of ${project}`,
      tool: 'typescript/bin/tsc',
      words: ['-p', project],
    }),
  ),
  {
    name: 'types of src-renderer',
    tool: 'svelte-check/bin/svelte-check',
    words: ['--tsconfig', 'src-renderer/tsconfig.json', '--output', 'human', '--fail-on-warnings'],
  },
];

const startedAt = Date.now();
mkdirSync(results, { recursive: true });
/** Written by the bootstrap when the build went through. */
const isBuilt = existsSync(join(root, 'out/.undercroft-build'));
console.log(`${isBuilt ? 'passed' : 'FAILED'}  build`);
const built = { passed: isBuilt ? 1 : 0, failed: isBuilt ? 0 : 1, skipped: 0 };
const counts = [built, await runChecks(), await runUnitTests(), await runJourneys()];
rmSync(home, { recursive: true, force: true });

const total = counts.reduce((sum, count) => ({
  passed: sum.passed + count.passed,
  failed: sum.failed + count.failed,
  skipped: sum.skipped + count.skipped,
}));
console.log(`\nAll stages took ${Math.round((Date.now() - startedAt) / 1000)} s.`);
console.log(
  `${total.passed} passed, ${total.failed} failed${total.skipped > 0 ? `, ${total.skipped} skipped` : ''}`,
);
process.exitCode = total.failed === 0 && total.passed > 0 ? 0 : 1;

/** The text checks, two at a time, each counted as one; what a failing one says is shown whole. */
async function runChecks(): Promise<Count> {
  const waiting = [...checks];
  const outcomes: boolean[] = [];
  const lane = async () => {
    for (let check = waiting.shift(); check !== undefined; check = waiting.shift()) {
      const { code, output, seconds } = await run(check.tool, check.words, 'kept');
      console.log(`${code === 0 ? 'passed' : 'FAILED'}  ${check.name}  ${seconds} s`);
      if (code !== 0) console.log(output);
      outcomes.push(code === 0);
    }
  };
  await Promise.all([lane(), lane()]);
  const passed = outcomes.filter((good) => good).length;
  return { passed, failed: outcomes.length - passed, skipped: 0 };
}

async function runUnitTests(): Promise<Count> {
  console.log('\nTests of core, main and page');
  const file = join(results, 'tests.json');
  rmSync(file, { force: true });
  const { code } = await run(
    'vitest/vitest.mjs',
    [
      'run',
      '--config',
      'tests/vitest.config.ts',
      '--reporter=dot',
      '--reporter=json',
      `--outputFile=${file}`,
    ],
    'shown',
  );
  const report = readReport(file) as
    { numPassedTests: number; numFailedTests: number; numPendingTests: number } | undefined;
  return counted(code, report?.numPassedTests, report?.numFailedTests, report?.numPendingTests);
}

async function runJourneys(): Promise<Count> {
  console.log('\nJourneys in a real window');
  if (!isBuilt) {
    console.error('There is no program to open, since the build failed.');
    return { passed: 0, failed: 1, skipped: 0 };
  }
  if (environment['UNDERCROFT_BROWSER'] === '') {
    console.error(howToInstall());
    return { passed: 0, failed: 1, skipped: 0 };
  }
  const file = join(results, 'journeys.json');
  rmSync(file, { force: true });
  environment['PLAYWRIGHT_JSON_OUTPUT_NAME'] = file;
  const { code } = await run(
    '@playwright/test/cli.js',
    ['test', '--config', 'tests/journeys/playwright.config.ts', '--reporter=list,json'],
    'shown',
  );
  const report = readReport(file) as
    { stats: { expected: number; unexpected: number; flaky: number; skipped: number } } | undefined;
  const { stats } = report ?? {};
  if (stats !== undefined && stats.flaky > 0) {
    console.log(
      `${stats.flaky} of the journeys failed at first and passed at the second look: see "flaky" above.`,
    );
  }
  return counted(code, stats && stats.expected + stats.flaky, stats?.unexpected, stats?.skipped);
}

/** A stage that failed without a failing test, for instance by a file that cannot be read, still counts as a failure. */
function counted(code: number, passed = 0, failed = 0, skipped = 0): Count {
  return { passed, failed: code !== 0 && failed === 0 ? 1 : failed, skipped };
}

function readReport(file: string): unknown {
  return existsSync(file) ? JSON.parse(readFileSync(file, 'utf8')) : undefined;
}

interface Outcome {
  readonly code: number;
  readonly output: string;
  readonly seconds: number;
}

/** Runs a tool of node_modules under this Node; one that takes longer than any stage should is ended. */
function run(tool: string, words: readonly string[], output: 'kept' | 'shown'): Promise<Outcome> {
  const began = Date.now();
  const child = spawn(process.execPath, [join(root, 'node_modules', tool), ...words], {
    cwd: root,
    env: environment,
    stdio: ['ignore', output === 'kept' ? 'pipe' : 'inherit', output === 'kept' ? 'pipe' : 'inherit'],
    timeout: stageLimitMs,
    killSignal: 'SIGKILL',
  });
  const said: string[] = [];
  child.stdout?.on('data', (chunk: Buffer) => said.push(chunk.toString()));
  child.stderr?.on('data', (chunk: Buffer) => said.push(chunk.toString()));
  return new Promise((settle) => {
    const done = (code: number) => {
      settle({ code, output: said.join(''), seconds: Math.round((Date.now() - began) / 100) / 10 });
    };
    child.once('error', (error) => {
      said.push(String(error));
      done(1);
    });
    child.once('close', (code) => {
      done(code ?? 1);
    });
  });
}
