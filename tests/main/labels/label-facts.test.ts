import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Labelled, LabelPreview } from '#core/contract/labels.ts';
import { NOTHING_READ, type ActOf, type ReadingValues } from '#core/ledger/act.ts';
import type { VesselId } from '#core/ledger/ids.ts';
import { begun, DAY, jar, LITRE, NOW, openDeskOn, scratchFolder, type TestDesk } from '../desk-for-tests.ts';
import { orderOf } from './label-cellar.ts';

const scratch = scratchFolder();
let desk: TestDesk;
let file = 0;
let batchId: ActOf<'startBatch'>['batchId'];
let vesselId: VesselId;
beforeEach(async () => {
  desk = openDeskOn(join(scratch.folder, `facts-${(file += 1)}.undercroft`));
  await begun(desk);
  const vessel = await desk.write('addVessel', jar(), NOW - 60 * DAY);
  ({ vesselId } = vessel);
  const batch = await desk.write(
    'startBatch',
    {
      ...{
        kind: 'startBatch',
        name: 'Kingston vinegar',
        ferment: 'fruitVinegar',
        vesselId,
        volumeUl: 4 * LITRE,
      },
      ...{ stage: 'vinegar', measured: null, note: '' },
      ingredients: [{ name: 'windfalls', amountTyped: '5 kg', massUg: 5e9 }],
    },
    NOW - 60 * DAY,
  );
  ({ batchId } = batch);
});
afterEach(() => {
  desk.close();
});

const acidity = (value: number): ReadingValues => ({
  ...NOTHING_READ,
  ...{
    acidityGramsPer100Ml: value,
    acidityAs: 'acetic',
    acidityMethod: 'laboratory',
    acidityUncertainty: 0.2,
  },
  detail: {
    ...{ titration: null, acidityBasis: 'w/v', fixedAcidGramsPer100Ml: 0, gravityUncertainty: null },
    ...{ phUncertainty: null, phSampleFrom: null, phEquilibriumShown: null, alcoholMethod: null },
    ...{ alcoholUncertainty: null, totalSulfiteMgPerL: null, saltPercent: null },
  },
});
const read = (value: number, atMs: number) =>
  desk.post({ kind: 'recordReading', vesselId, values: acidity(value) }, atMs);

const preview = (of: unknown, over = {}): Promise<LabelPreview> =>
  desk.client.labels.preview({
    order: orderOf([{ of: of as Labelled, copies: 1 }], { layoutKey: 'a4-2x4', ...over }),
    ...{ fromPage: 1, pages: 1 },
  });
async function saidOf(of: unknown, over = {}): Promise<string> {
  const { drawings } = await preview(of, over);
  return (drawings[0]?.texts ?? []).map(({ text }) => text.replaceAll('\u00A0', ' ')).join(' | ');
}
const batch = () => ({ kind: 'batch', batchId });

describe('the strength on a label', () => {
  it('is said not to be measured when nobody measured it', async () => {
    expect(await saidOf(batch())).toContain('Acidity | not measured');
  });

  it('is printed from a fresh reading, rounded down, with its day', async () => {
    await read(5.49, NOW - 3 * DAY);
    expect(await saidOf(batch())).toContain('5.4 % as acetic, 2026-11-22');
  });

  it('is not printed from one that is too old, nor after something came in', async () => {
    await read(5.4, NOW - 20 * DAY);
    expect(await saidOf(batch())).toContain('Acidity | no fresh reading');
    await read(5.4, NOW - 2 * DAY);
    const water = {
      ...{ kind: 'addTo' as const, vesselId, what: 'water' as const, volumeUl: LITRE / 2 },
      ingredient: { name: 'boiled water', amountTyped: '500 ml', massUg: null },
    };
    await desk.post(water, NOW - DAY);
    const said = await saidOf(batch());
    expect(said).toContain('no fresh reading');
    expect(said).not.toContain('5.4');
  });
});

