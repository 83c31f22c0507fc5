import { appWindowArguments, openAppWindow } from '#main/hosts/loopback/app-window.ts';
import { keptWindowSize, readKeptWindowSize } from '#main/hosts/loopback/kept-window-size.ts';
import { claimProfileSlot } from '#main/hosts/loopback/profile-slot.ts';
import { existsSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { hostname, tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';

let folder: string;

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'undercroft-window-'));
});

afterEach(() => {
  rmSync(folder, { recursive: true, force: true });
});

describe('the browser window', () => {
  const parts = {
    url: 'http://127.0.0.1:1/enter?t=x',
    profileFolder: '/p',
    kept: undefined,
    isRoot: false,
  };

  test('is an app window on a profile of our own, and asks nothing', () => {
    const words = appWindowArguments(parts);
    expect(words).toContain('--app=http://127.0.0.1:1/enter?t=x');
    expect(words).toContain('--user-data-dir=/p');
    expect(words).toContain('--no-first-run');
    expect(words).toContain('--no-default-browser-check');
  });

  test('gives up its sandbox only as root, and then without a notice bar', () => {
    expect(appWindowArguments(parts)).not.toContain('--no-sandbox');
    expect(appWindowArguments({ ...parts, isRoot: true })).toEqual(
      expect.arrayContaining(['--no-sandbox', '--test-type']),
    );
  });

  test('is 1280 by 820 the first time, then as large as it was', () => {
    expect(appWindowArguments(parts)).toContain('--window-size=1280,820');
    const kept = appWindowArguments({ ...parts, kept: { width: 900, height: 700, isMaximized: true } });
    expect(kept).toEqual(expect.arrayContaining(['--window-size=900,700', '--start-maximized']));
  });

  test('was as large as the browser wrote down', () => {
    const written = (placement: unknown) =>
      JSON.stringify({
        browser: { app_window_placement: { '127': { '0': { '0': { '1_/enter': placement } } } } },
      });
    const usual = { left: 10, right: 1010, top: 20, bottom: 720, maximized: false, work_area_left: 0 };
    expect(keptWindowSize(written(usual))).toEqual({ width: 1000, height: 700, isMaximized: false });
    expect(keptWindowSize(written({ ...usual, maximized: true }))?.isMaximized).toBe(true);
    for (const bad of [{}, null, { ...usual, right: 12 }, { ...usual, right: 1e9 }, { ...usual, top: 'x' }]) {
      expect(keptWindowSize(written(bad))).toBeUndefined();
    }
    for (const text of ['', '{', 'null', '[]', '{"browser":7}', '{"browser":{}}']) {
      expect(keptWindowSize(text)).toBeUndefined();
    }
    expect(readKeptWindowSize(folder)).toBeUndefined();
  });

  test('that cannot be started ends as failed', async () => {
    const window = openAppWindow({ ...parts, browser: join(folder, 'no-such-browser') });
    expect(await window.ended).toEqual({ failed: true });
  });

  test('whose browser ends with a fault ends as failed, otherwise as closed', async () => {
    expect(await openAppWindow({ ...parts, browser: '/bin/false' }).ended).toEqual({ failed: true });
    expect(await openAppWindow({ ...parts, browser: '/bin/true' }).ended).toEqual({ failed: false });
  });
});

describe('the window profile', () => {
  const alive = () => true;
  const dead = () => false;

  test('is kept from start to start', () => {
    const first = claimProfileSlot(folder, alive);
    expect(first).toMatchObject({ folder: join(folder, '1') });
    first.release();
    expect(existsSync(join(folder, '1/undercroft.lock'))).toBe(false);
    expect(claimProfileSlot(folder, alive)).toMatchObject({ folder: join(folder, '1') });
  });

  test('remembers its port, and forgets what is no port', () => {
    const first = claimProfileSlot(folder, alive);
    expect(first.keptPort).toBeUndefined();
    first.keepPort(43210);
    first.release();
    const second = claimProfileSlot(folder, alive);
    expect(second.keptPort).toBe(43210);
    second.release();
    for (const text of ['', 'x', '80', '70000']) {
      writeFileSync(join(folder, '1/undercroft.port'), text);
      const next = claimProfileSlot(folder, alive);
      expect(next.keptPort).toBeUndefined();
      next.release();
    }
  });

  test('is never shared by two programs that run', () => {
    claimProfileSlot(folder, alive);
    expect(claimProfileSlot(folder, alive).folder).toBe(join(folder, '2'));
  });

  test('of a program that was killed is taken over', () => {
    claimProfileSlot(folder, alive);
    expect(claimProfileSlot(folder, dead).folder).toBe(join(folder, '1'));
  });

  test('with a damaged lock is taken over', () => {
    claimProfileSlot(folder, alive);
    writeFileSync(join(folder, '1/undercroft.lock'), 'not a number');
    expect(claimProfileSlot(folder, alive).folder).toBe(join(folder, '1'));
  });

  test('that a left-over browser still uses is passed over', () => {
    claimProfileSlot(folder, alive).release();
    symlinkSync(`${hostname()}-1`, join(folder, '1/SingletonLock'));
    expect(claimProfileSlot(folder, alive).folder).toBe(join(folder, '2'));
    expect(claimProfileSlot(folder, dead).folder).toBe(join(folder, '1'));
  });
});
