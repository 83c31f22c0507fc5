import { randomUUID } from 'node:crypto';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterAll, beforeEach, describe, expect, it, vi } from 'vitest';
import type { LookedOver, LookedRow } from '#core/contract/looked-over.ts';
import type { Settled } from '#core/exchange/settled.ts';
import { NOTHING_READ } from '#core/ledger/act.ts';
import { bringIn } from '#main/exchange/bring-in.ts';
import { begun, DAY, jar, must, NOW, openDeskOn, scratchFolder, type TestDesk } from '../desk-for-tests.ts';

vi.setConfig({ testTimeout: 60_000 });
const scratch = scratchFolder();
let desk: TestDesk;
let vesselId: Awaited<ReturnType<typeof begun>>['vesselId'];
let count = 0;
beforeEach(async () => {
  desk = openDeskOn(join(scratch.folder, `home-${(count += 1)}.undercroft`));
  ({ vesselId } = await begun(desk));
  return () => {
    desk.close();
  };
});
afterAll(() => {
  scratch.remove();
});

const UNSETTLED: Settled = {
  ...{ separator: null, decimalMark: null, dateOrder: null, headings: true, columns: null, vesselId: null },
  ...{ acidityAs: null, gravityInstrument: null, accepted: [], source: 'log.csv' },
};

async function look(text: string, settled: Partial<Settled> = {}): Promise<LookedOver> {
  const steps = await desk.client.exchange.lookOver({ text, settled: { ...UNSETTLED, ...settled } });
  for (;;) {
    const step = await steps.next();
    if (step.done === true) return step.value;
  }
}

async function bring(text: string, settled: Partial<Settled> = {}, requestId: string = randomUUID()) {
  const steps = await desk.client.exchange.bringIn({
    requestId,
    text,
    settled: { ...UNSETTLED, ...settled },
  });
  for (;;) {
    const step = await steps.next();
    if (step.done === true) return step.value;
  }
}

const readings = (): { at_ms: number; gravity_sg: number | null; ph: number | null }[] =>
  desk.app.desk.services.session.cellar.sqlite
    .prepare('SELECT at_ms, gravity_sg, ph FROM reading ORDER BY at_ms')
    .all() as never;
const entryCount = (): number => desk.app.desk.services.session.book.count();
const outcomes = ({ preview }: LookedOver): LookedRow['outcome'][] => preview.map(({ outcome }) => outcome);
const problemsOf = ({ preview }: LookedOver): string[][] =>
  preview.map(({ problems }) => problems.map(({ type }) => type));
const undo = () => desk.client.ledger.undo({ requestId: randomUUID() });

const PLAIN = 'date,vessel,SG\n2026-10-20 08:00,A1,1.048\n2026-10-25,#1,1.020\n2026-10-30 21:30,1,1.004\n';