describe('a label of bottles', () => {
  it('has an id of its own, the day they were filled, and what was read until then', async () => {
    await read(5.49, NOW - 3 * DAY);
    const filled = await desk.post(
      { kind: 'bottle', vesselId, bottles: 4, bottleUl: LITRE / 2, lossUl: 0, note: '' },
      NOW - 2 * DAY,
    );
    await read(3.1, NOW - DAY);
    const [lot] = await desk.client.labels.jars({ text: 'kingston', of: null, kinds: ['lot'], limit: 9 });
    expect(lot).toMatchObject({ copiesWanted: 4, bottledAtMs: NOW - 2 * DAY, name: 'Kingston vinegar' });
    expect(lot?.id).toMatch(/^KV-26-001\/\d+$/u);
    expect(lot?.of).toEqual({ kind: 'lot', lotId: filled.entry.entryId });
    const said = await saidOf(lot?.of);
    expect(said).toContain('Bottled | 2026-11-23');
    // What was read of the rest in the jar afterwards says nothing of the bottles.
    expect(said).toContain('5.4 % as acetic, 2026-11-22');
    expect(said).not.toContain('3.1');
    const found = await desk.client.find.label({ id: `uc:${lot?.id.toLowerCase() ?? ''}` });
    expect(found).toMatchObject({ kind: 'lot', bottlesLeft: 4, batch: { name: 'Kingston vinegar' } });
    // The code of another batch with that line finds nothing rather than something else.
    expect(await desk.client.find.label({ id: (lot?.id ?? '').replace('KV', 'XX') })).toBeNull();
  });
});

describe('a label of a vessel', () => {
  it('names the batch in it and the vessel, and is found by its number', async () => {
    const said = await saidOf({ kind: 'vessel', vesselId });
    expect(said).toContain('V-2');
    expect(said).toContain('KV-26-001');
    expect(await desk.client.find.label({ id: 'v-2' })).toMatchObject({ kind: 'vessel', row: { number: 2 } });
    expect(await desk.client.find.label({ id: 'UC:V-99' })).toBeNull();
    const found = await desk.client.find.everywhere({ text: 'V-2', limit: 8 });
    expect(found.vessels[0]?.number).toBe(2);
  });

  it('that is empty has no cautions, and says that it is empty', async () => {
    const empty = await desk.write('addVessel', jar({ name: 'Blue crock' }), NOW - DAY);
    const told = (await preview({ kind: 'vessel', vesselId: empty.vesselId })).told[0];
    expect(told).toMatchObject({ id: 'V-3', name: 'Blue crock', cautions: [] });
    expect(await saidOf({ kind: 'vessel', vesselId: empty.vesselId })).toContain('empty vessel');
  });
});

describe('a batch in several jars', () => {
  it('prints of a strength only what every jar was shown to have, and the cautions of all', async () => {
    await read(5.49, NOW - 3 * DAY);
    const other = await desk.write('addVessel', jar(), NOW - 3 * DAY);
    const transfer = {
      ...{ kind: 'transfer' as const, fromVesselId: vesselId, toVesselId: other.vesselId, volumeUl: LITRE },
      ...{ leesUl: 0, newBatch: null, toStage: null },
    };
    await desk.post(transfer, NOW - 2 * DAY);
    await desk.post(
      {
        ...{ kind: 'quarantine', root: { kind: 'vessel', vesselId: other.vesselId }, reason: 'a film on it' },
        ...{ vesselIds: [other.vesselId], lotIds: [] },
      },
      NOW - DAY,
    );
    const { told } = await preview(batch());
    expect(told[0]?.cautions[0]).toBe('Kept apart: do not use.');
  });
});

describe('cautions on a label', () => {
  it('stay when the keeper goes against the verdict', async () => {
    const before = (await preview(batch())).told[0]?.cautions;
    expect(before).toEqual([
      'Do not use for pickling or canning. Not shown to be 5\u00A0% or more. Test before use.',
    ]);
    const over = await preview(batch(), { without: ['caution', 'name', 'id', 'started'] });
    expect(over.told[0]?.cautions).toEqual(before);
    const said = await saidOf(batch(), { without: ['caution', 'name', 'id', 'started'] });
    for (const piece of ['Kingston vinegar', '2026-09-26', 'KV-26-001', 'Test before use.']) {
      expect(said).toContain(piece);
    }
  });
});
