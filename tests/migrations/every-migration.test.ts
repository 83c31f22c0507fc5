import { copyFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import BetterSqlite from 'better-sqlite3';
import { readMigrations } from '#main/cellar/migrate.ts';
import { openDeskOn, scratchFolder } from '../main/desk-for-tests.ts';

const scratch = scratchFolder();
afterAll(() => {
  scratch.remove();
});
let copies = 0;
const cellars = join(import.meta.dirname, 'cellars');
const files = readdirSync(cellars).filter((name) => name.endsWith('.undercroft'));

describe('a cellar from every earlier version', () => {
  it('is kept here for each version there has been', () => {
    const versions = files.map((name) => Number(/version-(\d+)/.exec(name)?.[1])).sort((a, b) => a - b);
    const earlier = readMigrations().steps.length - 1;
    expect(versions).toEqual(Array.from({ length: earlier }, (_, index) => index + 1));
  });

  it.each(files)('%s opens, balances and shows what it showed', async (name) => {
    const file = join(scratch.folder, name);
    copyFileSync(join(cellars, name), file);
    const before = new BetterSqlite(file, { readonly: true });
    const rows = (table: string): unknown[] => before.prepare(`SELECT * FROM ${table}`).all();
    const shown = before.prepare('SELECT shown FROM shelf_row ORDER BY number').pluck().all() as string[];
    const entries = rows('entry').length;
    before.close();

    const desk = openDeskOn(file);
    const about = await desk.client.cellar.about();
    expect(about).toMatchObject({
      begun: true,
      entryCount: entries,
      fileVersion: readMigrations().steps.length,
    });
    const placed = await desk.client.shelves.choose({ wanted: 'any', text: '', limit: 200 });
    expect(placed.map((row) => row.number).sort((a, b) => a - b)).toEqual(
      shown.map((text) => (JSON.parse(text) as { number: number }).number),
    );
    const steps = await desk.client.cellar.check();
    for (let step = await steps.next(); ; step = await steps.next()) {
      if (step.done !== true) continue;
      expect(step.value).toMatchObject({ sound: true, entries, faults: [] });
      break;
    }
    desk.close();
    const backups = readdirSync(join(scratch.folder, 'backups'));
    expect(backups.filter((backup) => backup.includes('before a new version'))).toHaveLength((copies += 1));
  });
});