describe('a table of readings', () => {
  it('comes in as readings of the book, each with its own cells beside it', async () => {
    const { posted, broughtIn } = await bring(PLAIN);
    expect(broughtIn).toBe(3);
    expect(readings()).toEqual([
      { at_ms: Date.UTC(2026, 9, 20, 8), gravity_sg: 1.048, ph: null },
      { at_ms: Date.UTC(2026, 9, 25, 12), gravity_sg: 1.02, ph: null },
      { at_ms: Date.UTC(2026, 9, 30, 21, 30), gravity_sg: 1.004, ph: null },
    ]);
    expect(posted?.entry).toMatchObject({
      ...{ together: 3, act: { kind: 'recordReading', vesselId } },
      typed: { gravitySg: '1.004', when: '2026-10-30 21:30', source: 'log.csv, line 4' },
    });
    expect(posted?.rows.map((row) => row.vesselId)).toEqual([vesselId]);
  });

  it('is taken back by one Undo and brought back by one Redo, also after a restart', async () => {
    await desk.post({ kind: 'recordReading', vesselId, values: { ...NOTHING_READ, ph: 3.5 } }, NOW - DAY);
    await bring(PLAIN);
    expect((await desk.client.ledger.undoState()).undo).toMatchObject({ together: 3 });
    const undone = await undo();
    expect(undone.entry).toMatchObject({ together: 3, reversed: { act: { kind: 'recordReading' } } });
    expect(readings()).toHaveLength(1);
    expect(undone.undoState).toMatchObject({
      undo: { act: { kind: 'recordReading' } },
      redo: { together: 3 },
    });
    const { file } = desk.app.desk.services.session.cellar;
    desk.close();
    desk = openDeskOn(file);
    const redone = await desk.client.ledger.redo({ requestId: randomUUID() });
    expect(redone.entry.together).toBe(3);
    expect(readings()).toHaveLength(4);
    await undo();
    await undo();
    expect(readings()).toEqual([]);
  });

  it('keeps a line of it that was struck alone out of the Undo of the rest', async () => {
    const { posted } = await bring(PLAIN);
    await desk.client.ledger.strike({ requestId: randomUUID(), entryId: posted!.entry.entryId });
    await undo();
    expect(readings()).toHaveLength(3);
    await undo();
    expect(readings()).toEqual([]);
    expect((await desk.client.ledger.redo({ requestId: randomUUID() })).entry.together).toBe(3);
  });

  it('can be taken back whole from under later acts, and that too can be undone', async () => {
    await bring(PLAIN);
    await desk.post({ kind: 'note', about: { kind: 'vessel', vesselId }, text: 'later' });
    const [intake] = await desk.client.exchange.intakes();
    expect(intake).toMatchObject({ readings: 3, standing: 3, source: 'log.csv' });
    const requestId = randomUUID();
    const back = await desk.client.exchange.takeBack({ requestId, intake: intake!.requestId });
    expect(back.entry.together).toBe(3);
    expect(readings()).toEqual([]);
    expect(
      (await desk.client.exchange.takeBack({ requestId, intake: intake!.requestId })).entry.entryId,
    ).toBe(back.entry.entryId);
    expect(await desk.client.exchange.intakes()).toMatchObject([{ standing: 0 }]);
    await expect(
      desk.client.exchange.takeBack({ requestId: randomUUID(), intake: intake!.requestId }),
    ).rejects.toMatchObject({ code: 'NOT_FOUND' });
    expect((await undo()).entry.together).toBe(3);
    expect(readings()).toHaveLength(3);
  });

  it('asked for twice by one request is written once', async () => {
    const requestId = randomUUID();
    const first = await bring(PLAIN, {}, requestId);
    const before = entryCount();
    const again = await bring(PLAIN, {}, requestId);
    expect(again.broughtIn).toBe(3);
    expect(again.posted?.entry.entryId).toBeDefined();
    expect(first.broughtIn).toBe(3);
    expect(entryCount()).toBe(before);
  });

  it('leaves a cellar that is found sound', async () => {
    await bring(PLAIN);
    await undo();
    const steps = await desk.client.cellar.check();
    for (;;) {
      const step = await steps.next();
      if (step.done !== true) continue;
      expect(step.value).toMatchObject({ sound: true, faults: [] });
      break;
    }
  });

  it('is known again: nothing of it comes in a second time', async () => {
    await bring(PLAIN);
    expect((await look(PLAIN)).counts).toMatchObject({ ready: 0, alreadyThere: 3 });
    expect(await bring(PLAIN)).toMatchObject({ broughtIn: 0, posted: null, alreadyThere: 3 });
  });

  it("is known again when it is the cellar's own table, whatever it holds", async () => {
    const values = {
      ...{
        ...NOTHING_READ,
        gravitySg: 1.0481234567,
        gravityCalibrationCelsius: 20,
        temperatureCelsius: 19.44444444444444,
      },
      ...{
        ph: 3.41,
        phMethod: 'meterToday' as const,
        acidityGramsPer100Ml: 4.9,
        acidityAs: 'acetic' as const,
      },
      ...{
        volumeUl: 3_999_999,
        freeSulfiteMgPerL: 30,
        alcoholPercentVolume: 6.25,
        taste: '=sharp, "green"\n-thin',
      },
    };
    await desk.post({ kind: 'recordReading', vesselId, values }, NOW - 2 * DAY + 123);
    const steps = await desk.client.exchange.takeOut({
      what: { kind: 'table', table: 'readings', byteOrderMark: true },
      path: null,
    });
    let text = '';
    for (;;) {
      const step = await steps.next();
      if (step.done === true) break;
      text += step.value.text;
    }
    expect((await look(text)).counts).toMatchObject({ rows: 1, alreadyThere: 1, refused: 0 });
    await undo();
    expect((await look(text)).questions).toEqual([]);
    await bring(text);
    const { session } = desk.app.desk.services;
    const id = session.cellar.sqlite.prepare('SELECT id FROM reading').pluck().get() as string;
    expect(session.records.get('reading', id)).toMatchObject({ atMs: NOW - 2 * DAY + 123, values });
  });
});

