import BetterSqlite, { type Database } from 'better-sqlite3';
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { migrate, readMigrations, type Migrations } from '#main/cellar/migrate.ts';
import { scratchFolder } from '../desk-for-tests.ts';

const scratch = scratchFolder();
afterAll(() => {
  scratch.remove();
});

const steps = (...sql: string[]): Migrations => ({
  steps: sql.map((text, index) => ({ version: index + 1, name: `000${index + 1}_step.sql`, sql: text })),
  triggers:
    'CREATE TRIGGER no_delete BEFORE DELETE ON parent BEGIN SELECT RAISE(ABORT, "never"); END;'.replaceAll(
      '"',
      "'",
    ),
});
const FIRST = `CREATE TABLE parent (id INTEGER PRIMARY KEY, kind TEXT CHECK (kind IN ('a'))) STRICT;
  CREATE TABLE child (id INTEGER PRIMARY KEY, parent_id INTEGER NOT NULL REFERENCES parent (id) ON DELETE CASCADE) STRICT;`;

function withRows(): Database {
  const db = new BetterSqlite(':memory:');
  migrate(db, steps(FIRST), 'test');
  db.exec(`INSERT INTO parent VALUES (1, 'a'), (2, 'a'); INSERT INTO child VALUES (10, 1), (11, 1), (12, 2)`);
  return db;
}
const count = (db: Database, table: string): unknown =>
  db.prepare(`SELECT COUNT(*) FROM ${table}`).pluck().get();

describe('the migrator', () => {
  it('rebuilds a parent table without cascading into its children', () => {
    const db = withRows();
    const wider = `CREATE TABLE parent_new (id INTEGER PRIMARY KEY, kind TEXT CHECK (kind IN ('a', 'b'))) STRICT;
      INSERT INTO parent_new SELECT id, kind FROM parent; DROP TABLE parent; ALTER TABLE parent_new RENAME TO parent;`;
    migrate(db, steps(FIRST, wider), 'test');
    expect([count(db, 'parent'), count(db, 'child')]).toEqual([2, 3]);
    expect(db.pragma('foreign_keys', { simple: true })).toBe(1);
    expect(() => db.exec('DELETE FROM parent')).toThrow('never');
  });

  it.each([
    [
      'leaves an orphan',
      'DROP TABLE parent; CREATE TABLE parent (id INTEGER PRIMARY KEY, kind TEXT) STRICT;',
    ],
    ['loses rows of a table it keeps', 'DELETE FROM child WHERE id = 12;'],
    ['fails half-way', 'ALTER TABLE parent ADD COLUMN note TEXT; SELECT nothing FROM nowhere;'],
  ])('undoes the whole of a step that %s', (_, bad) => {
    const db = withRows();
    expect(() => migrate(db, steps(FIRST, bad), 'test')).toThrow();
    expect([count(db, 'parent'), count(db, 'child')]).toEqual([2, 3]);
    expect(db.pragma('user_version', { simple: true })).toBe(1);
    expect(db.prepare(`SELECT COUNT(*) FROM pragma_table_info('parent')`).pluck().get()).toBe(2);
    expect(db.pragma('foreign_keys', { simple: true })).toBe(1);
  });

  it('does nothing to a file that is up to date, and refuses a newer one by name', () => {
    const db = withRows();
    expect(migrate(db, steps(FIRST), 'test')).toBe(1);
    db.pragma('user_version = 7');
    expect(() => migrate(db, steps(FIRST), 'mine.undercroft')).toThrow(
      /mine\.undercroft was written by a newer/,
    );
  });

  it('refuses a folder whose numbers have a hole', () => {
    const folder = join(scratch.folder, 'holes');
    mkdirSync(folder);
    for (const name of ['0001_first.sql', '0003_third.sql', 'triggers.sql'])
      writeFileSync(join(folder, name), '');
    expect(() => readMigrations(folder)).toThrow('0003_third.sql should be number 2');
  });

  it('reads the project’s own, each named by what it does', () => {
    for (const step of readMigrations().steps) expect(step.name).toMatch(/^\d{4}_[a-z]+(_[a-z0-9]+)+\.sql$/);
  });
});
