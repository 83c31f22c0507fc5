import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { join } from 'node:path';
import { ALL_BATCHES, BATCH_SORTS, type BatchFilter } from '#core/ledger/batch-filter.ts';
import type { BatchId } from '#core/ledger/ids.ts';
import type { ActDraft } from '#core/ledger/act.ts';
import {
  begun,
  DAY,
  jar,
  LITRE,
  must,
  NOW,
  openDeskOn,
  scratchFolder,
  type TestDesk,
} from '../desk-for-tests.ts';

let scratch: ReturnType<typeof scratchFolder>;
let desk: TestDesk;

let batchId: BatchId;

beforeEach(async () => {
  scratch = scratchFolder();
  desk = openDeskOn(join(scratch.folder, 'batches.undercroft'));
  ({ batchId } = await begun(desk));
});
afterEach(() => {
  desk.close();
  scratch.remove();
});

const start = async (
  name: string,
  atMs: number,
  more: Partial<Extract<ActDraft, { kind: 'startBatch' }>> = {},
) => {
  const vessel = await desk.write('addVessel', jar(), atMs);
  const act = { ...(must(vessel.vesselId, 2, name) as Extract<ActDraft, { kind: 'startBatch' }>), ...more };
  return desk.write('startBatch', act, atMs);
};
const names = async (filter: Partial<BatchFilter>) => {
  const { rows, total } = await desk.client.book.batches({
    ...ALL_BATCHES,
    ...filter,
    offset: 0,
    limit: 100,
  });
  expect(total).toBe(rows.length);
  return rows.map(({ name }) => name);
};

describe('the ledger of batches', () => {
  it('is filtered by days, by what still stands and by what needs a look', async () => {
    const old = await start('Old quince', NOW - 300 * DAY);
    await desk.post(
      { kind: 'discard', vesselId: old.vesselId, volumeUl: 2 * LITRE, reason: '' },
      NOW - 200 * DAY,
    );
    await start('New plum', NOW - DAY, { ferment: 'wine' });
    expect(await names({ standing: 'gone' })).toEqual(['Old quince']);
    expect(await names({ standing: 'standing' })).toEqual(['New plum', 'Apple must']);
    expect(await names({ startedFromMs: NOW - 50 * DAY })).toEqual(['New plum', 'Apple must']);
    expect(await names({ startedUpToMs: NOW - 39 * DAY })).toEqual(['Apple must', 'Old quince']);
    expect(await names({ startedFromMs: NOW - 39 * DAY, startedUpToMs: NOW - 39 * DAY })).toEqual([
      'Apple must',
    ]);
    expect(await names({ ferment: 'wine', text: 'plum' })).toEqual(['New plum']);
    const { rows } = await desk.client.book.batches({ ...ALL_BATCHES, offset: 0, limit: 9 });
    const due = rows.filter((row) => row.due !== null && row.due.idealMs <= NOW).map(({ name }) => name);
    expect(due).toContain('Apple must');
    expect(await names({ needsLook: true })).toEqual(due);
  });

  it('is put in order by every column, both ways, and what is not there stands last', async () => {
    const gone = await start('Zucchini brine', NOW - 3 * DAY, {
      ferment: 'brinedVegetables',
      stage: 'lactic',
    });
    await desk.post(
      { kind: 'discard', vesselId: gone.vesselId, volumeUl: 2 * LITRE, reason: '' },
      NOW - 2 * DAY,
    );
    await start('Medlar', NOW - 2 * DAY);
    for (const sort of BATCH_SORTS) {
      const up = await names({ sort, descending: false });
      const down = await names({ sort, descending: true });
      expect([...up].sort(), sort).toEqual([...down].sort());
    }
    expect(await names({ sort: 'name', descending: false })).toEqual([
      'Apple must',
      'Medlar',
      'Zucchini brine',
    ]);
    expect(await names({ sort: 'volume', descending: true })).toEqual([
      'Apple must',
      'Medlar',
      'Zucchini brine',
    ]);
    expect((await names({ sort: 'volume', descending: false })).at(-1)).toBe('Zucchini brine');
    expect((await names({ sort: 'stage', descending: false })).at(-1)).toBe('Zucchini brine');
  });
});