describe('what is not sure', () => {
  it('asks for the order of day and month, and reads either way once it is settled', async () => {
    const text = 'date;vessel;pH\n03/11/2026;A1;3,4\n04/11/2026;A1;3,5\n';
    const unsettled = await look(text);
    expect(unsettled).toMatchObject({
      separator: ';',
      questions: ['dateOrder'],
      dateOrder: { way: null, how: 'unclear' },
    });
    expect(unsettled.decimalMark).toEqual({ way: ',', how: 'certain' });
    await expect(bring(text)).rejects.toMatchObject({ code: 'NOT_SETTLED' });
    expect(readings()).toEqual([]);
    await bring(text, { dateOrder: 'dayFirst' });
    expect(readings().map(({ at_ms }) => at_ms)).toEqual([
      Date.UTC(2026, 10, 3, 12),
      Date.UTC(2026, 10, 4, 12),
    ]);
    expect(
      (await look(text, { dateOrder: 'monthFirst' })).preview.map(({ problems }) => problems[0]?.type),
    ).toEqual(['BeforeItBegan', 'BeforeItBegan']);
  });

  it('takes the order of the dates from one that allows only one', async () => {
    const text = 'date,vessel,pH\n03/11/2026,A1,3.4\n23/11/2026,A1,3.5\n';
    expect(await look(text)).toMatchObject({ questions: [], dateOrder: { way: 'dayFirst', how: 'certain' } });
  });

  it('asks about a mark that may be a decimal or part thousands, when that makes two amounts', async () => {
    const text = 'date;vessel;volume ml\n2026-11-03;A1;3,500\n';
    expect(await look(text)).toMatchObject({ questions: ['decimalMark'], decimalMark: { how: 'unclear' } });
    const settled = await look(text, { decimalMark: '.' });
    expect(settled.preview[0]?.values?.volumeUl).toBe(3_500_000);
    expect((await look(text, { decimalMark: ',' })).preview[0]?.values?.volumeUl).toBe(3500);
  });

  it('does not ask where both ways come to the same', async () => {
    const text = 'date;vessel;SG\n2026-11-03;A1;1,048\n2026-11-04;A1;1.046\n';
    expect(await look(text)).toMatchObject({ questions: [], counts: { ready: 2 } });
  });

  it('asks for a unit that no heading names, and for the acid', async () => {
    const text = 'date,vessel,temp,TA\n2026-11-03,A1,70,5.2\n';
    expect((await look(text)).questions).toEqual(['unit']);
    const columns: Settled['columns'] = [
      { field: 'when', unit: null },
      { field: 'vessel', unit: null },
      { field: 'temperature', unit: '°F' },
      { field: 'acidity', unit: 'g/L' },
    ];
    expect((await look(text, { columns })).questions).toEqual(['acid']);
    const settled = await look(text, { columns, acidityAs: 'tartaric' });
    expect(settled.questions).toEqual([]);
    expect(settled.preview[0]?.values).toMatchObject({ acidityGramsPer100Ml: 0.52, acidityAs: 'tartaric' });
    expect(settled.preview[0]?.values?.temperatureCelsius).toBeCloseTo(21.1111, 3);
  });

  it('leaves a number that looks like a slip to the keeper (MEAS-09)', async () => {
    const text =
      'date,vessel,SG,temp C\n2026-11-03,A1,1.048,20\n2026-11-04,A1,1.480,20\n2026-11-05,A1,1.045,68\n';
    const unsure = await look(text);
    expect(outcomes(unsure)).toEqual(['ready', 'doubtful', 'doubtful']);
    expect(problemsOf(unsure)).toEqual([[], ['Implausible'], ['Slip']]);
    expect(unsure.counts).toMatchObject({ ready: 1, doubtful: 2 });
    const { broughtIn, refused } = await bring(text, { accepted: [4] });
    expect([broughtIn, refused]).toEqual([2, 1]);
    expect(readings().map((r) => r.gravity_sg)).toEqual([1.048, 1.045]);
  });
});

