import { describe, expect, test } from 'vitest';
import { utcOfCivil } from '#core/quantities/civil-time.ts';
import { METRIC_HOUSE } from '#core/quantities/house-units.ts';
import { readQuantityField } from '#renderer/acts/read-quantity.ts';
import { howFar, readWhenField } from '#renderer/acts/read-when.ts';
import { amiss, LOCAL_TIME, NOW_MS, readerOf } from './form-text.ts';

describe('a quantity field', () => {
  const held = (text: string, keptText = '') =>
    readQuantityField({ kind: 'gravity', text, keptText, house: METRIC_HOUSE });

  test('is empty, understood, or says what is wrong', () => {
    expect(held('  ').type).toBe('empty');
    expect(held('1,048')).toMatchObject({
      type: 'understood',
      understood: { value: 1.048 },
      keptAnyway: false,
    });
    expect(held('1.48')).toMatchObject({ type: 'wrong' });
  });

  test('keeps an unlikely value only while it is the very text the keeper confirmed', () => {
    expect(held('1.48', '1.48')).toMatchObject({
      type: 'understood',
      understood: { value: 1.48 },
      keptAnyway: true,
    });
    expect(held('1.58', '1.48')).toMatchObject({ type: 'wrong' });
  });

  test('never offers to keep what the book refuses', () => {
    const state = held('2.5');
    expect(state.type === 'wrong' && state.said.fixes.some(({ how }) => how === 'keep')).toBe(false);
    expect(held('2.5', '2.5').type).toBe('wrong');
  });
});

describe('a time field', () => {
  const when = (text: string) => readWhenField(text, NOW_MS, LOCAL_TIME);

  test.each(['', 'now', 'Now ', 'today', '2026-11-25'])('%j is now, and is left to the host', (text) => {
    const state = when(text);
    expect(state).toMatchObject({ type: 'understood' });
    expect(text === '2026-11-25' || (state.type === 'understood' && state.atMs === null)).toBe(true);
  });

  test('the day it is, named in the morning, is not a noon to come', () => {
    const morning = utcOfCivil({ year: 2026, month: 11, day: 25, hour: 9, minute: 0 });
    expect(readWhenField('2026-11-25', morning, LOCAL_TIME)).toMatchObject({
      type: 'understood',
      atMs: null,
    });
  });

  test('is echoed with how long ago it is', () => {
    expect(when('yesterday 18:00')).toMatchObject({ echo: '2026-11-24 18:00, 20 hours ago' });
    expect(when('3 d ago')).toMatchObject({ echo: '2026-11-22, 3 days ago' });
    expect(when('now')).toMatchObject({ echo: 'now, 2026-11-25 14:02' });
  });

  test('offers both days of an ambiguous date', () => {
    const state = when('03/04/2026');
    expect(state.type === 'wrong' && state.said.fixes.map(({ label }) => label)).toEqual([
      '3 April 2026',
      '4 March 2026',
    ]);
  });

  test('distances are told in a unit that can be pictured', () => {
    expect(howFar(0)).toBe('just now');
    expect(howFar(-60_000)).toBe('1 minute ago');
    expect(howFar(-5 * 3_600_000)).toBe('5 hours ago');
    expect(howFar(9 * 86_400_000)).toBe('9 days ahead');
  });
});

describe('a form is read as a whole', () => {
  test('every field amiss is named, not only the first', () => {
    const read = readerOf({ name: '', volumeUl: '5', count: 'many', happenedAtMs: 'soon' });
    read.name('name');
    read.volume('volumeUl');
    read.whole('count', { low: 1, high: 10, what: 'count' });
    read.when();
    expect(amiss(read)).toEqual(['name', 'volumeUl', 'count', 'happenedAtMs']);
  });

  test('what was typed is kept beside what was understood', () => {
    const read = readerOf({ volumeUl: ' 2 qt ', happenedAtMs: 'yesterday 18:00' });
    expect(read.volume('volumeUl')).toBe(1_892_706);
    read.when();
    expect(read.typed).toEqual({ volumeUl: '2 qt', happenedAtMs: 'yesterday 18:00' });
    expect(read.happenedAtMs).toBe(utcOfCivil({ year: 2026, month: 11, day: 24, hour: 18, minute: 0 }));
  });

  test('a volume has to be there and be more than nothing', () => {
    const none = readerOf({ volumeUl: '' });
    none.volume('volumeUl');
    expect(none.problems[0]?.sentence).toMatch(/Type a volume/);
    const zero = readerOf({ volumeUl: '0 ml' });
    zero.volume('volumeUl');
    expect(zero.problems[0]?.sentence).toMatch(/more than nothing/);
    expect(readerOf({ volumeUl: '' }).volumeOrNone('volumeUl')).toBe(0);
  });

  test('a name too long, on two lines or with a control sign is refused and kept', () => {
    for (const name of ['x'.repeat(121), 'two\nlines', 'bell\u0007']) {
      const read = readerOf({ name });
      read.name('name');
      expect(amiss(read)).toEqual(['name']);
    }
  });

  test('plain numbers take either decimal mark and their own unit', () => {
    const read = readerOf({ a: '12,4 ml', b: '0.1 N', c: 'a few' });
    expect(read.number('a', { units: /^ml$/iu, sample: '1' })).toBe(12.4);
    expect(read.number('b', { units: /^n$/iu, sample: '1' })).toBe(0.1);
    expect(read.number('c', { units: /^n$/iu, sample: '0.1 N' })).toBeNull();
    expect(amiss(read)).toEqual(['c']);
  });

  test('a count outside its range offers the nearest', () => {
    const read = readerOf({ count: '500' });
    read.whole('count', { low: 1, high: 200, what: 'number of vessels' });
    expect(read.problems[0]).toMatchObject({ fixes: [{ text: '200' }] });
  });
});
