import { describe, expect, it } from 'vitest';
import type { PedigreeRoot } from '#core/contract/pedigree.ts';
import type { ActDraft } from '#core/ledger/act.ts';
import type { VesselId } from '#core/ledger/ids.ts';
import { begun, DAY, jar, LITRE, must, NOW, type TestDesk, deskForEach } from '../desk-for-tests.ts';

let desk: TestDesk;
deskForEach('pedigree', (opened) => {
  desk = opened;
});

const at = (day: number): number => NOW - (30 - day) * DAY;
const pour = (from: VesselId, to: VesselId, litres: number, name: string | null = null): ActDraft => ({
  ...{ kind: 'transfer', fromVesselId: from, toVesselId: to, volumeUl: litres * LITRE, leesUl: 0 },
  ...{ newBatch: name === null ? null : { name, ferment: 'fruitVinegar' }, toStage: null },
});

/** Names met, with how many litres or bottles there are now. */
async function trace(of: PedigreeRoot, direction: 'back' | 'onward'): Promise<string[]> {
  const { nodes } = await desk.client.pedigree.trace({ of, direction });
  return nodes.map(({ name, standingUl, bottlesLeft }) => {
    if (bottlesLeft !== null) return `${name}, ${bottlesLeft} bottles`;
    return standingUl === null ? name : `${name}, ${standingUl / LITRE} L`;
  });
}

/** Apple must of day 1; a part of it is Pear blend from day 5 on, of which bottles are filled on day 9. */
async function story() {
  const { vesselId: apple, batchId } = await begun(desk);
  const vessels: VesselId[] = [];
  for (let n = 0; n < 4; n += 1) vessels.push((await desk.write('addVessel', jar(), at(0))).vesselId);
  const [pear, blend, spare, mother] = vessels as [VesselId, VesselId, VesselId, VesselId];
  await desk.post(must(pear, 3, 'Pear must'), at(2));
  const begunBlend = await desk.write('transfer', pour(apple, blend, 1, 'Pear blend'), at(5));
  await desk.post(pour(pear, blend, 1), at(6));
  const bottled = await desk.post(
    { kind: 'bottle', vesselId: blend, bottles: 2, bottleUl: 500_000, lossUl: 0, note: '' },
    at(9),
  );
  return {
    apple,
    batchId,
    pear,
    blend,
    spare,
    mother,
    blendId: begunBlend.newBatch?.batchId,
    lotId: bottled.entry.entryId,
  };
}

describe('where it came from', () => {
  it('a bottle is traced to each must that is in it, with the amounts', async () => {
    const { lotId } = await story();
    const { nodes, steps } = await desk.client.pedigree.trace({
      of: { kind: 'lot', lotId },
      direction: 'back',
    });
    expect(nodes.map(({ name }) => name)).toEqual(['Pear blend', 'Pear blend', 'Apple must', 'Pear must']);
    expect(steps.map(({ volumeUl }) => volumeUl / LITRE)).toEqual([1, 1, 1]);
  });

  it('what came in only after the bottles were filled is not in them', async () => {
    const { lotId, spare, blend } = await story();
    await desk.post(must(spare, 2, 'Late must'), at(10));
    await desk.post(pour(spare, blend, 0.5), at(11));
    expect((await trace({ kind: 'lot', lotId }, 'back')).join()).not.toContain('Late must');
    expect((await trace({ kind: 'vessel', vesselId: blend }, 'back')).join()).toContain('Late must');
  });

  it('names the mother and the mother before her', async () => {
    const { blend, lotId, mother } = await story();
    const old = await desk.write(
      'addCulture',
      {
        ...{
          kind: 'addCulture',
          name: 'Old Bess',
          sort: 'mother',
          source: '',
          note: '',
          parentCultureId: null,
        },
        standing: { vesselId: mother, volumeUl: LITRE },
      },
      at(3),
    );
    const young = await desk.write(
      'addCulture',
      {
        ...{ kind: 'addCulture', name: 'Young Bess', sort: 'mother', source: '', note: '' },
        ...{ parentCultureId: old.cultureId, standing: null },
      },
      at(4),
    );
    await desk.post(
      {
        ...{ kind: 'seed', vesselId: blend, cultureId: young.cultureId, fromVesselId: mother },
        ...{ volumeUl: 100_000, what: '', toStage: 'vinegar' },
      },
      at(8),
    );
    const names = (await trace({ kind: 'lot', lotId }, 'back')).join();
    expect(names).toContain('Young Bess');
    expect(names).toContain('Old Bess');
    const touched = await trace({ kind: 'culture', cultureId: old.cultureId }, 'onward');
    expect(touched).toEqual(
      expect.arrayContaining(['Old Bess', 'Young Bess', 'Pear blend, 1.1 L', 'Pear blend, 2 bottles']),
    );
    expect(touched.join()).not.toContain('Apple must');
  });
});

describe('what it touched', () => {
  it('a must is followed through blends into bottles, and no further back than it went', async () => {
    const { batchId } = await story();
    expect(await trace({ kind: 'batch', batchId }, 'onward')).toEqual([
      'Apple must, 3 L',
      'Pear blend, 1 L',
      'Pear blend, 2 bottles',
    ]);
  });

  it('what left a vessel before it came in was not touched', async () => {
    const { pear, apple, spare } = await story();
    await desk.post(pour(apple, spare, 1, 'Clean part'), at(12));
    await desk.post(pour(pear, apple, 0.5), at(13));
    const touched = await trace({ kind: 'vessel', vesselId: pear }, 'onward');
    expect(touched).toContain('Apple must, 2.5 L');
    expect(touched.join()).not.toContain('Clean part');
  });

  it('bottles emptied back go on', async () => {
    const { batchId, lotId, spare } = await story();
    await desk.post(
      {
        ...{ kind: 'returnBottles', lotId, bottles: 1, toVesselId: spare, lossUl: 0 },
        ...{ toStage: null, note: '' },
      },
      at(15),
    );
    expect(await trace({ kind: 'batch', batchId }, 'onward')).toContain('Pear blend, 0.5 L');
  });
});

describe('keeping apart', () => {
  it('marks all that stands and all bottles, and is undone as one', async () => {
    const { batchId, apple, blend, lotId } = await story();
    await desk.post({
      ...{ kind: 'quarantine', root: { kind: 'batch', batchId }, reason: 'threads in the jar' },
      ...{ vesselIds: [apple, blend], lotIds: [lotId] },
    });
    const { nodes } = await desk.client.pedigree.trace({
      of: { kind: 'batch', batchId },
      direction: 'onward',
    });
    expect(nodes.map(({ stage, keptApartFor }) => stage ?? keptApartFor)).toEqual([
      'quarantine',
      'quarantine',
      'threads in the jar',
    ]);
  });
});

it('says that a root is not there', async () => {
  await begun(desk);
  const lotId = '019a0000-0000-7000-8000-000000000001' as never;
  await expect(
    desk.client.pedigree.trace({ of: { kind: 'lot', lotId }, direction: 'back' }),
  ).rejects.toMatchObject({ code: 'NOT_FOUND' });
});