describe('where a row belongs', () => {
  it('is found by number, place, name or batch, and never guessed between two', async () => {
    const { vesselId: second } = await desk.write('addVessel', jar({ name: 'Blue jar' }), NOW - 30 * DAY);
    const { code } = await desk.write('startBatch', must(second, 2, 'Plum must'), NOW - 29 * DAY);
    await desk.write('addVessel', jar({ name: 'Twin' }));
    await desk.write('addVessel', jar({ name: 'twin ' }));
    const text = `date,vessel,batch,pH
2026-11-01,#2,,3.1
2026-11-02,blue JAR,,3.2
2026-11-03,,${code},3.3
2026-11-04,,Plum must,3.4
2026-11-05,Twin,,3.5
2026-11-06,Z9,,3.6
2026-11-07,A1,Plum must,3.7
2026-11-08,,,3.8
2026-11-09,3,,3.9
`;
    const report = await look(text);
    expect(report.preview.map(({ vessel, problems }) => problems[0]?.type ?? vessel)).toEqual([
      ...Array.from({ length: 4 }, () => '#2, Blue jar'),
      ...['SeveralVessels', 'NoSuchVessel', 'HoldsAnother', 'NoVessel', 'VesselEmpty'],
    ]);
  });

  it('is one vessel for all rows when that is settled', async () => {
    const text = 'when,SG\n2026-11-03 10:00,1.010\n';
    expect((await look(text)).questions).toEqual(['vessel']);
    expect(await bring(text, { vesselId })).toMatchObject({ broughtIn: 1 });
  });

  it('before the batch was in the vessel, in the future, or without a day is refused', async () => {
    const text =
      'when,vessel,SG\n2026-01-01,A1,1.01\n2027-01-01,A1,1.01\nyesterday,A1,1.01\n2026-02-30,A1,1.01\n,A1,1.01\n';
    const report = await look(text);
    expect(problemsOf(report)).toEqual([
      ['BeforeItBegan'],
      ['InTheFuture'],
      ['NotAWhen'],
      ['NoSuchDay'],
      ['NoWhen'],
    ]);
    expect(report.troubled).toHaveLength(5);
    expect(report.troubled[3]).toMatchObject({ line: 5, cells: ['2026-02-30', 'A1', '1.01'] });
  });

  it('a day without a time is its noon, or what of that day there has been', async () => {
    const text = 'when,vessel,SG\n2026-11-25,A1,1.01\n2026-10-17,A1,1.01\n';
    const began = NOW - 39 * DAY;
    expect((await look(text)).preview.map(({ atMs }) => atMs)).toEqual([NOW, began]);
  });
});

