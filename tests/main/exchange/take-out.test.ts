import { ORPCError } from '@orpc/client';
import { mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Papa from 'papaparse';
import { createHash, randomUUID } from 'node:crypto';
import { z } from 'zod';
import { afterAll, beforeEach, describe, expect, it, vi } from 'vitest';
import { BookDocument } from '#core/contract/book-document.ts';
import type { Outgoing } from '#core/contract/exchange.ts';
import { unguardText } from '#core/exchange/csv-text.ts';
import { tableNameOf } from '#core/exchange/tables.ts';
import { NOTHING_READ } from '#core/ledger/act.ts';
import type { Entry } from '#core/ledger/entry.ts';
import { replay } from '#core/ledger/memory-cellar.ts';
import { RECORD_KINDS } from '#core/ledger/records.ts';
import { canonical } from '#main/cellar/check-cellar.ts';
import { takeOut } from '#main/exchange/take-out.ts';
import { bookSchemaText } from '#main/exchange/book-document.ts';
import { begun, DAY, jar, NOW, openDeskOn, scratchFolder, type TestDesk } from '../desk-for-tests.ts';

// Some of these tell the whole sample year first.
vi.setConfig({ testTimeout: 60_000 });
const scratch = scratchFolder();
let folder: string;
let desk: TestDesk;
let vesselId: Awaited<ReturnType<typeof begun>>['vesselId'];
let count = 0;
beforeEach(async () => {
  folder = join(scratch.folder, `out-${(count += 1)}`);
  mkdirSync(folder);
  desk = openDeskOn(join(scratch.folder, `home-${count}.undercroft`));
  ({ vesselId } = await begun(desk));
  return () => {
    desk.close();
  };
});
afterAll(() => {
  scratch.remove();
});

/** Takes something out whole; `between` runs at each step. */
async function out(what: Outgoing, path: string | null = null, between?: () => Promise<unknown>) {
  const steps = await desk.client.exchange.takeOut({ what, path });
  let text = '';
  for (;;) {
    const step = await steps.next();
    if (step.done === true) return { ...step.value, text };
    text = step.value.again ? step.value.text : text + step.value.text;
    await between?.();
  }
}

/** Why it was not taken out. */
async function refusal(what: Outgoing, path: string | null): Promise<unknown> {
  try {
    return await out(what, path);
  } catch (error) {
    if (error instanceof ORPCError) return error.data ?? error.code;
    throw error;
  }
}

const table = (name: string, byteOrderMark = false): Outgoing => ({
  kind: 'table',
  table: name,
  byteOrderMark,
});
const rowsOf = (text: string): Record<string, string>[] =>
  Papa.parse(text, { header: true, skipEmptyLines: true }).data as Record<string, string>[];

describe('a table', () => {
  it('has its headings with units, ISO moments, and what its ids stand for', async () => {
    const values = { ...NOTHING_READ, gravitySg: 1.0481234567, temperatureCelsius: -1.5, taste: 'sharp' };
    await desk.post({ kind: 'recordReading', vesselId, values }, NOW - DAY);
    const { text, lines, name } = await out(table('readings'));
    expect(lines).toBe(1);
    expect(name).toBe('readings 2026-11-25.csv');
    expect(rowsOf(text)).toMatchObject([
      {
        ...{ at: '2026-11-24T12:00:00Z', vessel_number: '1', vessel_place: 'A1', batch_name: 'Apple must' },
        ...{ gravity_sg: '1.0481234567', temperature_celsius: '-1.5', taste: 'sharp', ph: '' },
      },
    ]);
    expect(text.split('\r\n')[1]).toContain(',1.0481234567,');
    expect(text.endsWith('\r\n')).toBe(true);
  });

  it.each([
    '=1+1',
    '+1',
    '-1',
    '@sum',
    '\t=1',
    "'=1",
    '＝1',
    '  =1',
    '"quoted", and more',
    'two\nlines',
    "'plain",
  ])('keeps %j as text a spreadsheet will not run, and it can be read back', async (text) => {
    await desk.post({ kind: 'note', about: { kind: 'vessel', vesselId }, text: `n${text}` });
    await desk.write('addVessel', jar({ name: text.replace('\n', ' ') }));
    const [, row] = rowsOf((await out(table('vessels'))).text);
    const kept = row?.['name'] ?? '';
    expect(unguardText(kept)).toBe(text.replace('\n', ' ').trim());
    expect(kept).not.toMatch(/^\s*[=+\-@\t＝]/u);
  });

  it('begins with the mark of UTF-8 only when that is asked for', async () => {
    expect((await out(table('places', true))).text.startsWith('\uFEFF"id"')).toBe(true);
    expect((await out(table('places'))).text.startsWith('"id"')).toBe(true);
  });

  it('says of each line of the book whether it is struck, and what was added only while it stands', async () => {
    const ingredient = { name: 'honey', amountTyped: '2 kg', massUg: 2_000_000_000 };
    await desk.post({ kind: 'addTo', vesselId, what: 'honey', ingredient, volumeUl: 0 });
    expect(rowsOf((await out(table('additions'))).text)).toMatchObject([
      { name: 'honey', mass_ug: '2000000000', amount_typed: '2 kg', batch_name: 'Apple must', what: 'honey' },
    ]);
    await desk.client.ledger.undo({ requestId: randomUUID() });
    expect(rowsOf((await out(table('additions'))).text)).toEqual([]);
    const struck = rowsOf((await out(table('entries'))).text).map((row) => row['struck']);
    expect(struck.slice(-2)).toEqual(['true', 'false']);
  });

  it('says what a batch was begun with a line an ingredient, and what it is made of a column a component', async () => {
    await desk.client.cellar.openSample();
    const ingredients = rowsOf((await out(table('ingredients'))).text);
    expect(ingredients.find(({ name }) => name === 'what was left on the trees')).toMatchObject({
      ...{ batch_name: 'Last apples', line: '1', amount_typed: '31 kg', mass_ug: '31000000000' },
    });
    const standing = rowsOf((await out(table('standing'))).text);
    expect(standing.some((row) => Number(row['water_ug']) > 1_000_000)).toBe(true);
    expect(Object.keys(standing[0] ?? {})).not.toContain('masses_ug');
  });

  it('that is not there is said to be missing', async () => {
    expect(await refusal(table('sqlite-master'), null)).toEqual({ what: 'table', id: 'sqlite-master' });
  });

  it('tells what was told a group a line', async () => {
    await desk.post({ kind: 'tellFacts', vesselId, facts: { concentrated: false, recipient: 'child' } });
    const told = rowsOf((await out(table('told-facts'))).text);
    expect(new Map(told.map(({ fact, said }) => [fact, said]))).toEqual(
      new Map([
        ['recipient', 'child'],
        ['concentrated', 'false'],
      ]),
    );
  });
});

describe('all tables', () => {
  it('lie in a new folder, one for every kind of record, and are explained beside', async () => {
    await desk.client.cellar.openSample();
    const target = join(folder, 'tables');
    const { file, bytes } = await out({ kind: 'tables', byteOrderMark: true }, target);
    expect(file).toBe(target);
    const names = [...RECORD_KINDS.map(tableNameOf), 'ingredients', 'entries'].map((name) => `${name}.csv`);
    expect(readdirSync(target).sort()).toEqual([...names, 'about these tables.txt'].sort());
    expect(readdirSync(target).reduce((sum, name) => sum + statSync(join(target, name)).size, 0)).toBe(bytes);
    const listed = await desk.client.exchange.tables();
    for (const { table: name, rows } of listed) {
      const read = rowsOf(readFileSync(join(target, `${name}.csv`), 'utf8').slice(1));
      if (name !== 'ingredients' && name !== 'told-facts') expect([name, read.length]).toEqual([name, rows]);
    }
  });

  it('bring the pictures along when that is asked, each named by its checksum and byte for byte', async () => {
    await desk.client.cellar.openSample();
    const target = join(folder, 'with-pictures');
    const { bytes } = await out({ kind: 'tables', byteOrderMark: false, pictures: true }, target);
    const files = readdirSync(target).filter((name) => name.endsWith('.jpg'));
    const photos = rowsOf(readFileSync(join(target, 'photos.csv'), 'utf8'));
    expect(files).toHaveLength(3);
    for (const file of files) {
      const checksum = createHash('sha256')
        .update(readFileSync(join(target, file)))
        .digest('hex');
      expect(file).toBe(`picture-${checksum}.jpg`);
      expect(photos.map((row) => row['checksum'])).toContain(checksum);
    }
    expect(readdirSync(target).reduce((sum, name) => sum + statSync(join(target, name)).size, 0)).toBe(bytes);
  });

  it('need a folder', async () => {
    expect(await refusal({ kind: 'tables', byteOrderMark: false }, null)).toBe('PATH_MISSING');
  });

  it('are not written over a folder that is there', async () => {
    mkdirSync(join(folder, 'mine'));
    expect(await refusal({ kind: 'tables', byteOrderMark: false }, join(folder, 'mine'))).toMatchObject({
      type: 'AlreadyThere',
    });
    expect(readdirSync(folder)).toEqual(['mine']);
  });
});

describe('taking out', () => {
  it.each([
    ['a zero byte', 'a\0b.csv', 'BadPath'],
    ['a name as cellars have', 'book.undercroft', 'CellarsName'],
    ['a folder that is not there', 'none/a.csv', 'FolderMissing'],
    ['a file that is there', 'letter', 'AlreadyThere'],
    ['a folder that is a file', 'letter/a.csv', 'BadPath'],
  ])('to %s is refused and leaves nothing', async (_what, name, type) => {
    writeFileSync(join(folder, 'letter'), 'Dear cellar');
    expect(await refusal({ kind: 'book' }, join(folder, name))).toMatchObject({ type });
    expect(readdirSync(folder)).toEqual(['letter']);
    expect(readFileSync(join(folder, 'letter'), 'utf8')).toBe('Dear cellar');
  });

  it('stopped on the way leaves nothing', async () => {
    const stop = new AbortController();
    const steps = takeOut(
      desk.app.desk.services,
      { kind: 'tables', byteOrderMark: false },
      join(folder, 't'),
      stop.signal,
    );
    for (let step = 0; step < 4; step += 1) await steps.next();
    expect(readdirSync(folder)).toHaveLength(1);
    stop.abort();
    await expect(steps.next()).rejects.toThrow(/abort/i);
    expect(readdirSync(folder)).toEqual([]);
  });

  it('left in the middle leaves nothing', async () => {
    const steps = takeOut(desk.app.desk.services, { kind: 'book' }, join(folder, 'b.json'), undefined);
    await steps.next();
    await steps.next();
    await steps.return({ file: null, name: '', bytes: 0, lines: 0 });
    expect(readdirSync(folder)).toEqual([]);
  });

  it('overtaken by the closing of the cellar leaves nothing', async () => {
    const steps = takeOut(desk.app.desk.services, { kind: 'book' }, join(folder, 'b.json'), undefined);
    await steps.next();
    await steps.next();
    desk.close();
    await expect(steps.next()).rejects.toMatchObject({
      refusal: { type: 'OtherFault', detail: 'CELLAR_CLOSED' },
    });
    expect(readdirSync(folder)).toEqual([]);
  });

  it('begins anew when the book is written in meanwhile, so that it is the cellar at one moment', async () => {
    let written = 0;
    const target = join(folder, 'tables');
    const { text } = await out({ kind: 'book' }, null, async () => {
      if ((written += 1) === 2)
        await desk.post({ kind: 'note', about: { kind: 'vessel', vesselId }, text: 'meanwhile' });
    });
    expect(BookDocument.parse(JSON.parse(text)).entries).toHaveLength(5);
    await out({ kind: 'tables', byteOrderMark: false }, target, async () => {
      if ((written += 1) === 12)
        await desk.post({ kind: 'note', about: { kind: 'vessel', vesselId }, text: 'again' });
    });
    expect(rowsOf(readFileSync(join(target, 'entries.csv'), 'utf8'))).toHaveLength(6);
    expect(readdirSync(folder)).toEqual(['tables']);
  });

  it('gives up by name when the book is written in at every step', async () => {
    const post = () => desk.post({ kind: 'note', about: { kind: 'vessel', vesselId }, text: 'again' });
    await expect(out({ kind: 'book' }, join(folder, 'b.json'), post)).rejects.toMatchObject({
      code: 'CHANGED_MEANWHILE',
    });
    expect(readdirSync(folder)).toEqual([]);
  });
});

describe('the whole book', () => {
  it('fits its published form, and played again gives the cellar it came from', async () => {
    await desk.client.cellar.openSample();
    await desk.client.ledger.undo({ requestId: randomUUID() });
    const target = join(folder, 'book.json');
    const { lines } = await out({ kind: 'book' }, target);
    const document = BookDocument.parse(JSON.parse(readFileSync(target, 'utf8')));
    const about = await desk.client.cellar.about();
    expect(document.manifest).toMatchObject({
      cellarName: about.name,
      counts: { entries: about.entryCount },
    });
    expect(document.entries.map(({ sequence }) => sequence)).toEqual(
      Array.from({ length: lines }, (_, i) => i + 1),
    );
    const entries = document.entries.map(({ entryId, ...entry }): Entry => ({ ...entry, id: entryId }));
    const played = replay(entries);
    const { records, cellar } = desk.app.desk.services.session;
    for (const kind of RECORD_KINDS) {
      const rows = document.manifest.counts[tableNameOf(kind)];
      expect([kind, played.records(kind).size]).toEqual([kind, rows]);
      for (const [id, record] of played.records(kind)) {
        expect(canonical(record)).toBe(canonical(records.get(kind, id)));
      }
    }
    expect(document.entries).toHaveLength(
      cellar.sqlite.prepare('SELECT COUNT(*) FROM entry').pluck().get() as number,
    );
  });

  it('can be described by the program that wrote it', async () => {
    const { text, name } = await out({ kind: 'bookSchema' });
    expect(text).toBe(bookSchemaText());
    expect(name).toBe('cellar-book.schema.json');
    const schema = z.fromJSONSchema(JSON.parse(text) as Parameters<typeof z.fromJSONSchema>[0]);
    const book = JSON.parse((await out({ kind: 'book' })).text) as { manifest: unknown };
    expect(schema.safeParse(book).success).toBe(true);
    expect(schema.safeParse({ ...book, manifest: { format: 'other' } }).success).toBe(false);
  });
});
