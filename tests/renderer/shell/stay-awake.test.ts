import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { StayAwake } from '#renderer/shell/stay-awake.svelte.ts';

let sight: DocumentVisibilityState = 'visible';
beforeEach(() => {
  localStorage.clear();
  sight = 'visible';
  vi.spyOn(document, 'visibilityState', 'get').mockImplementation(() => sight);
});
afterEach(() => {
  vi.restoreAllMocks();
});

const settled = (): Promise<void> => new Promise((resolve) => setTimeout(resolve));
function locks() {
  const release = vi.fn(() => Promise.resolve());
  const request = vi.fn(() => Promise.resolve({ release }));
  return { request, release };
}

test('nothing is asked of the system before it is wanted, nor outside pantry mode', async () => {
  const given = locks();
  const awake = new StayAwake(given);
  awake.follow(true)();
  awake.want(true);
  awake.follow(false)();
  await settled();
  expect(given.request).not.toHaveBeenCalled();
});

test('the screen is held in pantry mode, asked for again when the window comes back, and let go', async () => {
  const given = locks();
  const awake = new StayAwake(given);
  awake.want(true);
  const end = awake.follow(true);
  await settled();
  expect(given.request).toHaveBeenCalledTimes(1);
  sight = 'hidden';
  document.dispatchEvent(new Event('visibilitychange'));
  sight = 'visible';
  document.dispatchEvent(new Event('visibilitychange'));
  await settled();
  expect(given.request).toHaveBeenCalledTimes(2);
  end();
  expect(given.release).toHaveBeenCalledTimes(1);
  document.dispatchEvent(new Event('visibilitychange'));
  await settled();
  expect(given.request).toHaveBeenCalledTimes(2);
});

test('one that comes too late is let go at once', async () => {
  const given = locks();
  const awake = new StayAwake(given);
  awake.want(true);
  awake.follow(true)();
  await settled();
  expect(given.release).toHaveBeenCalledTimes(1);
});

test('a refusal, or a system that cannot, is said', async () => {
  for (const system of [{ request: () => Promise.reject(new Error('low battery')) }, null]) {
    const awake = new StayAwake(system);
    awake.want(true);
    awake.follow(true);
    await settled();
    expect(awake.refused).toBe(true);
  }
});

test('is a habit of this machine', () => {
  new StayAwake(null).want(true);
  expect(new StayAwake(null).wanted).toBe(true);
});