describe('a table that is broken', () => {
  it.each([
    ['nothing', '', ['empty']],
    ['only headings', 'date,vessel,SG\n', ['empty']],
    ['only spaces', ' \n \n', ['empty']],
    ['no day', 'vessel,SG\nA1,1.010\n', ['when']],
    ['no value', 'date,vessel\n2026-11-03,A1\n', ['values']],
  ])('%s: it says what is missing', async (_what, text, questions) => {
    expect((await look(text)).questions).toEqual(questions);
    await expect(bring(text)).rejects.toMatchObject({ code: 'NOT_SETTLED' });
  });

  it('quotes left open, too many cells and unknown words are refused by their line; the rest comes in', async () => {
    const text =
      'date,vessel,SG\r\n"2026-11-03",A1,"1.010"\r\n2026-11-04,A1,1,010\r\n2026-11-05,A1,dry\r\n\r\n2026-11-06,A1,"1.008\r\n2026-11-07,A1,1.007\r\n';
    const report = await look(text, { decimalMark: '.' });
    expect(report.preview.map(({ line, problems }) => [line, problems[0]?.type ?? null])).toEqual([
      [2, null],
      [3, 'TooManyCells'],
      [4, 'NotANumber'],
      [6, 'QuotesLeftOpen'],
    ]);
    expect(await bring(text, { decimalMark: '.' })).toMatchObject({ broughtIn: 1, refused: 3 });
  });

  it('counts the lines of a text with line ends inside its cells', async () => {
    const text = 'date,vessel,pH,taste\n2026-11-03,A1,3.4,"two\nlines"\n2026-11-04,A1,wet,\n';
    const report = await look(text);
    expect(report.troubled.map(({ line }) => line)).toEqual([4]);
    expect(report.preview[0]?.values?.taste).toBe('two\nlines');
  });

  it('the same row twice comes in once', async () => {
    const text = 'date,vessel,pH\n2026-11-03,A1,3.4\n2026-11-03,A1,3.4\n2026-11-03,A1,3.5\n';
    const report = await look(text);
    expect(problemsOf(report)).toEqual([[], ['SameAsLine'], []]);
    expect(report.preview[1]?.problems[0]?.number).toBe(2);
  });

  it.each([
    ['a tab', 'date\tvessel\tpH\n2026-11-03\tA1\t3,4\n', '\t'],
    ['a bar', 'date|vessel|pH\n2026-11-03|A1|3.4\n', '|'],
    ['a named separator', 'sep=;\ndate;vessel;pH\n2026-11-03;A1;3,4\n', ';'],
    ['a mark of UTF-8 and a Mac line end', '\uFEFFdate,vessel,pH\r2026-11-03,A1,3.4\r', ','],
  ])('%s is found out', async (_what, text, separator) => {
    const report = await look(text);
    expect(report.separator).toBe(separator);
    expect(report.preview[0]?.values?.ph).toBe(3.4);
  });

  it('text that looks like SQL, markup or a formula is text', async () => {
    const taste = `'); DROP TABLE reading; -- <b>=cmd|' /C calc'!A0`;
    await bring(`date,vessel,taste\n2026-11-03,A1,"${taste}"\n2026-11-04,A1,'=1+1\n`);
    const tastes = desk.app.desk.services.session.cellar.sqlite
      .prepare('SELECT taste FROM reading')
      .pluck()
      .all();
    expect(tastes).toEqual([taste, '=1+1']);
  });
});

describe('any text at all', () => {
  it('is looked over civilly, and nothing is written', async () => {
    const before = entryCount();
    const cell = fc.oneof(
      fc.constantFrom(
        'date',
        'vessel',
        'pH',
        '2026-11-03',
        'A1',
        '3,4',
        '1.048',
        '"',
        '""',
        ';',
        '\t',
        '\uFEFF',
        '\0',
        '=1',
      ),
      fc.string({ maxLength: 12 }),
    );
    const lines = fc.array(
      fc.array(cell, { maxLength: 6 }).map((cells) => cells.join(',')),
      { maxLength: 8 },
    );
    await fc.assert(
      fc.asyncProperty(lines, fc.boolean(), async (rows, headings) => {
        const { counts } = await look(rows.join('\n'), { headings });
        expect(counts.ready + counts.alreadyThere + counts.doubtful + counts.refused).toBe(counts.rows);
      }),
      { numRuns: 200 },
    );
    expect(entryCount()).toBe(before);
  });
});

