import type { AppWindow } from '#main/hosts/loopback/app-window.ts';
import { serveCellar, type ServeParts } from '#main/hosts/loopback/serve-cellar.ts';
import type { HostOptions } from '#main/hosts/options.ts';
import { createServer } from 'node:net';
import { setImmediate } from 'node:timers/promises';
import { describe, expect, test } from 'vitest';
import { stubRouter } from './stub-router.ts';

const plain: HostOptions = { demo: false, noWindow: false, readyLine: false, help: false };

class RefusedCellarError extends Error {
  readonly sentence = 'This file is not a cellar.';
}

function setUp(changes: Partial<ServeParts> = {}) {
  const said: string[] = [];
  const refused: string[] = [];
  const faults: string[] = [];
  let closed = 0;
  let stop: () => void = () => undefined;
  const parts: ServeParts = {
    options: plain,
    open: () => ({
      router: stubRouter().router,
      backUpBeforeClosing: () => null,
      close: () => {
        closed += 1;
      },
    }),
    page: () => undefined,
    strict: true,
    prepareWindow: undefined,
    stop: new Promise<void>((resolve) => {
      stop = resolve;
    }),
    skip: () => new Promise(() => undefined),
    log: {
      say: (sentence) => said.push(sentence),
      refuse: (sentence) => refused.push(sentence),
      fault: (sentence) => faults.push(sentence),
    },
    ...changes,
  };
  return { parts, said, refused, faults, stop: () => stop(), closed: () => closed };
}

function fakeWindow(wishedPort?: number) {
  let end: (outcome: { failed: boolean }) => void = () => undefined;
  const addresses: string[] = [];
  const window: AppWindow = {
    ended: new Promise((resolve) => {
      end = resolve;
    }),
    close: () => {
      end({ failed: false });
    },
  };
  const ports: number[] = [];
  let released = 0;
  return {
    addresses,
    ports,
    released: () => released,
    prepare: () => ({
      wishedPort,
      open: (url: string, port: number) => {
        addresses.push(url);
        ports.push(port);
        return window;
      },
      release: () => {
        released += 1;
      },
    }),
    end,
  };
}

