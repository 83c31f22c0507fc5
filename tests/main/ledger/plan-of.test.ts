import { randomUUID } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import type { Plan } from '#core/contract/ledger.ts';
import { NOTHING_READ, type ActDraft } from '#core/ledger/act.ts';
import type { VesselId } from '#core/ledger/ids.ts';
import { begun, DAY, jar, LITRE, must, NOW, type TestDesk, deskForEach } from '../desk-for-tests.ts';

let desk: TestDesk;
let apple: VesselId;
let pear: VesselId;
let empty: VesselId;
deskForEach('plan', async (opened) => {
  desk = opened;
  apple = (await begun(desk)).vesselId;
  pear = (await desk.write('addVessel', jar(), NOW - 40 * DAY)).vesselId;
  await desk.post(must(pear, 2, 'Pear must'), NOW - 30 * DAY);
  empty = (await desk.write('addVessel', jar({ capacityUl: 9 * LITRE }), NOW - 40 * DAY)).vesselId;
});

const plan = (act: ActDraft): Promise<Plan> => desk.client.ledger.plan({ act, happenedAtMs: null });
const sharesIn = ({ vessels }: Plan, vesselId: VesselId): string[] =>
  vessels
    .find((each) => each.vesselId === vesselId)
    ?.madeOf.map(({ name, tokens, ofTokens }) => `${name} ${(tokens / ofTokens).toFixed(4)}`) ?? [
    'no such vessel',
  ];

describe('a plan', () => {
  it('says what a blend will be made of, and of what is only poured from nothing', async () => {
    const newBatch = { name: 'House blend', ferment: 'cider' } as const;
    const parts = [
      { fromVesselId: apple, volumeUl: 3 * LITRE },
      { fromVesselId: pear, volumeUl: LITRE },
    ];
    const blend = await plan({ kind: 'blend', toVesselId: empty, parts, newBatch, toStage: null });
    expect(sharesIn(blend, empty)).toEqual(['Apple must 0.7500', 'Pear must 0.2500']);
    expect(sharesIn(blend, apple)).toEqual([]);
    expect(blend.vessels.find(({ vesselId }) => vesselId === empty)?.name).toBe('House blend');
    // Asking writes nothing.
    expect((await desk.client.shelves.vessel({ vesselId: empty })).row.stage).toBe('empty');
  });

  it('says what a barrel is made of after a refill, though it holds as much as before', async () => {
    const drawn = { kind: 'drawAndRefill', vesselId: apple, drawnUl: LITRE, toVesselId: null } as const;
    const refill = { newBatch: null, toStage: null, fromVesselId: pear, refillUl: LITRE } as const;
    const barrel = await plan({ ...drawn, ...refill });
    expect(sharesIn(barrel, apple)).toEqual(['Apple must 0.7500', 'Pear must 0.2500']);
    expect(barrel.outside).toMatchObject([{ account: 'drawn', deltaUl: LITRE }]);
  });

  it('repeats no shares where they stay as they were', async () => {
    const pour = { kind: 'transfer', fromVesselId: pear, toVesselId: apple, volumeUl: LITRE } as const;
    await desk.post({ ...pour, leesUl: 0, newBatch: null, toStage: null });
    const draw = await plan({ kind: 'drawOff', vesselId: apple, volumeUl: 333_333, purpose: '' });
    expect(sharesIn(draw, apple)).toEqual([]);
  });

  it('says how much strong spirit shrinks as it mixes, and where nobody can know', async () => {
    const spiritInto = (vesselId: VesselId): ActDraft => ({
      ...{ kind: 'addTo', vesselId, what: 'spirit', volumeUl: LITRE, alcoholPercentVolume: 96 },
      ingredient: { name: 'spirit', amountTyped: '1 L', massUg: null },
    });
    // This must was measured as it was begun, the pear must was not.
    const measured = { ...NOTHING_READ, gravitySg: 1.048, gravityInstrument: 'hydrometer' as const };
    await desk.post({ ...must(empty, 4, 'Quince must'), measured } as ActDraft, NOW - 20 * DAY);
    const known = await plan(spiritInto(empty));
    const shrunkUl = known.outside.find(({ account }) => account === 'contraction')?.deltaUl ?? 0;
    const change = known.vessels[0];
    expect(shrunkUl / LITRE).toBeGreaterThan(0.05);
    expect(change?.afterUl).toBe((change?.beforeUl ?? 0) + LITRE - shrunkUl);
    expect(known.asAdded).toEqual([]);
    const unknown = await plan(spiritInto(pear));
    expect(unknown.outside.map(({ account }) => account)).toEqual(['store']);
    expect(unknown.asAdded).toEqual([pear]);
    // Carried out, the line keeps the figure, and undone it takes it back.
    const { entry } = await desk.post(spiritInto(empty));
    expect(entry.act).toMatchObject({ contractions: [{ vesselId: empty, contractionUl: shrunkUl }] });
    const held = async (): Promise<number> =>
      (await desk.client.shelves.vessel({ vesselId: empty })).row.volumeUl;
    expect(await held()).toBe(change?.afterUl);
    await desk.client.ledger.undo({ requestId: randomUUID() });
    expect(await held()).toBe(change?.beforeUl);
  });

  it('counts the bottles left of a filling in the leaf', async () => {
    const bottle = {
      kind: 'bottle',
      vesselId: pear,
      bottles: 3,
      bottleUl: 500_000,
      lossUl: 0,
      note: '',
    } as const;
    const { entry } = await desk.post(bottle, NOW - DAY);
    const lotId = entry.entryId;
    const { batchId } = (await desk.client.shelves.vessel({ vesselId: pear })).row;
    if (batchId === null) throw new Error('no batch');
    await desk.post({ kind: 'takeBottles', lotId, bottles: 2, how: 'opened', holder: '', note: '' });
    expect((await desk.client.book.leaf({ batchId })).lots).toMatchObject([
      { entryId: lotId, bottles: 3, left: 1, bottleUl: 500_000, atMs: NOW - DAY },
    ]);
  });
});
