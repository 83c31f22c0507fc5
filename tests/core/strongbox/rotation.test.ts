import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fixedOffset } from '#core/quantities/civil-time.ts';
import { BACKUP_REASONS } from '#core/strongbox/manifest.ts';
import { backupsToDrop, dailyIsDue, ROTATION_AT_FIRST, type KeptBackup } from '#core/strongbox/rotation.ts';

const UTC = fixedOffset(0);
const DAY = 86_400_000;
const NOON = Date.UTC(2026, 10, 25, 12);
const daily = (daysAgo: number, hours = 0): KeptBackup => {
  const madeAtMs = NOON - daysAgo * DAY + hours * 3_600_000;
  return { file: `at ${madeAtMs}`, madeAtMs, reason: 'daily', entries: 1000 - daysAgo };
};
const keptOf = (backups: readonly KeptBackup[], rules = ROTATION_AT_FIRST): number[] => {
  const dropped = new Set(backupsToDrop(backups, rules, UTC));
  return backups.filter(({ file }) => !dropped.has(file)).map(({ madeAtMs }) => (NOON - madeAtMs) / DAY);
};

/** Any heap of backups, from clocks set forward and back. */
const heaps = fc.uniqueArray(
  fc.record({
    file: fc.uuid(),
    madeAtMs: fc.oneof(
      fc.integer({ min: NOON - 900 * DAY, max: NOON }),
      fc.integer({ min: 0, max: NOON + 9000 * DAY }),
    ),
    reason: fc.constantFrom(...BACKUP_REASONS),
    entries: fc.integer({ min: 0, max: 100_000 }),
  }),
  { maxLength: 120, selector: ({ file }) => file },
);
const rules = fc.record({
  allOfDays: fc.integer({ min: 1, max: 5 }),
  days: fc.integer({ min: 1, max: 40 }),
  weeks: fc.integer({ min: 0, max: 20 }),
  months: fc.integer({ min: 0, max: 30 }),
});

describe('the rotation', () => {
  it('keeps one a day, then one a week, then one a month, the newest of each', () => {
    const year = Array.from({ length: 400 }, (_, daysAgo) => daily(daysAgo));
    const kept = keptOf(year, { allOfDays: 2, days: 7, weeks: 4, months: 3 });
    // 25 November 2026 is a Wednesday: weeks end on the Sundays 3, 10 and 17 days before; months on 31 October and 30 September.
    expect(kept).toEqual([0, 1, 2, 3, 4, 5, 6, 10, 17, 25, 56]);
  });

  it('keeps all of the last two days that have any', () => {
    const backups = [daily(0), daily(0, -1), daily(0, -2), daily(9), daily(9, -1), daily(20), daily(20, -1)];
    expect(keptOf(backups)).toEqual([0, 1 / 24, 2 / 24, 9, 9 + 1 / 24, 20]);
  });

  it('never lets go of one made by hand, of the newest, nor of the longest book', () => {
    fc.assert(
      fc.property(heaps, rules, (backups, keep) => {
        const dropped = new Set(backupsToDrop(backups, keep, UTC));
        const kept = backups.filter(({ file }) => !dropped.has(file));
        expect(backups.filter(({ file, reason }) => dropped.has(file) && reason === 'byHand')).toEqual([]);
        if (backups.length === 0) return;
        const most = (of: readonly KeptBackup[], what: 'madeAtMs' | 'entries') =>
          Math.max(...of.map((backup) => backup[what]));
        expect(most(kept, 'madeAtMs')).toBe(most(backups, 'madeAtMs'));
        expect(most(kept, 'entries')).toBe(most(backups, 'entries'));
      }),
    );
  });

  it('has nothing more to drop when it has just been done, and says the same for any order', () => {
    fc.assert(
      fc.property(heaps, rules, (backups, keep) => {
        const dropped = new Set(backupsToDrop(backups, keep, UTC));
        expect(new Set(backupsToDrop([...backups].reverse(), keep, UTC))).toEqual(dropped);
        const kept = backups.filter(({ file }) => !dropped.has(file));
        expect(backupsToDrop(kept, keep, UTC)).toEqual([]);
      }),
    );
  });

  it('drops nothing more because the clock jumped: only what is there is counted', () => {
    const month = Array.from({ length: 30 }, (_, daysAgo) => daily(daysAgo));
    expect(keptOf(month)).toHaveLength(30);
    // One backup while the clock stood ten years ahead takes the place of one day, and no more.
    expect(keptOf([...month, daily(-3650)])).toHaveLength(30);
  });
});

describe('the daily backup', () => {
  it.each([
    [null, true],
    [NOON, false],
    [NOON - DAY + 1, false],
    [NOON - DAY, true],
    // The clock was set back.
    [NOON + 1, true],
  ])('last made at %s is due: %s', (last, due) => {
    expect(dailyIsDue(last, NOON)).toBe(due);
  });
});
