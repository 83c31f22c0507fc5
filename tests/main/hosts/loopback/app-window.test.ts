import { appWindowArguments, openAppWindow } from '#main/hosts/loopback/app-window.ts';
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
    profile: { folder: '/p', isNew: false },
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

  test('has a size given only the first time', () => {
    const sized = (isNew: boolean) =>
      appWindowArguments({ ...parts, profile: { folder: '/p', isNew } }).some((word) =>
        word.startsWith('--window-size='),
      );
    expect(sized(true)).toBe(true);
    expect(sized(false)).toBe(false);
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
    expect(first).toMatchObject({ folder: join(folder, '1'), isNew: true });
    first.release();
    expect(existsSync(join(folder, '1/undercroft.lock'))).toBe(false);
    expect(claimProfileSlot(folder, alive)).toMatchObject({ folder: join(folder, '1'), isNew: false });
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