describe('filters kept by name', () => {
  const filter = { ...ALL_BATCHES, standing: 'standing', needsLook: true, columns: ['due'] } as const;
  const kept = async () => (await desk.client.book.filters()).map(({ name }) => name);

  it('are kept, renamed and taken away, and undo brings them back', async () => {
    const { filterId } = await desk.write('keepBatchFilter', {
      ...{ kind: 'keepBatchFilter', name: 'To look at', filter: { ...filter, columns: ['due'] } },
    });
    expect(await desk.client.book.filters()).toEqual([{ filterId, name: 'To look at', filter }]);
    await desk.post({
      ...{ kind: 'editBatchFilter', filterId, name: 'Look', filter: { ...filter, columns: null } },
    });
    await desk.post({ kind: 'keepBatchFilter', name: 'all', filter: { ...ALL_BATCHES, columns: null } });
    expect(await kept()).toEqual(['all', 'Look']);
    await desk.post({ kind: 'dropBatchFilter', filterId });
    expect(await kept()).toEqual(['all']);
    await desk.client.ledger.undo({ requestId: crypto.randomUUID() });
    expect(await kept()).toEqual(['all', 'Look']);
    await expect(
      desk.post({ kind: 'dropBatchFilter', filterId: '01890000-0000-7000-8000-000000000009' as never }),
    ).rejects.toMatchObject({ data: { type: 'NotFound', what: 'filter' } });
  });
});

describe('what a leaf says of cost and of being made again', () => {
  const priced = (name: string, costHundredths?: number) => ({
    ...{ name, amountTyped: '1 kg', massUg: null },
    ...(costHundredths === undefined ? {} : { costHundredths }),
  });

  it('counts what has a cost, by the litre and by the bottle, and follows shares of other batches', async () => {
    const begunNow = await start('Perry', NOW - 20 * DAY, {
      ingredients: [priced('pears', 600), priced('sugar', 200), priced('lemon')],
    });
    const other = await desk.write('addVessel', jar(), NOW - 9 * DAY);
    const moved = await desk.write(
      'transfer',
      {
        ...{ kind: 'transfer', fromVesselId: begunNow.vesselId, toVesselId: other.vesselId },
        ...{
          volumeUl: LITRE,
          leesUl: 0,
          newBatch: { name: 'Perry apart', ferment: 'fruitVinegar' },
          toStage: null,
        },
      },
      NOW - 8 * DAY,
    );
    await desk.post(
      {
        ...{ kind: 'addTo', vesselId: other.vesselId, what: 'sugar', volumeUl: 0 },
        ingredient: priced('honey', 300),
      },
      NOW - 7 * DAY,
    );
    const apart = moved.newBatch?.batchId;
    if (apart === undefined) throw new Error('a new batch was asked for');
    const { cost } = await desk.client.book.leaf({ batchId: apart });
    expect(cost.soFar).toEqual({ parts: 700 * 10_000, priced: 3, of: 4 });
    expect(cost.standing).toMatchObject({ volumeUl: LITRE, parts: 700 * 10_000 });
    expect(cost.followed).toBe(true);
    await desk.post(
      { kind: 'bottle', vesselId: other.vesselId, bottles: 2, bottleUl: 500_000, lossUl: 0, note: '' },
      NOW - DAY,
    );
    const bottled = (await desk.client.book.leaf({ batchId: apart })).cost;
    expect(bottled.standing).toBeNull();
    expect(bottled.lots).toMatchObject([{ bottles: 2, parts: 700 * 10_000, priced: 3, of: 4 }]);
    const rest = (await desk.client.book.leaf({ batchId: begunNow.batchId })).cost;
    expect(rest.standing).toMatchObject({ parts: 400 * 10_000, priced: 2, of: 3, volumeUl: LITRE });
  });

  it('is nothing where nothing was told', async () => {
    const { cost } = await desk.client.book.leaf({ batchId });
    expect(cost).toEqual({
      ...{ lines: [], soFar: { parts: 0, priced: 0, of: 0 }, lots: [], followed: true },
      standing: { parts: 0, priced: 0, of: 0, volumeUl: 4 * LITRE },
    });
  });

  it('remembers which batch it makes again, both ways, until that is undone', async () => {
    const again = await start('Apple must', NOW - DAY, { repeatsBatchId: batchId });
    const leaf = await desk.client.book.leaf({ batchId: again.batchId });
    expect(leaf.repeats).toMatchObject({ batchId, name: 'Apple must' });
    const old = await desk.client.book.leaf({ batchId });
    expect(old.repeatedBy).toMatchObject([{ batchId: again.batchId }]);
    await desk.client.ledger.undo({ requestId: crypto.randomUUID() });
    expect((await desk.client.book.leaf({ batchId })).repeatedBy).toEqual([]);
  });
});