describe('a loopback program', () => {
  test('without a window says its address and serves until it is stopped', async () => {
    const { parts, said, stop, closed } = setUp();
    const done = serveCellar(parts);
    await expect.poll(() => said.length).toBe(2);
    expect(said[0]).toMatch(/^Undercroft is open at http:\/\/127\.0\.0\.1:\d+\/enter\?t=[\w-]{43}$/);
    expect(closed()).toBe(0);
    stop();
    expect(await done).toBe(0);
    expect(closed()).toBe(1);
  });

  test('ends when its window is closed', async () => {
    const window = fakeWindow();
    const { parts, said, closed } = setUp({ prepareWindow: window.prepare });
    const done = serveCellar(parts);
    await expect.poll(() => window.addresses.length).toBe(1);
    window.end({ failed: false });
    expect(await done).toBe(0);
    expect(closed()).toBe(1);
    expect(window.released()).toBe(1);
    expect(said).toEqual([]);
  });

  test('meets its window at the port it knows, or at another when that is taken', async () => {
    const first = fakeWindow();
    const firstRun = setUp({ prepareWindow: first.prepare });
    const firstDone = serveCellar(firstRun.parts);
    await expect.poll(() => first.ports.length).toBe(1);

    const beside = fakeWindow(first.ports[0]);
    const besideRun = setUp({ prepareWindow: beside.prepare });
    const besideDone = serveCellar(besideRun.parts);
    await expect.poll(() => beside.ports.length).toBe(1);
    expect(beside.ports[0]).not.toBe(first.ports[0]);

    first.end({ failed: false });
    beside.end({ failed: false });
    await Promise.all([firstDone, besideDone]);

    const again = fakeWindow(first.ports[0]);
    const againRun = setUp({ prepareWindow: again.prepare });
    const againDone = serveCellar(againRun.parts);
    await expect.poll(() => again.ports.length).toBe(1);
    expect(again.ports).toEqual(first.ports);
    again.end({ failed: false });
    await againDone;
  });

  test('takes its window along when it is stopped', async () => {
    const window = fakeWindow();
    const { parts, stop, closed } = setUp({ prepareWindow: window.prepare });
    const done = serveCellar(parts);
    await expect.poll(() => window.addresses.length).toBe(1);
    stop();
    expect(await done).toBe(0);
    expect(closed()).toBe(1);
  });

  test('serves on at an address when the window fails', async () => {
    const window = fakeWindow();
    const { parts, said, refused, stop } = setUp({ prepareWindow: window.prepare });
    const done = serveCellar(parts);
    await expect.poll(() => window.addresses.length).toBe(1);
    window.end({ failed: true });
    await expect.poll(() => said.length).toBe(2);
    expect(refused).toHaveLength(1);
    expect(said[0]).not.toContain(window.addresses[0]);
    stop();
    expect(await done).toBe(0);
  });

  test('serves on at an address when no window can be prepared', async () => {
    const { parts, said, faults, stop } = setUp({
      prepareWindow: () => {
        throw new Error('read-only');
      },
    });
    const done = serveCellar(parts);
    await expect.poll(() => said.length).toBe(2);
    expect(faults).toHaveLength(1);
    stop();
    expect(await done).toBe(0);
  });

  test('says the machine line only when asked', async () => {
    const { parts, said, stop } = setUp({ options: { ...plain, readyLine: true } });
    const done = serveCellar(parts);
    await expect.poll(() => said.length).toBe(3);
    expect(said[0]).toMatch(/^READY http:\/\/127\.0\.0\.1:\d+\/enter\?t=[\w-]{43}$/);
    stop();
    await done;
  });

  test('gives the sentence of a cellar that cannot be opened, and no trace', async () => {
    const { parts, refused, faults } = setUp({
      open: () => {
        throw new RefusedCellarError();
      },
    });
    expect(await serveCellar(parts)).toBe(1);
    expect(refused).toEqual(['This file is not a cellar.']);
    expect(faults).toEqual([]);
  });

  test('closes the cellar again when its port is taken', async () => {
    const taken = createServer();
    const port = await new Promise<number>((resolve) => {
      taken.listen(0, '127.0.0.1', () => {
        resolve((taken.address() as { port: number }).port);
      });
    });
    const { parts, refused, closed } = setUp({ options: { ...plain, port } });
    expect(await serveCellar(parts)).toBe(1);
    expect(refused[0]).toContain(`Port ${port} is in use`);
    expect(closed()).toBe(1);
    taken.close();
  });

  test('lets a bug show itself', async () => {
    const { parts } = setUp({
      open: () => {
        throw new TypeError('a bug');
      },
    });
    await expect(serveCellar(parts)).rejects.toThrow('a bug');
  });

  describe('backing up before it closes', () => {
    const withBackup = (steps: (signal: AbortSignal) => AsyncGenerator<unknown, unknown, void>) => {
      let closedAfter = '';
      let reached = '';
      const run = setUp({
        open: () => ({
          router: stubRouter().router,
          backUpBeforeClosing: (signal) =>
            (async function* () {
              for await (const step of steps(signal)) {
                reached = String(step);
                yield step;
              }
            })(),
          close: () => {
            closedAfter = reached;
          },
        }),
      });
      return { ...run, closedAfter: () => closedAfter };
    };

    test('it says so, and closes the cellar when that is done', async () => {
      const run = withBackup(async function* () {
        yield await Promise.resolve('half');
        yield 'whole';
      });
      const done = serveCellar(run.parts);
      run.stop();
      expect(await done).toBe(0);
      expect(run.closedAfter()).toBe('whole');
      expect(run.said).toContain('Backing up before closing. Press Ctrl+C again to skip it.');
    });

    test('asked to end once more, it skips the rest', async () => {
      const run = withBackup(async function* (signal) {
        yield 'half';
        while (!signal.aborted) await setImmediate();
        signal.throwIfAborted();
        yield 'whole';
      });
      const done = serveCellar({ ...run.parts, skip: () => Promise.resolve() });
      run.stop();
      expect(await done).toBe(0);
      expect(run.closedAfter()).toBe('half');
      expect(run.faults).toEqual([]);
    });

    test('one that fails is told, and the cellar is closed all the same', async () => {
      const run = withBackup(async function* () {
        yield await Promise.resolve('half');
        throw new Error('the stick was pulled');
      });
      const done = serveCellar(run.parts);
      run.stop();
      expect(await done).toBe(0);
      expect(run.closedAfter()).toBe('half');
      expect(run.faults).toHaveLength(1);
    });
  });
});
