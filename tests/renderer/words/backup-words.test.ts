import { describe, expect, it } from 'vitest';
import { HOUSE_RULES_AT_FIRST } from '#core/contract/house-rules.ts';
import { BackupRefusal } from '#core/contract/strongbox-files.ts';
import { BACKUP_REASONS } from '#core/strongbox/manifest.ts';
import {
  REASON_WORDS,
  sayBackupRefusal,
  sayBytes,
  sayEvent,
  sayFolderState,
  sayLast,
  saySaveable,
} from '#renderer/words/backup-words.ts';
import { sayAside, saySalvage } from '#renderer/words/salvage-words.ts';

const FILE = '/backups/cellar.undercroft-backup';
/** Every fact that any refusal may carry. */
const FACTS = {
  ...{ file: FILE, detail: 'EIO', fileVersion: 9, programVersion: 6, format: 2, programFormat: 1 },
  ...{ damagedParts: 2, parts: 70, faults: ['Orphan: fill'], saveable: { wholeBytes: 3e6, bytes: 4e6 } },
};
const NOW = Date.UTC(2026, 10, 25, 12);

describe('why a backup is refused', () => {
  it.each(BackupRefusal.options.map((option) => option.shape.type.value))(
    '%s is said in a sentence',
    (type) => {
      const said = sayBackupRefusal(BackupRefusal.parse({ ...FACTS, type }));
      expect(said).toMatch(/^[\p{Lu}/“]/u);
      expect(said).toMatch(/\.$/);
      expect(said).not.toMatch(/undefined|NaN|\[object/);
      if (type !== 'NoSafetyCopy' && type !== 'PassphraseWrong') expect(said).toContain(FILE);
    },
  );

  it('says how much could be saved, and never more than is there', () => {
    expect(saySaveable({ wholeBytes: 999_999, bytes: 1_000_000 })).toBe(
      '1000 kB of 1.0 MB (99.9 %) can still be read.',
    );
    expect(saySaveable({ wholeBytes: 0, bytes: 5 })).toBe('Nothing of it is known to be whole.');
  });
});

it.each([
  [999, '999 bytes'],
  [1500, '2 kB'],
  [12_400_000, '12.4 MB'],
  [1_230_000_000, '1.2 GB'],
])('%d bytes are %s', (bytes, said) => {
  expect(sayBytes(bytes)).toBe(said);
});

it('has words for every reason and every state of a folder', () => {
  for (const reason of BACKUP_REASONS) expect(REASON_WORDS[reason]).toMatch(/^[a-z]/);
  for (const state of ['ready', 'missing', 'notAFolder', 'readOnly'] as const)
    expect(sayFolderState(state)).not.toBe('');
});

it('says when the last backup was made, and what was written since', () => {
  const state = { last: null, linesSince: 3 } as Parameters<typeof sayLast>[0];
  expect(sayLast(state, HOUSE_RULES_AT_FIRST)).toBe('There is no backup of this cellar yet.');
  const last = { file: FILE, atMs: NOW, reason: 'daily', entries: 5 } as const;
  expect(sayLast({ ...state, last, linesSince: 1 }, HOUSE_RULES_AT_FIRST)).toBe(
    'Last backup 2026-11-25 12:00, daily. 1 line written since.',
  );
  const changed = { ...state, last, linesSince: 0, besideBookChanged: true };
  expect(sayLast(changed, HOUSE_RULES_AT_FIRST)).toBe(
    'Last backup 2026-11-25 12:00, daily. Nothing was written since. Its name, House Rules or label layouts were changed since.',
  );
});

it('tells the history line by line', () => {
  const made = { kind: 'backup', atMs: NOW, reason: 'daily', cellarName: 'Mill', bookId: null } as const;
  const whole = { file: FILE, bytes: 2e6, encrypted: false, entries: 5, refusal: null };
  const elsewhere = [{ folder: '/stick', refusal: { type: 'FolderMissing', file: '/stick' } as const }];
  expect(sayEvent({ ...made, ...whole, elsewhere, dropped: ['a', 'b'] }, HOUSE_RULES_AT_FIRST)).toBe(
    '2026-11-25 12:00: backed up Mill daily, 2.0 MB, 5 lines. Not in /stick. 2 older ones dropped.',
  );
  const check = { kind: 'check', atMs: NOW, how: 'full', cellarName: 'Mill', sound: false } as const;
  expect(
    sayEvent({ ...check, entries: 5, faults: [{ type: 'Orphan', detail: '' }] }, HOUSE_RULES_AT_FIRST),
  ).toBe('2026-11-25 12:00: Checked in full, Mill, 5 lines: 1 fault found.');
});

it('tells what was saved of a damaged file', () => {
  const said = saySalvage({
    ...{ file: FILE, target: '/saved', aside: [], doubtful: [{ sequence: 7, text: '' }] },
    lines: { saved: 9, aside: 1, lost: 2, highestSeen: 12, gaps: [{ from: 3, to: 4 }], reckonedAnew: [8] },
    standIns: [{ what: 'vessel', name: 'Old Bess' }],
    pictures: { saved: 1, damaged: 1, withoutThumbnail: 0 },
    ...{ nameRead: false, houseRulesRead: false },
    pages: { total: 5, brokenRows: 1, headerReadable: true, logTaken: 0, logLeft: 0 },
  });
  expect(said[0]).toMatch(/^9 lines of the book saved, 2 lines lost of the 12 lines/);
  expect(said.join(' ')).toContain('Missing: 3 to 4.');
  expect(said.join(' ')).not.toMatch(/undefined|NaN/);
  expect(sayAside({ sequence: 5, why: 'CannotFollow', detail: 'NotFound', text: '' })).toBe(
    'Line 5 rests on something that is lost (NotFound).',
  );
});
