import {
  boundsOf,
  daysBetween,
  firstDayOfWeek,
  fourWeeksWith,
  midnightOf,
  monthAlone,
  monthAround,
  stepDays,
  stepMonths,
  weekOf,
  weeksOf,
} from '#renderer/calendar/calendar-days.ts';
import { stepOnWall } from '#renderer/calendar/wall-keys.ts';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

const MONDAY = 1;
const SUNDAY = 7;
const key = (name: string, more: object = {}) => ({
  ...{ key: name, ctrlKey: false, metaKey: false, altKey: false, shiftKey: false },
  ...more,
});

describe('the days on the wall', () => {
  // ISO 8601: 1 January 2026 is a Thursday, 25 November 2026 a Wednesday.
  it('begin a week where the language has it', () => {
    expect(weekOf('2026-11-25', MONDAY)).toEqual({ first: '2026-11-23', last: '2026-11-29' });
    expect(weekOf('2026-11-25', SUNDAY)).toEqual({ first: '2026-11-22', last: '2026-11-28' });
    expect(weekOf('2026-11-22', SUNDAY).first).toBe('2026-11-22');
    expect(weekOf('2026-11-22', MONDAY).first).toBe('2026-11-16');
    expect(firstDayOfWeek('en-US')).toBe(SUNDAY);
    expect(firstDayOfWeek('en-GB')).toBe(MONDAY);
    expect(firstDayOfWeek('no language at all')).toBe(MONDAY);
  });

  it('fill a month up to whole weeks, and mark whose they are', () => {
    const days = monthAround('2026-11-25', MONDAY);
    expect(days[0]?.iso).toBe('2026-10-26');
    expect(days.at(-1)?.iso).toBe('2026-12-06');
    expect(days.filter(({ inMonth }) => inMonth)).toHaveLength(30);
    // February 2027 begins on a Monday and has four weeks.
    expect(monthAround('2027-02-14', MONDAY)).toHaveLength(28);
    expect(monthAlone('2028-02-01')).toHaveLength(29);
  });

  it('stand in four weeks from this one on, before and after', () => {
    const starting = (iso: string) => fourWeeksWith(iso, '2026-11-25', MONDAY)[0]?.iso;
    expect(starting('2026-11-23')).toBe('2026-11-23');
    expect(starting('2026-12-20')).toBe('2026-11-23');
    expect(starting('2026-12-21')).toBe('2026-12-21');
    expect(starting('2026-11-22')).toBe('2026-10-26');
  });

  it('step by months to the last day where there is no such day', () => {
    expect(stepMonths('2027-01-31', 1)).toBe('2027-02-28');
    expect(stepMonths('2026-12-31', -1)).toBe('2026-11-30');
    expect(stepMonths('2028-02-29', 12)).toBe('2029-02-28');
  });

  it('know what is no day', () => {
    expect(midnightOf('2026-02-30')).toBeNull();
    expect(midnightOf('2026-11-25')).toBe(new Date(2026, 10, 25).getTime());
  });

  it('are whole, without a gap, for any month and any first day of the week', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1990, max: 2180 }),
        fc.integer({ min: 1, max: 12 }),
        fc.integer({ min: 1, max: 7 }),
        (year, month, firstDay) => {
          const iso = `${year}-${String(month).padStart(2, '0')}-15`;
          const days = monthAround(iso, firstDay);
          expect(days.length % 7).toBe(0);
          expect(weeksOf(days).every((week) => week.length === 7)).toBe(true);
          const bounds = boundsOf(days);
          expect(bounds).toHaveLength(days.length + 1);
          expect(days.every(({ endMs }, i) => endMs === bounds[i + 1])).toBe(true);
          expect(days.every((day, i) => i === 0 || day.iso === stepDays(days[i - 1]?.iso ?? '', 1))).toBe(
            true,
          );
          expect(fourWeeksWith(iso, '2026-11-25', firstDay).some((day) => day.iso === iso)).toBe(true);
        },
      ),
    );
    expect(daysBetween('2026-02-28', '2026-03-01')).toBe(1);
  });

  it.each([
    ['ArrowLeft', {}, '2026-11-24'],
    ['ArrowDown', {}, '2026-12-02'],
    ['Home', {}, '2026-11-23'],
    ['End', {}, '2026-11-29'],
    ['PageUp', {}, '2026-10-25'],
    ['PageDown', { shiftKey: true }, '2027-11-25'],
    ['Home', { ctrlKey: true }, '2026-11-28'],
    ['ArrowLeft', { altKey: true }, null],
    ['x', {}, null],
  ])('are walked by %s %j', (name, more, to) => {
    expect(stepOnWall(key(name, more), '2026-11-25', MONDAY, '2026-11-28')).toBe(to);
  });
});
