import { test as base, expect, type Page } from '@playwright/test';
import { spawn, type ChildProcess } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';

const entry = resolve(import.meta.dirname, '../../out/main/serve.js');
/** A fault is told within it; a busy machine may need most of it. */
const startLimitMs = 90_000;

/** The built program on a cellar file of its own, as a journey starts, closes and opens it again. */
export interface Program {
  readonly file: string;
  /** Starts the loopback host and gives an address that enters once. */
  start(...words: readonly string[]): Promise<string>;
  /** Starts the host and enters in the journey's window. */
  open(...words: readonly string[]): Promise<void>;
  /** Ends the host as Ctrl+C does and gives its exit code. */
  close(): Promise<number | null>;
  /** Ends the host at once, as when the machine loses its power. */
  kill(): Promise<void>;
  /** Starts another host on the same file and waits until it has ended. */
  startBeside(): Promise<{ readonly code: number | null; readonly said: string }>;
  /** What the host printed so far, both streams. */
  output(): string;
  /** Whether an address is of the host that runs now. */
  serves(url: string): boolean;
}

/** A call refused for a reason the contract names is an answer; the browser still writes it to its console. */
const answeredRefusal = /Failed to load resource: .* 4\d\d/;

/**
 * The journey test: a window without console errors (but those a journey says it provokes, in `expectedFault`), and a
 * program that is ended afterwards whatever happened.
 */
export const test = base.extend<{
  program: Program;
  /** The sample is told by the program itself, and not copied from the one told before all journeys. */
  sampleToldAnew: boolean;
  expectedFault: RegExp;
  quietConsole: undefined;
}>({
  sampleToldAnew: [false, { option: true }],
  expectedFault: [/^$/, { option: true }],
  program: async ({ page, sampleToldAnew }, use) => {
    const folder = mkdtempSync(join(tmpdir(), 'undercroft-journey-'));
    const running = startable(folder, page, sampleToldAnew);
    await use(running);
    await running.close();
    rmSync(folder, { recursive: true, force: true });
  },
  quietConsole: [
    // The program is asked for so that it still runs while the console is judged: its ending is not the window's fault.
    async ({ page, expectedFault, program }, use) => {
      const faults: string[] = [];
      page.on('pageerror', (error) => faults.push(String(error)));
      page.on('console', (message) => {
        const { url } = message.location();
        const isAnswer = url.includes('/rpc/') && answeredRefusal.test(message.text());
        // What the window still asks of a host that the journey has ended.
        const isGone = message.text().includes('ERR_CONNECTION_REFUSED') && !program.serves(url);
        if (message.type() === 'error' && !isAnswer && !isGone && !expectedFault.test(message.text()))
          faults.push(message.text());
      });
      await use(undefined);
      expect(faults, 'the window wrote no errors to its console').toEqual([]);
    },
    { auto: true },
  ],
});

export { expect };

function startable(folder: string, page: Page, isToldAnew: boolean): Program {
  const file = join(folder, 'cellar.undercroft');
  let child: ChildProcess | undefined;
  let origin: string | undefined;
  let said = '';
  const program: Program = {
    file,
    async start(...words) {
      const chosen = words.includes('--demo') ? [] : ['--cellar', file];
      child = spawn(process.execPath, [entry, '--ready-line', ...chosen, ...words], {
        stdio: ['ignore', 'pipe', 'pipe'],
        env: {
          ...process.env,
          XDG_DATA_HOME: folder,
          ...(isToldAnew ? { UNDERCROFT_TOLD_SAMPLE: undefined } : {}),
        },
      });
      const before = said.length;
      child.stdout?.on('data', (chunk: Buffer) => (said += chunk.toString()));
      child.stderr?.on('data', (chunk: Buffer) => (said += chunk.toString()));
      const address = await readyAddress(child, () => said.slice(before));
      ({ origin } = new URL(address));
      return address;
    },
    async open(...words) {
      await page.goto(await program.start(...words));
    },
    close() {
      const ending = child;
      child = undefined;
      origin = undefined;
      if (ending === undefined) return Promise.resolve(null);
      if (ending.exitCode !== null) return Promise.resolve(ending.exitCode);
      return new Promise((settle) => {
        ending.once('exit', settle);
        ending.kill('SIGINT');
      });
    },
    kill() {
      const ending = child;
      child = undefined;
      origin = undefined;
      return new Promise((settle) => {
        if (ending === undefined || ending.exitCode !== null) {
          settle();
          return;
        }
        ending.once('exit', () => {
          settle();
        });
        ending.kill('SIGKILL');
      });
    },
    startBeside() {
      const other = spawn(process.execPath, [entry, '--ready-line', '--cellar', file], {
        stdio: ['ignore', 'pipe', 'pipe'],
        env: { ...process.env, XDG_DATA_HOME: folder },
        timeout: startLimitMs,
      });
      let words = '';
      other.stdout.on('data', (chunk: Buffer) => (words += chunk.toString()));
      other.stderr.on('data', (chunk: Buffer) => (words += chunk.toString()));
      return new Promise((settle) => {
        other.once('close', (code) => {
          settle({ code, said: words });
        });
      });
    },
    output: () => said,
    serves: (url) => origin !== undefined && url.startsWith(`${origin}/`),
  };
  return program;
}

function readyAddress(child: ChildProcess, output: () => string): Promise<string> {
  return new Promise((settle, fail) => {
    const limit = setTimeout(() => {
      fail(new Error(`The program was not ready in time. It said: ${output()}`));
    }, startLimitMs);
    child.stdout?.on('data', () => {
      const address = /^READY (\S+)$/m.exec(output())?.[1];
      if (address === undefined) return;
      clearTimeout(limit);
      settle(address);
    });
    child.once('exit', (code) => {
      clearTimeout(limit);
      fail(new Error(`The program ended with ${String(code)}. It said: ${output()}`));
    });
  });
}
