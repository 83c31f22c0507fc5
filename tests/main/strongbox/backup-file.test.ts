import {
  copyFileSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  statSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import BetterSqlite from 'better-sqlite3';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { CLOSING_BYTES } from '#core/strongbox/seal.ts';
import { carryElsewhere } from '#main/strongbox/carry-elsewhere.ts';
import { lookInside, verifyBackup } from '#main/strongbox/look-inside.ts';
import { BackupRefused } from '#main/strongbox/backup-refused.ts';
import { proveParts, readSeal } from '#main/strongbox/seal-file.ts';
import { begun, openDeskOn, scratchFolder, type TestDesk } from '../desk-for-tests.ts';
import { backupOf, ended, refusalOf } from './backups-for-tests.ts';

const scratch = scratchFolder();
const folder = join(scratch.folder, 'backups');
const workFolder = join(scratch.folder, 'work');
let desk: TestDesk;
let file: string;
let batchId: string;
beforeAll(async () => {
  desk = openDeskOn(join(scratch.folder, 'home.undercroft'));
  ({ batchId } = await begun(desk));
  ({ file } = await backupOf(desk, folder));
});
afterAll(() => {
  desk.close();
  scratch.remove();
});

const chosen = (path: string, passphrase: string | null = null) => ({ file: path, passphrase, workFolder });
let count = 0;
const changed = (change: (copy: string) => void): string => {
  const copy = join(scratch.folder, `changed-${(count += 1)}.undercroft-backup`);
  copyFileSync(file, copy);
  change(copy);
  return copy;
};

describe('a backup', { timeout: 60_000 }, () => {
  it('says what it is, and holds the cellar as it was', async () => {
    const verified = await ended(verifyBackup(chosen(file), undefined));
    expect(verified).toMatchObject({
      ...{ reason: 'byHand', cellarName: 'Test cellar', encrypted: false, entriesBalanced: 4 },
      counts: { entries: 4, vessels: 1, batches: 1, cultures: 0, readings: 0, pictures: 0 },
      lastEntry: { sequence: 4 },
    });
    const looked = await ended(lookInside(chosen(file), undefined));
    expect(looked.batches).toMatchObject([{ batchId, stands: [{ volumeUl: 4_000_000 }] }]);
  });

  it('is a SQLite file that any SQLite opens, and one file alone', () => {
    expect(readdirSync(folder)).toEqual(['cellar.undercroft-backup']);
    const plain = new BetterSqlite(file, { readonly: true });
    expect(plain.pragma('integrity_check', { simple: true })).toBe('ok');
    expect(plain.pragma('journal_mode', { simple: true })).toBe('delete');
    plain.close();
  });

  it('is refused when any one byte of it is another', () => {
    const bytes = readFileSync(file);
    const copy = join(scratch.folder, 'one-byte.undercroft-backup');
    const ends = [
      0,
      18,
      68,
      bytes.length - 1,
      bytes.length - CLOSING_BYTES,
      bytes.length - CLOSING_BYTES - 1,
    ];
    const where = fc.oneof(fc.integer({ min: 0, max: bytes.length - 1 }), fc.constantFrom(...ends));
    fc.assert(
      fc.property(where, fc.integer({ min: 1, max: 255 }), (at, by) => {
        const spoilt = Buffer.from(bytes);
        spoilt[at] = (spoilt[at] ?? 0) ^ by;
        writeFileSync(copy, spoilt);
        expect(() => {
          proveParts(copy, readSeal(copy));
        }).toThrow(BackupRefused);
      }),
      { numRuns: 150 },
    );
  });

  it('is refused when it is shorter or longer by any length', () => {
    const { length } = readFileSync(file);
    fc.assert(
      fc.property(fc.integer({ min: 0, max: length - 1 }), (bytes) => {
        const copy = changed((path) => {
          truncateSync(path, bytes);
        });
        expect(() => readSeal(copy)).toThrow(BackupRefused);
      }),
      { numRuns: 60 },
    );
    const longer = changed((path) => {
      writeFileSync(path, '\n', { flag: 'a' });
    });
    expect(() => readSeal(longer)).toThrow(BackupRefused);
  });

  it('says what is wrong and how much of it is whole', async () => {
    const { payload } = readSeal(file);
    const spoilAt = (at: number) => (path: string) => {
      const bytes = readFileSync(path);
      bytes[at] = (bytes[at] ?? 0) ^ 1;
      writeFileSync(path, bytes);
    };
    const inCellar = changed(spoilAt(5000));
    expect(await refusalOf(lookInside(chosen(inCellar), undefined))).toEqual({
      ...{ type: 'PartsDamaged', file: inCellar, damagedParts: 1, parts: payload.partSha256.length },
      saveable: { wholeBytes: Math.max(0, payload.bytes - payload.partBytes), bytes: payload.bytes },
    });
    const inSeal = changed(spoilAt(payload.bytes + 40));
    expect(await refusalOf(lookInside(chosen(inSeal), undefined))).toMatchObject({
      ...{ type: 'SealDamaged', saveable: { wholeBytes: payload.bytes, bytes: payload.bytes } },
    });
    const half = changed((path) => {
      truncateSync(path, 20_000);
    });
    expect(await refusalOf(verifyBackup(chosen(half), undefined))).toEqual({
      ...{ type: 'Truncated', file: half, saveable: { wholeBytes: 20_000, bytes: payload.bytes } },
    });
    const bare = changed((path) => {
      truncateSync(path, payload.bytes);
    });
    expect(await refusalOf(verifyBackup(chosen(bare), undefined))).toEqual({ type: 'NoSeal', file: bare });
  });

  it('is refused when it is something else, nothing, a folder, or the open cellar itself', async () => {
    const letter = join(scratch.folder, 'letter.txt');
    writeFileSync(letter, 'Dear cellar');
    const sealOf = (path: string) => refusalOf(lookInside(chosen(path), undefined));
    expect(await sealOf(letter)).toEqual({ type: 'NotABackup', file: letter });
    const none = join(scratch.folder, 'none');
    expect(await sealOf(none)).toEqual({ type: 'NoSuchFile', file: none });
    expect(await sealOf(scratch.folder)).toEqual({ type: 'BadPath', file: scratch.folder });
    const home = join(scratch.folder, 'home.undercroft');
    expect(await sealOf(home)).toEqual({ type: 'InUse', file: home });
    const empty = join(scratch.folder, 'empty');
    writeFileSync(empty, '');
    expect(await sealOf(empty)).toEqual({ type: 'NotABackup', file: empty });
  });

  it('leaves nothing behind when its folder is gone or a file has its name', async () => {
    await expect(backupOf(desk, folder)).rejects.toMatchObject({ refusal: { type: 'AlreadyThere' } });
    const gone = join(scratch.folder, 'gone', 'cellar.undercroft-backup');
    await expect(backupOf(desk, folder, { file: gone })).rejects.toMatchObject({
      refusal: { type: 'FolderMissing' },
    });
    expect(readdirSync(folder)).toEqual(['cellar.undercroft-backup']);
  });

  it('goes to more folders, and tells of one that is missing', async () => {
    const [one, two, gone] = ['one', 'two', 'gone-too'].map((name) => join(scratch.folder, name));
    if (one === undefined || two === undefined || gone === undefined) throw new Error('three were named');
    mkdirSync(two);
    const backup = await backupOf(desk, one);
    const folders = [two, gone];
    const carrying = { backup, folders, encrypt: false, passphrase: null, workFolder };
    const elsewhere = await ended(carryElsewhere(carrying, new AbortController().signal));
    expect(elsewhere).toMatchObject([
      { folder: two, refusal: null },
      { folder: gone, refusal: { type: 'FolderMissing' } },
    ]);
    const copied = join(two, 'cellar.undercroft-backup');
    expect((await ended(verifyBackup(chosen(copied), undefined))).counts.entries).toBe(4);
    expect(readdirSync(two)).toEqual(['cellar.undercroft-backup']);
  });
});

describe('an encrypted backup', () => {
  // A passphrase is made slow to try on purpose, and is tried five times: a busy machine may take a minute.
  it('is opened by its passphrase alone, and shows nothing without it', { timeout: 300_000 }, async () => {
    const locked = join(scratch.folder, 'locked');
    const backup = await backupOf(desk, locked, { passphrase: 'seven damp corks' });
    expect(backup.encrypted).toBe(true);
    expect(readFileSync(backup.file).includes('Test cellar')).toBe(false);
    expect(readdirSync(join(locked, 'work'))).toEqual([]);
    const open = (passphrase: string | null) => lookInside(chosen(backup.file, passphrase), undefined);
    expect(await refusalOf(open(null))).toEqual({ type: 'PassphraseNeeded', file: backup.file });
    expect(await refusalOf(open('seven dry corks'))).toEqual({ type: 'PassphraseWrong', file: backup.file });
    expect((await ended(open('seven damp corks'))).backup.counts.entries).toBe(4);

    const bytes = readFileSync(backup.file);
    const spoilt = join(scratch.folder, 'spoilt.age');
    bytes[bytes.length - 100] = (bytes[bytes.length - 100] ?? 0) ^ 1;
    writeFileSync(spoilt, bytes);
    expect(await refusalOf(lookInside(chosen(spoilt, 'seven damp corks'), undefined))).toMatchObject({
      ...{ type: 'CipherDamaged', file: spoilt },
    });
    writeFileSync(spoilt, readFileSync(backup.file).subarray(0, statSync(backup.file).size - 3));
    expect(await refusalOf(lookInside(chosen(spoilt, 'seven damp corks'), undefined))).toMatchObject({
      ...{ type: 'CipherDamaged', file: spoilt },
    });
    expect(readdirSync(workFolder)).toEqual([]);
  });
});
