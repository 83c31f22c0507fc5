import { describe, expect, test } from 'vitest';
import { chartRange, dayTicks, MS_PER_DAY } from '#renderer/cellar-book/time-axis.ts';

const at = (year: number, month: number, day: number, hour = 0): number =>
  new Date(year, month - 1, day, hour).getTime();
const labels = (fromMs: number, toMs: number, most: number): string[] =>
  dayTicks({ fromMs, toMs, most }).map(({ label }) => label);

describe('labels of the time axis', () => {
  test('a few days are labelled one by one', () => {
    expect(labels(at(2026, 9, 14, 9), at(2026, 9, 18), 8)).toEqual(['Sep 15', 'Sep 16', 'Sep 17', 'Sep 18']);
  });

  test('weeks begin on Monday', () => {
    const ticks = dayTicks({ fromMs: at(2026, 9, 14), toMs: at(2026, 11, 25), most: 12 });
    expect(ticks.map(({ atMs }) => new Date(atMs).getDay())).toEqual(ticks.map(() => 1));
    expect(ticks[0]?.label).toBe('Sep 14');
  });

  test('longer spans go over to months, the year written where it begins and where it turns', () => {
    expect(labels(at(2026, 7, 20), at(2027, 3, 1), 8)).toEqual([
      ...['Aug 2026', 'Sept', 'Oct', 'Nov', 'Dec', 'Jan 2027', 'Feb', 'Mar'],
    ]);
  });

  test.each([2, 3, 5, 8, 12])('never more than %i labels, whatever the span', (most) => {
    for (const days of [1, 3, 8, 20, 45, 90, 200, 400, 900, 4000, 20_000]) {
      const fromMs = at(2026, 9, 14, 9);
      const ticks = dayTicks({ fromMs, toMs: fromMs + days * MS_PER_DAY, most });
      expect(ticks.length).toBeLessThanOrEqual(most);
      for (const { atMs } of ticks) {
        expect(atMs).toBeGreaterThanOrEqual(fromMs);
        expect(atMs).toBeLessThanOrEqual(fromMs + days * MS_PER_DAY);
      }
    }
  });

  test('a span of nothing has one label', () => {
    expect(labels(at(2026, 9, 14), at(2026, 9, 14), 5)).toEqual(['Sep 14']);
  });
});

describe('what a chart spans', () => {
  test('all readings are inside, and it is never shorter than a day', () => {
    expect(chartRange({ fromMs: 1000, toMs: 1000, atMs: [] })).toEqual({
      fromMs: 1000,
      toMs: 1000 + MS_PER_DAY,
    });
    const range = chartRange({
      fromMs: 5 * MS_PER_DAY,
      toMs: 9 * MS_PER_DAY,
      atMs: [3 * MS_PER_DAY, 12 * MS_PER_DAY],
    });
    expect(range).toEqual({ fromMs: 3 * MS_PER_DAY, toMs: 12 * MS_PER_DAY });
  });

  test('ten thousand readings are no trouble', () => {
    const atMs = Array.from({ length: 200_000 }, (_, i) => i * 1000);
    expect(chartRange({ fromMs: 0, toMs: 1, atMs }).toMs).toBe(199_999_000);
  });
});
