import { describe, expect, it } from 'vitest';
import {
  calendarDays,
  clockOf,
  isoDayOf,
  sayAge,
  sayAgo,
  sayDate,
  sayMoment,
  sayShortDate,
} from '#renderer/words/time-words.ts';

const at = (text: string): number => new Date(text).getTime();

describe('dates', () => {
  it('are written as year, month and day where the house rules say so', () => {
    expect(sayDate(at('2026-11-05T09:07:00'), { dates: 'iso' })).toBe('2026-11-05');
    expect(isoDayOf(at('2026-01-02T23:59:00'))).toBe('2026-01-02');
    expect(clockOf(at('2026-01-02T09:07:00'))).toBe('09:07');
    expect(sayMoment(at('2026-11-05T09:07:00'), { dates: 'iso' })).toBe('2026-11-05 09:07');
  });

  it('are written out in the long form', () => {
    expect(sayDate(at('2026-11-25T09:00:00'), { dates: 'long' })).toMatch(/November/);
    expect(sayShortDate(at('2026-11-19T09:00:00'))).toMatch(/Nov/);
  });
});

describe('ages', () => {
  it('count calendar days, not 24 hours', () => {
    expect(calendarDays(at('2026-11-24T23:00:00'), at('2026-11-25T01:00:00'))).toBe(1);
    expect(calendarDays(at('2026-10-22T18:00:00'), at('2026-11-25T08:00:00'))).toBe(34);
  });

  it('are told in days, then in months', () => {
    const now = at('2026-11-25T08:00:00');
    expect(sayAge(at('2026-11-25T07:00:00'), now)).toBe('since today');
    expect(sayAge(at('2026-11-13T07:00:00'), now)).toBe('day 12');
    expect(sayAge(at('2026-04-10T07:00:00'), now)).toBe('month 7');
  });

  it('say how long ago', () => {
    const now = at('2026-11-25T08:00:00');
    expect(sayAgo(now, now)).toBe('today');
    expect(sayAgo(at('2026-11-24T23:00:00'), now)).toBe('yesterday');
    expect(sayAgo(at('2026-11-16T08:00:00'), now)).toBe('9 d ago');
    expect(sayAgo(at('2026-05-16T08:00:00'), now)).toBe('6 months ago');
  });
});
