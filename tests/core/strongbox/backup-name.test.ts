import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fixedOffset } from '#core/quantities/civil-time.ts';
import { BACKUP_REASONS } from '#core/strongbox/manifest.ts';
import { backupName, encryptedName, isBackupName } from '#core/strongbox/backup-name.ts';

const AT = Date.UTC(2026, 10, 25, 14, 2, 9);
const named = (cellarName: string, nth = 1) =>
  backupName({ cellarName, madeAtMs: AT, reason: 'daily', nth }, fixedOffset(60));

describe('what a backup is called', () => {
  it.each([
    ['Orchard cellar', 'Orchard cellar 2026-11-25 15.02.09 daily.undercroft-backup'],
    ['../../etc: "x"', 'etc x 2026-11-25 15.02.09 daily.undercroft-backup'],
    ['Kühler Keller №3', 'Kühler Keller 3 2026-11-25 15.02.09 daily.undercroft-backup'],
    ['...', 'Cellar 2026-11-25 15.02.09 daily.undercroft-backup'],
  ])('%s', (cellarName, name) => {
    expect(named(cellarName)).toBe(name);
  });

  it('tells the second of one second from the first, and the encrypted from the readable', () => {
    expect(named('A', 2)).toBe('A 2026-11-25 15.02.09 daily 2.undercroft-backup');
    expect(isBackupName(named('A'))).toBe(true);
    expect(isBackupName(encryptedName(named('A')))).toBe(true);
    expect(isBackupName('cellar.undercroft')).toBe(false);
  });

  it('has no sign that a file system may refuse, whatever the cellar is called', () => {
    fc.assert(
      fc.property(
        fc.string({ unit: 'binary', maxLength: 200 }),
        fc.integer({ min: 0, max: 8.64e15 }),
        fc.constantFrom(...BACKUP_REASONS),
        (cellarName, madeAtMs, reason) => {
          const name = backupName({ cellarName, madeAtMs, reason, nth: 1 }, fixedOffset(0));
          // eslint-disable-next-line no-control-regex -- these are the signs that are looked for
          expect(name).not.toMatch(/[<>:"/\\|?*\u0000-\u001f]|^[. ]|[. ]$/u);
          expect(new TextEncoder().encode(name).length).toBeLessThan(240);
        },
      ),
    );
  });
});
