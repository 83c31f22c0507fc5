import { describe, expect, test } from 'vitest';
import { ChartCursor } from '#renderer/cellar-book/chart-cursor.svelte.ts';
import { readingOn } from './sample-readings.ts';

const readings = [1, 5, 9].map((day) => readingOn(day, { ph: 3 + day / 10 }));
const pins = [3, 7].map((day, i) => ({
  ...{ number: i + 1, says: `act ${i + 1}` },
  ...{ atMs: readingOn(day, {}).atMs, untilMs: readingOn(day, {}).atMs },
}));
const press = (cursor: ChartCursor, ...keys: string[]): boolean[] =>
  keys.map((key) => cursor.heed({ key, ctrlKey: false, metaKey: false, altKey: false }));
const open = (): ChartCursor =>
  new ChartCursor(
    () => readings,
    () => pins,
  );

describe('stepping through the charts by keys', () => {
  test('the first press lands on the newest reading', () => {
    const cursor = open();
    press(cursor, 'ArrowLeft');
    expect(cursor.number).toBe(3);
  });

  test('arrows stop at both ends; Home and End go there', () => {
    const cursor = open();
    press(cursor, 'Home', 'ArrowLeft');
    expect(cursor.number).toBe(1);
    press(cursor, 'End', 'ArrowRight');
    expect(cursor.number).toBe(3);
  });

  test('E goes from act to act and round again; arrows go on from the act', () => {
    const cursor = open();
    press(cursor, 'Home', 'e');
    expect(cursor.pin?.number).toBe(1);
    press(cursor, 'ArrowRight');
    expect(cursor.reading).toBe(readings[1]);
    press(cursor, 'E', 'E');
    expect(cursor.pin?.number).toBe(1);
    press(cursor, 'ArrowLeft');
    expect(cursor.reading).toBe(readings[0]);
  });

  test('other keys, and chords, are left to the page', () => {
    const cursor = open();
    expect(press(cursor, 'Tab', 'r')).toEqual([false, false]);
    expect(cursor.heed({ key: 'ArrowLeft', ctrlKey: false, metaKey: false, altKey: true })).toBe(false);
    expect(press(cursor, 'Escape')).toEqual([false]);
    expect(press(cursor, 'End', 'Escape')).toEqual([true, true]);
    expect(cursor.atMs).toBeNull();
  });

  test('pointing goes to the nearest reading in time', () => {
    const cursor = open();
    cursor.goNear(readingOn(6, {}).atMs);
    expect(cursor.reading).toBe(readings[1]);
  });

  test('without readings or acts nothing happens', () => {
    const cursor = new ChartCursor(
      () => [],
      () => [],
    );
    expect(press(cursor, 'ArrowRight', 'Home', 'End', 'e')).toEqual([false, false, false, false]);
    cursor.goNear(0);
    expect(cursor.atMs).toBeNull();
  });
});
