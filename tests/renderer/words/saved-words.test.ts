import { describe, expect, it } from 'vitest';
import { backupAge } from '#core/strongbox/overdue.ts';
import { sayBackupAge, sayBackupConcerns, saySaved } from '#renderer/words/saved-words.ts';

const day = { startMs: new Date(2026, 10, 25).getTime(), endMs: new Date(2026, 10, 26).getTime() };
const calm = { day, readOnly: false, faulty: false };
const NOW = new Date(2026, 10, 25, 14, 2).getTime();
const MIN = 60_000;

describe('the words at the foot of the rail', () => {
  it('tell the hour of today, and the date of another day', () => {
    expect(saySaved({ ...calm, savedAtMs: NOW })).toBe('Saved 14:02');
    expect(saySaved({ ...calm, savedAtMs: new Date(2026, 10, 24, 9, 5).getTime() })).toBe(
      'Saved 2026-11-24 09:05',
    );
  });

  it('never say saved when it is not', () => {
    expect(saySaved({ ...calm, savedAtMs: null })).not.toContain('Saved');
    expect(saySaved({ ...calm, savedAtMs: NOW, readOnly: true })).not.toContain('Saved');
    expect(saySaved({ ...calm, savedAtMs: NOW, faulty: true })).not.toContain('Saved ');
  });

  it('tell how old the backup is', () => {
    const said = (lastAtMs: number | null): string =>
      sayBackupAge(backupAge({ lastAtMs, begunAtMs: NOW }, NOW), NOW);
    expect(said(null)).toBe('no backup yet');
    expect(said(NOW - 59_999)).toBe('backup just now');
    expect(said(NOW + 500)).toBe('backup just now');
    expect(said(NOW - MIN)).toBe('backup 1 min ago');
    expect(said(NOW - 59 * MIN)).toBe('backup 59 min ago');
    expect(said(NOW - 125 * MIN)).toBe('backup 2 h ago');
    expect(said(NOW - 24 * 60 * MIN)).toBe('backup yesterday');
    expect(said(NOW - 3 * 24 * 60 * MIN)).toBe('backup 3 d ago');
    expect(said(new Date(2026, 11, 2).getTime())).toBe('backup of 2026-12-02, later than this clock');
  });

  it('name what is wrong, and what is only not plugged in', () => {
    const fresh = { type: 'made', atMs: NOW, overdue: false } as const;
    expect(sayBackupConcerns({ age: fresh, failed: false, missing: [], unsound: false })).toEqual({
      caution: '',
      quiet: '',
    });
    expect(
      sayBackupConcerns({ age: fresh, failed: false, missing: ['D:\\STICK\\'], unsound: false }).quiet,
    ).toBe('STICK not plugged in, or not there now');
    expect(
      sayBackupConcerns({ age: fresh, failed: false, missing: ['/a', '/b'], unsound: false }).quiet,
    ).toBe('2 backup folders not there now');
    expect(sayBackupConcerns({ age: fresh, failed: false, missing: [], unsound: true }).caution).toBe(
      'The check found faults in this file.',
    );
    expect(sayBackupConcerns({ age: fresh, failed: true, missing: [], unsound: false }).caution).toBe(
      'The last backup failed.',
    );
    expect(
      sayBackupConcerns({ age: { type: 'none', overdue: true }, failed: false, missing: [], unsound: false })
        .caution,
    ).toBe('Back up now: seven days without a proven backup.');
    const ahead = { type: 'clockBefore', atMs: NOW, overdue: true } as const;
    expect(sayBackupConcerns({ age: ahead, failed: false, missing: [], unsound: false }).caution).toContain(
      'clock was set back',
    );
  });
});
