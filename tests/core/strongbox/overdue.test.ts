import { describe, expect, it } from 'vitest';
import { backupAge, isOverdue } from '#core/strongbox/overdue.ts';

const NOW = Date.UTC(2026, 10, 25, 12);
const DAY = 86_400_000;

describe('the age of the last backup', () => {
  it('is overdue from seven days on, to the millisecond', () => {
    expect(isOverdue(NOW - 7 * DAY + 1, NOW)).toBe(false);
    expect(isOverdue(NOW - 7 * DAY, NOW)).toBe(true);
    expect(backupAge({ lastAtMs: NOW - 6 * DAY, begunAtMs: 0 }, NOW)).toEqual({
      ...{ type: 'made', atMs: NOW - 6 * DAY, overdue: false },
    });
  });

  it('counts from the beginning of a cellar that never had one', () => {
    expect(backupAge({ lastAtMs: null, begunAtMs: NOW - DAY }, NOW)).toEqual({
      type: 'none',
      overdue: false,
    });
    expect(backupAge({ lastAtMs: null, begunAtMs: NOW - 8 * DAY }, NOW)).toEqual({
      type: 'none',
      overdue: true,
    });
  });

  it('is not known, and never calm, when the clock stands before it', () => {
    expect(backupAge({ lastAtMs: NOW + DAY, begunAtMs: 0 }, NOW)).toMatchObject({
      ...{ type: 'clockBefore', overdue: true },
    });
    // The window's clock and the program's may differ a little.
    expect(backupAge({ lastAtMs: NOW + 500, begunAtMs: 0 }, NOW)).toMatchObject({
      ...{ type: 'made', overdue: false },
    });
  });
});
