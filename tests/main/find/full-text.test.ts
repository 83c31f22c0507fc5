import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { randomUUID } from 'node:crypto';
import { join } from 'node:path';
import { ALL_BATCHES } from '#core/ledger/batch-filter.ts';
import type { BatchId, VesselId } from '#core/ledger/ids.ts';
import { NOTHING_READ } from '#core/ledger/act.ts';
import { rebuildProjections } from '#main/cellar/rebuild-projections.ts';
import { openWordsProjection } from '#main/find/words-projection.ts';
import { begun, jar, must, NOW, openDeskOn, scratchFolder, type TestDesk } from '../desk-for-tests.ts';

let scratch: ReturnType<typeof scratchFolder>;
let desk: TestDesk;
let vesselId: VesselId;
let batchId: BatchId;

beforeEach(async () => {
  scratch = scratchFolder();
  desk = openDeskOn(join(scratch.folder, 'words.undercroft'));
  ({ vesselId, batchId } = await begun(desk));
});
afterEach(() => {
  desk.close();
  scratch.remove();
});

const note = (text: string) => desk.post({ kind: 'note', about: { kind: 'batch', batchId }, text });
const daysWith = async (text: string) =>
  (await desk.client.find.days({ text, beforeSequence: null, limit: 20 })).days;
const batchesWith = async (text: string) => {
  const request = { ...ALL_BATCHES, text, offset: 0, limit: 50 };
  return (await desk.client.book.batches(request)).rows.map(({ name }) => name);
};

describe('every word of the book is found', () => {
  it('inside words, whatever the case and accents, with the day, the batch and the piece around it', async () => {
    await note('Es riecht nach Mirabellen und Gewürznelken,\n ein wenig nach Crème brûlée');
    for (const asked of ['mirabell', 'ABELLEN', 'gewurz', 'Gewürz', 'creme brulee', '"nach creme"']) {
      const [day, ...rest] = await daysWith(asked);
      expect(rest).toEqual([]);
      expect(day).toMatchObject({ happenedAtMs: NOW, batch: { batchId, name: 'Apple must' } });
    }
    const [day] = await daysWith('gewurz');
    expect(day?.marks.map(([from, to]) => day.text.slice(from, to))).toEqual(['Gewürz']);
  });

  it('words in any order, each of which must be there', async () => {
    await note('cloves and a stick of cinnamon');
    await note('cloves alone');
    expect(await daysWith('cinnamon cloves')).toHaveLength(1);
    expect(await daysWith('cloves')).toHaveLength(2);
    expect(await daysWith('"cloves cinnamon"')).toHaveLength(0);
    expect(await daysWith('cloves of')).toHaveLength(1);
  });

  it('names, codes, ingredients, tastes, reasons and what was told', async () => {
    const other = await desk.write('addVessel', jar({ name: 'Blue crock' }));
    await desk.post({
      ...(must(other.vesselId, 2, 'Quince trial') as Extract<
        ReturnType<typeof must>,
        { kind: 'startBatch' }
      >),
      ingredients: [{ name: 'Vranja quinces', amountTyped: 'a basket', massUg: null }],
    });
    await desk.post({ kind: 'recordReading', vesselId, values: { ...NOTHING_READ, taste: 'sharp, tannic' } });
    await desk.post({ kind: 'changeStage', vesselId, stage: 'held', reason: 'waiting for a gauge' });
    await desk.post({ kind: 'tellFacts', vesselId, facts: { rawMaterial: 'scrapAndSugarWater' } });
    for (const asked of ['blue crock', 'vranja', 'basket', 'tannic', 'gauge', 'sugar water', 'QT-26-0']) {
      expect(await daysWith(asked), asked).not.toEqual([]);
    }
    expect(await batchesWith('tannic')).toEqual(['Apple must']);
    expect(await batchesWith('vranja')).toEqual(['Quince trial']);
    expect(await batchesWith('must sugar')).toEqual(['Apple must']);
  });

  it('a line struck or undone is not found, and is again when that is taken back', async () => {
    const { entry } = await note('a smell of struck matches');
    expect(await batchesWith('matches')).toEqual(['Apple must']);
    await desk.client.ledger.strike({ requestId: crypto.randomUUID(), entryId: entry.entryId });
    expect(await daysWith('matches')).toEqual([]);
    expect(await batchesWith('matches')).toEqual([]);
    await desk.client.ledger.undo({ requestId: crypto.randomUUID() });
    expect(await daysWith('matches')).toHaveLength(1);
    expect(await batchesWith('matches')).toEqual(['Apple must']);
  });

  it('a batch is found by the name it has, and the day by the name it had', async () => {
    await desk.post({ kind: 'editBatch', batchId, name: 'Windfalls', ferment: 'fruitVinegar', note: '' });
    const found = await desk.client.find.everywhere({ text: 'apple must', limit: 8 });
    expect(found.batches).toEqual([]);
    expect(found.days).toHaveLength(1);
    const renamed = await desk.client.find.everywhere({ text: 'windfall', limit: 8 });
    expect(renamed.batches.map(({ name }) => name)).toEqual(['Windfalls']);
  });

  it('a batch found by its name is not shown again for the line that named it', async () => {
    const found = await desk.client.find.everywhere({ text: 'apple', limit: 8 });
    expect(found.batches).toHaveLength(1);
    expect(found.days).toEqual([]);
  });

  it('one or two letters find names, and no days', async () => {
    await note('zz zz zz');
    const found = await desk.client.find.everywhere({ text: 'ap', limit: 8 });
    expect(found.batches).toHaveLength(1);
    expect(await daysWith('zz')).toEqual([]);
    expect(await batchesWith('ap')).toEqual(['Apple must']);
  });

  it('days are read a page at a time', async () => {
    for (let n = 1; n <= 5; n += 1) await note(`skimmed ${n}`);
    const first = await desk.client.find.days({ text: 'skimmed', beforeSequence: null, limit: 3 });
    expect(first.days.map(({ text }) => text)).toEqual(['skimmed 5', 'skimmed 4', 'skimmed 3']);
    expect(first.more).toBe(true);
    const beforeSequence = first.days.at(-1)?.sequence ?? null;
    const second = await desk.client.find.days({ text: 'skimmed', beforeSequence, limit: 3 });
    expect(second.days.map(({ text }) => text)).toEqual(['skimmed 2', 'skimmed 1']);
    expect(second.more).toBe(false);
  });
});

