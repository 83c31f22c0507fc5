import {
  keepWindowState,
  parseWindowState,
  placeWindow,
  readWindowState,
  type Bounds,
} from '#main/hosts/electron/window-state.ts';
import fc from 'fast-check';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';

const desk: Bounds = { x: 0, y: 0, width: 1920, height: 1040 };
const right: Bounds = { x: 1920, y: 0, width: 1280, height: 984 };

function stood(bounds: Bounds) {
  return { bounds, isMaximized: false, isFullScreen: false };
}

describe('where the window opens', () => {
  test('the first time: 1280 by 820 in the middle of the main display', () => {
    expect(placeWindow(undefined, [desk, right])).toEqual({ x: 320, y: 110, width: 1280, height: 820 });
  });

  test('where it stood, also on a second display', () => {
    const bounds = { x: 2000, y: 60, width: 900, height: 700 };
    expect(placeWindow(stood(bounds), [desk, right])).toEqual(bounds);
  });

  test('in the middle of the main display when its own is gone', () => {
    const bounds = { x: 2000, y: 60, width: 900, height: 700 };
    expect(placeWindow(stood(bounds), [desk])).toEqual({ x: 510, y: 170, width: 900, height: 700 });
  });

  test('never larger than the display, never smaller than the page works in', () => {
    const large = placeWindow(stood({ x: 0, y: 0, width: 4000, height: 3000 }), [desk]);
    expect(large).toMatchObject({ width: 1920, height: 1040 });
    const small = placeWindow(stood({ x: 0, y: 0, width: 200, height: 100 }), [desk]);
    expect(small).toMatchObject({ width: 760, height: 520 });
  });

  test('with its title bar within reach', () => {
    expect(placeWindow(stood({ x: 100, y: -300, width: 900, height: 700 }), [desk]).y).toBe(0);
  });

  test('on some display, wherever it stood', () => {
    const whole = fc.integer({ min: -100_000, max: 100_000 });
    const size = fc.integer({ min: 1, max: 100_000 });
    fc.assert(
      fc.property(whole, whole, size, size, (x, y, width, height) => {
        const placed = placeWindow(stood({ x, y, width, height }), [desk, right]);
        const seen = [desk, right].some(
          (display) =>
            placed.x < display.x + display.width &&
            placed.x + placed.width > display.x &&
            placed.y >= display.y &&
            placed.y < display.y + display.height,
        );
        expect(seen).toBe(true);
      }),
    );
  });
});

describe('the kept state', () => {
  test('comes back as it was kept', () => {
    const folder = mkdtempSync(join(tmpdir(), 'undercroft-state-'));
    const file = join(folder, 'deeper/window-state.json');
    expect(readWindowState(file)).toBeUndefined();
    const state = { bounds: { x: 1, y: 2, width: 800, height: 600 }, isMaximized: true, isFullScreen: false };
    keepWindowState(file, state);
    expect(readWindowState(file)).toEqual(state);
    writeFileSync(file, '{"bounds":');
    expect(readWindowState(file)).toBeUndefined();
    rmSync(folder, { recursive: true });
  });

  test.each([
    '',
    'null',
    '[]',
    '{}',
    '{"bounds":null}',
    '{"bounds":{"x":1,"y":2,"width":3}}',
    '{"bounds":{"x":1.5,"y":2,"width":800,"height":600}}',
    '{"bounds":{"x":1,"y":2,"width":0,"height":600}}',
    '{"bounds":{"x":"1","y":2,"width":800,"height":600}}',
  ])('%j is no state', (text) => {
    expect(parseWindowState(text)).toBeUndefined();
  });
});