describe('many rows', () => {
  const many = (rows: number): string =>
    [
      'when,vessel,SG,pH',
      ...Array.from(
        { length: rows },
        (_, i) =>
          `${new Date(NOW - 38 * DAY + i * 60_000).toISOString()},A1,${(1.05 - i / 200_000).toFixed(5)},3.4`,
      ),
    ].join('\n');

  it('5,000 rows come in together, with other calls answered meanwhile, and go again together', async () => {
    const text = many(5000);
    const steps = await desk.client.exchange.bringIn({ requestId: randomUUID(), text, settled: UNSETTLED });
    const answered: number[] = [];
    for (;;) {
      const step = await steps.next();
      if (step.done === true) {
        expect(step.value).toMatchObject({ broughtIn: 5000, refused: 0 });
        break;
      }
      if (step.value.what === 'read') answered.push((await desk.client.cellar.about()).entryCount);
    }
    expect(answered.length).toBeGreaterThan(20);
    expect(new Set(answered).size).toBe(1);
    expect(readings()).toHaveLength(5000);
    await undo();
    expect(readings()).toHaveLength(0);
  });

  it('stopped while they are looked over, nothing is written', async () => {
    const stop = new AbortController();
    const before = entryCount();
    const incoming = { requestId: randomUUID(), text: many(1000), settled: UNSETTLED };
    const steps = bringIn(desk.app.desk.services, incoming, stop.signal, () => {
      throw new Error('written all the same');
    });
    for (
      let step = await steps.next();
      step.done !== true && step.value.what !== 'write';
      step = await steps.next()
    );
    stop.abort();
    await expect(steps.next()).rejects.toThrow(/abort/i);
    expect(entryCount()).toBe(before);
  });

  it('are all or none: a fault at the last of them leaves the book as it was', async () => {
    const before = entryCount();
    const { sqlite } = desk.app.desk.services.session.cellar;
    sqlite.exec(`CREATE TEMP TRIGGER full AFTER INSERT ON main.reading WHEN NEW.ph = 3.99
      BEGIN SELECT RAISE(ABORT, 'no more'); END`);
    const text = `${many(300)}\n2026-11-24,A1,1.001,3.99\n`;
    await expect(bring(text)).rejects.toThrow();
    expect(entryCount()).toBe(before);
    expect(readings()).toEqual([]);
    sqlite.exec('DROP TRIGGER temp.full');
    expect(await bring(text)).toMatchObject({ broughtIn: 301 });
  });

  it('looks again when the book was written in meanwhile, so that what came in by hand is not there twice', async () => {
    const steps = await desk.client.exchange.bringIn({
      requestId: randomUUID(),
      text: PLAIN,
      settled: UNSETTLED,
    });
    await steps.next();
    const values = { ...NOTHING_READ, gravitySg: 1.048, gravityCalibrationCelsius: 20 };
    await desk.post({ kind: 'recordReading', vesselId, values }, Date.UTC(2026, 9, 20, 8));
    for (;;) {
      const step = await steps.next();
      if (step.done !== true) continue;
      expect(step.value).toMatchObject({ broughtIn: 2, alreadyThere: 1 });
      break;
    }
    expect(readings()).toHaveLength(3);
  });

  it('more than are read at once are not cut off in silence', async () => {
    const report = await look(
      ['when,vessel,SG', ...Array.from({ length: 20_001 }, () => 'x,A1,1')].join('\n'),
    );
    expect(report.questions).toContain('tooManyRows');
  });
});
