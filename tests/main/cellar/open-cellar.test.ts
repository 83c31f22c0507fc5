import BetterSqlite from 'better-sqlite3';
import { chmodSync, existsSync, mkdirSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import type { FileRefusal } from '#core/contract/cellar.ts';
import { FileRefused } from '#main/cellar/file-refused.ts';
import { CELLAR_APPLICATION_ID, openCellar } from '#main/cellar/open-cellar.ts';
import { scratchFolder } from '../desk-for-tests.ts';

const scratch = scratchFolder();
afterAll(() => {
  scratch.remove();
});
const at = (name: string): string => join(scratch.folder, name);

function refusalOf(file: string): FileRefusal {
  try {
    openCellar(file).close();
  } catch (error) {
    if (error instanceof FileRefused) return error.refusal;
    throw error;
  }
  throw new Error(`${file} was opened`);
}

describe('a new cellar', () => {
  it('is a marked, write-ahead, strict file that keeps its foreign keys', () => {
    const cellar = openCellar(at('new.undercroft'));
    const pragma = (name: string): unknown => cellar.sqlite.pragma(name, { simple: true });
    expect(pragma('application_id')).toBe(CELLAR_APPLICATION_ID);
    expect(pragma('user_version')).toBe(cellar.fileVersion);
    expect(pragma('journal_mode')).toBe('wal');
    expect(pragma('synchronous')).toBe(2);
    expect(pragma('foreign_keys')).toBe(1);
    const tables = cellar.sqlite.pragma('table_list') as {
      name: string;
      schema: string;
      type: string;
      strict: number;
    }[];
    const own = tables.filter(
      (t) => t.schema === 'main' && t.type === 'table' && !t.name.startsWith('sqlite_'),
    );
    expect(own.length).toBeGreaterThan(15);
    expect(own.filter((t) => t.strict === 0).map((t) => t.name)).toEqual([]);
    cellar.close();
  });

  it('is one file once closed', () => {
    openCellar(at('one.undercroft')).close();
    expect(readdirSync(scratch.folder).filter((name) => name.startsWith('one.'))).toEqual(['one.undercroft']);
  });

  it('an empty file is taken as a new cellar', () => {
    writeFileSync(at('empty.undercroft'), '');
    openCellar(at('empty.undercroft')).close();
    openCellar(at('empty.undercroft')).close();
  });
});

describe('a file that cannot be the cellar is refused and left byte for byte', () => {
  const unchanged = (name: string, expected: Partial<FileRefusal>): void => {
    const before = readFileSync(at(name));
    const others = readdirSync(scratch.folder);
    expect(refusalOf(at(name))).toMatchObject(expected);
    expect(readFileSync(at(name)).equals(before)).toBe(true);
    expect(readdirSync(scratch.folder)).toEqual(others);
  };

  it('text', () => {
    writeFileSync(at('letter.txt'), 'Dear cellar, '.repeat(100));
    unchanged('letter.txt', { type: 'NotACellar' });
  });

  it('another program’s SQLite file', () => {
    const other = new BetterSqlite(at('other.sqlite'));
    other.exec('CREATE TABLE t (a); INSERT INTO t VALUES (1)');
    other.close();
    unchanged('other.sqlite', { type: 'NotACellar' });
  });

  it('a cellar of a newer version', () => {
    openCellar(at('newer.undercroft')).close();
    const db = new BetterSqlite(at('newer.undercroft'));
    db.pragma('user_version = 99');
    db.pragma('wal_checkpoint(TRUNCATE)');
    db.close();
    unchanged('newer.undercroft', { type: 'NewerVersion', fileVersion: 99 });
  });

  it('a cellar cut short', () => {
    openCellar(at('cut.undercroft')).close();
    const whole = readFileSync(at('cut.undercroft'));
    writeFileSync(at('cut.undercroft'), whole.subarray(0, 90));
    unchanged('cut.undercroft', { type: 'NotACellar' });
  });

  it('a cellar whose pages are overwritten', () => {
    openCellar(at('worn.undercroft')).close();
    const bytes = readFileSync(at('worn.undercroft'));
    bytes.fill(0xa5, 100, 4096);
    writeFileSync(at('worn.undercroft'), bytes);
    const before = readFileSync(at('worn.undercroft'));
    expect(refusalOf(at('worn.undercroft'))).toMatchObject({ type: 'Damaged' });
    expect(readFileSync(at('worn.undercroft')).equals(before)).toBe(true);
  });
});

describe('places where nothing can be kept', () => {
  it('a folder that is not there, a folder in place of a file, a system folder', () => {
    expect(refusalOf(at('nowhere/cellar.undercroft'))).toMatchObject({ type: 'FolderMissing' });
    mkdirSync(at('folder'));
    expect(refusalOf(at('folder'))).toMatchObject({ type: 'BadPath' });
    // Even root cannot make a file under /proc.
    expect(['FolderReadOnly', 'FolderMissing', 'OtherFault']).toContain(
      refusalOf('/proc/cellar.undercroft').type,
    );
  });

  it.skipIf(process.getuid?.() === 0)('a read-only folder', () => {
    mkdirSync(at('locked'));
    chmodSync(at('locked'), 0o500);
    expect(refusalOf(at('locked/cellar.undercroft'))).toMatchObject({ type: 'FolderReadOnly' });
    expect(existsSync(at('locked/cellar.undercroft'))).toBe(false);
  });
});

describe('two programs', () => {
  it('the second is told that the file is in use, and the first goes on', () => {
    const first = openCellar(at('shared.undercroft'));
    expect(refusalOf(at('shared.undercroft'))).toEqual({ type: 'InUse', file: at('shared.undercroft') });
    first.sqlite.exec(`UPDATE cellar SET name = 'still mine'`);
    first.close();
    const second = openCellar(at('shared.undercroft'));
    expect(second.sqlite.prepare('SELECT name FROM cellar').pluck().get()).toBe('still mine');
    second.close();
  });
});

describe('every refusal', () => {
  it('has a sentence that names the file', () => {
    const file = 'a.undercroft';
    const all: FileRefusal[] = [
      ...(
        [
          'NotACellar',
          'InUse',
          'FolderReadOnly',
          'FolderMissing',
          'DiskFull',
          'AlreadyThere',
          'BadPath',
          'NoSuchFile',
        ] as const
      ).map((type) => ({ type, file })),
      { type: 'NewerVersion', file, fileVersion: 9, programVersion: 1 },
      { type: 'Damaged', file, detail: 'x' },
      { type: 'OtherFault', file, detail: 'x' },
    ];
    for (const refusal of all) expect(new FileRefused(refusal).sentence).toMatch(/a\.undercroft.*\.$/);
  });
});