describe('a line told anew', () => {
  it('is found by its old words and by its new ones, and by the old alone when that is taken back', async () => {
    const { entryId } = (await note('a whiff of nail varnish')).entry;
    const about = { kind: 'batch', batchId } as const;
    const told = { kind: 'note', about, text: 'a whiff of pear drops' } as const;
    await desk.client.ledger.restate({
      ...{ requestId: randomUUID(), reason: '' },
      corrections: [{ entryId, act: told, happenedAtMs: null }],
    });
    const foundBy = async (text: string) =>
      (await daysWith(text)).find((day) => day.entryId === entryId)?.marks.length ?? 0;
    expect(await foundBy('varnish')).toBe(1);
    expect(await foundBy('"pear drops"')).toBe(1);
    rebuildProjections(desk.app.desk.services.session);
    expect(await foundBy('"pear drops"')).toBe(1);
    // A file whose words were written down by an earlier program is brought up to date when it is opened.
    const { sqlite } = desk.app.desk.services.session.cellar;
    sqlite.exec('DELETE FROM line_words; UPDATE cellar SET words_format = 1');
    openWordsProjection(sqlite).bringUpToDate(desk.app.desk.services.session.book);
    expect(await foundBy('"pear drops"')).toBe(1);
    await desk.client.ledger.undo({ requestId: randomUUID() });
    expect(await foundBy('varnish')).toBe(1);
    expect(await foundBy('"pear drops"')).toBe(0);
  });
});

describe('the words are a projection like any other', () => {
  const sound = async (): Promise<boolean> => {
    const steps = await desk.client.cellar.check();
    for (;;) {
      const step = await steps.next();
      if (step.done === true) return step.value.sound;
    }
  };

  it('are checked against the book, and written anew by a rebuild', async () => {
    await note('a film of tiny bubbles');
    expect(await sound()).toBe(true);
    const { sqlite } = desk.app.desk.services.session.cellar;
    sqlite.exec('DELETE FROM batch_words; DELETE FROM batch_number');
    expect(await sound()).toBe(false);
    rebuildProjections(desk.app.desk.services.session);
    expect(await sound()).toBe(true);
    expect(await daysWith('bubbles')).toHaveLength(1);
  });
});
