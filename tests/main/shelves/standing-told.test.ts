import { randomUUID } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import type { ActDraft } from '#core/ledger/act.ts';
import type { VesselId } from '#core/ledger/ids.ts';
import type { ToldFacts } from '#core/ledger/told-facts.ts';
import { begun, DAY, jar, LITRE, must, NOW, type TestDesk, deskForEach } from '../desk-for-tests.ts';

let desk: TestDesk;
deskForEach('told', (opened) => {
  desk = opened;
});

const tell = (vesselId: VesselId, facts: ToldFacts, daysAgo: number) =>
  desk.post({ kind: 'tellFacts', vesselId, facts }, NOW - daysAgo * DAY);

async function pour(fromVesselId: VesselId, toVesselId: VesselId, litres: number, daysAgo: number) {
  const act: ActDraft = {
    ...{ kind: 'transfer', fromVesselId, toVesselId, volumeUl: litres * LITRE, leesUl: 0 },
    ...{ newBatch: null, toStage: null },
  };
  return desk.post(act, NOW - daysAgo * DAY);
}

const told = async (vesselId: VesselId): Promise<ToldFacts> =>
  (await desk.client.shelves.vessel({ vesselId })).told;
const finding = async (vesselId: VesselId, use: string, ruleId: string) =>
  (await desk.client.shelves.vessel({ vesselId })).verdicts
    .find((verdict) => verdict.use === use)
    ?.findings.find((each) => each.ruleId === ruleId);
const emptyJar = async () => (await desk.write('addVessel', jar(), NOW - 40 * DAY)).vesselId;

/** A second must, told of or not, in a jar of its own. */
async function anotherMust(facts: ToldFacts | null): Promise<VesselId> {
  const vesselId = await emptyJar();
  await desk.write('startBatch', must(vesselId, 3, 'Pear must'), NOW - 38 * DAY);
  if (facts !== null) await tell(vesselId, facts, 35);
  return vesselId;
}

const CROCK: ToldFacts = {
  vessel: {
    ...{ material: 'glazedCeramic', contactMinutes: null, glaze: 'makerSaysLeadFree', damage: 'sound' },
    ...{ foodGrade: null, scratched: null, heldChemicals: null, light: null, heldVinegarBefore: null },
  },
  closing: { closure: 'airlock', headspacePercent: null },
};

describe('racked into another vessel', () => {
  it('what was told of the liquid goes along, what was told of the vessel stays behind', async () => {
    const { vesselId } = await begun(desk);
    const second = await emptyJar();
    await tell(vesselId, { ...CROCK, rawMaterial: 'juice', recipient: 'child' }, 30);
    await desk.post({ kind: 'heat', vesselId, reachedCelsius: 65, minutes: 20, note: '' }, NOW - 25 * DAY);
    await pour(vesselId, second, 2, 20);
    expect(await told(second)).toMatchObject({
      ...{ rawMaterial: 'juice', recipient: 'child', heating: { minutes: 20 } },
    });
    expect(await told(second)).not.toHaveProperty('vessel');
    expect(await told(second)).not.toHaveProperty('closing');
    // The rest stands where it stood.
    expect(await told(vesselId)).toMatchObject({ ...CROCK, rawMaterial: 'juice' });
  });

  it('what is told of the first vessel after it left does not follow it', async () => {
    const { vesselId } = await begun(desk);
    const second = await emptyJar();
    await pour(vesselId, second, 2, 20);
    await tell(vesselId, { rawMaterial: 'juice' }, 10);
    expect(await told(second)).toEqual({});
  });

  it('told of the second vessel it counts there, and racked back it is gone again', async () => {
    const { vesselId } = await begun(desk);
    const second = await emptyJar();
    await pour(vesselId, second, 4, 20);
    await tell(second, { ...CROCK, rawMaterial: 'juice' }, 15);
    expect(await told(second)).toMatchObject(CROCK);
    await pour(second, vesselId, 4, 10);
    expect(await told(vesselId)).toEqual({ rawMaterial: 'juice' });
  });

  it('a telling that is struck is as if it had never been', async () => {
    const { vesselId } = await begun(desk);
    const { entry } = await tell(vesselId, { rawMaterial: 'juice' }, 10);
    await desk.client.ledger.strike({ requestId: randomUUID(), entryId: entry.entryId });
    expect(await told(vesselId)).toEqual({});
  });
});

describe('blended', () => {
  it('a reassuring fact of one part alone is not known of the blend, whichever was poured', async () => {
    const { vesselId } = await begun(desk);
    const other = await anotherMust(null);
    await tell(vesselId, { ...CROCK, rawMaterial: 'juice', concentrated: false }, 30);
    await pour(other, vesselId, 1, 20);
    expect(await told(vesselId)).toEqual(CROCK);
    const third = await anotherMust({ rawMaterial: 'juice', concentrated: false });
    await pour(third, other, 1, 15);
    expect(await told(other)).toEqual({});
  });

  it('told alike of both parts it stays known, and telling it of the blend makes it known', async () => {
    const { vesselId } = await begun(desk);
    const other = await anotherMust({ rawMaterial: 'juice', concentrated: false });
    await tell(vesselId, { rawMaterial: 'juice' }, 30);
    await pour(other, vesselId, 1, 20);
    expect(await told(vesselId)).toEqual({ rawMaterial: 'juice' });
    await tell(vesselId, { concentrated: false }, 10);
    expect(await told(vesselId)).toEqual({ rawMaterial: 'juice', concentrated: false });
  });

  it('an alarming fact of the part comes along, through the vessels it stood in, even when that is empty now', async () => {
    const { vesselId } = await begun(desk);
    const other = await anotherMust({ concentrated: true, containsHoney: true });
    const between = await emptyJar();
    await pour(other, between, 3, 30);
    await pour(between, vesselId, 1, 20);
    await desk.post({ kind: 'discard', vesselId: between, volumeUl: 2 * LITRE, reason: '' }, NOW - 15 * DAY);
    expect(await told(vesselId)).toEqual({ concentrated: true, containsHoney: true });
  });

  it('a blend that is struck has mixed nothing', async () => {
    const { vesselId } = await begun(desk);
    const other = await anotherMust(null);
    await tell(vesselId, { rawMaterial: 'juice' }, 30);
    const { entry } = await pour(other, vesselId, 1, 20);
    expect(await told(vesselId)).toEqual({});
    await desk.client.ledger.strike({ requestId: randomUUID(), entryId: entry.entryId });
    expect(await told(vesselId)).toEqual({ rawMaterial: 'juice' });
  });

  it('several poured into an empty vessel are known by what all of them were told, and by what alarms of any', async () => {
    const { vesselId } = await begun(desk);
    const other = await anotherMust({ rawMaterial: 'juice', concentrated: false, containsHoney: true });
    await tell(vesselId, { ...CROCK, rawMaterial: 'juice', concentrated: false, containsHoney: false }, 30);
    const blend = async (from: readonly VesselId[], daysAgo: number) => {
      const toVesselId = await emptyJar();
      const parts = from.map((fromVesselId) => ({ fromVesselId, volumeUl: LITRE / 2 }));
      await desk.post(
        { kind: 'blend', parts, toVesselId, newBatch: null, toStage: null },
        NOW - daysAgo * DAY,
      );
      return told(toVesselId);
    };
    expect(await blend([vesselId, other], 20)).toEqual({
      ...{ rawMaterial: 'juice', concentrated: false, containsHoney: true },
    });
    expect(await blend([vesselId, await anotherMust(null)], 10)).toEqual({});
  });

  it('a cask that is drawn from and filled up again is a blend, however little comes in', async () => {
    const { vesselId } = await begun(desk);
    const other = await anotherMust(null);
    const drawnInto = await emptyJar();
    await tell(vesselId, { rawMaterial: 'juice' }, 30);
    await desk.post(
      {
        ...{ kind: 'drawAndRefill', vesselId, drawnUl: 2 * LITRE, toVesselId: drawnInto },
        ...{ fromVesselId: other, refillUl: LITRE, newBatch: null, toStage: null },
      },
      NOW - 20 * DAY,
    );
    expect(await told(vesselId)).toEqual({});
    expect(await told(other)).toEqual({});
  });

  it('seeding from a jar, and juice from outside, are blends too; water and drawing off are not', async () => {
    const { vesselId } = await begun(desk);
    await tell(vesselId, { rawMaterial: 'juice' }, 30);
    await desk.post({ kind: 'drawOff', vesselId, volumeUl: LITRE, purpose: '' }, NOW - 29 * DAY);
    const add = (what: 'water' | 'juice', daysAgo: number) =>
      desk.post(
        {
          ...{ kind: 'addTo', vesselId, what, volumeUl: LITRE / 10 },
          ingredient: { name: what, amountTyped: '', massUg: null },
        },
        NOW - daysAgo * DAY,
      );
    await add('water', 28);
    expect(await told(vesselId)).toEqual({ rawMaterial: 'juice' });
    await add('juice', 27);
    expect(await told(vesselId)).toEqual({});
    await tell(vesselId, { rawMaterial: 'juice' }, 26);
    const mother = await anotherMust({ rawMaterial: 'scrapAndSugarWater' });
    await desk.post(
      {
        ...{ kind: 'seed', vesselId, cultureId: null, fromVesselId: mother, volumeUl: LITRE / 4 },
        ...{ what: 'raw vinegar', toStage: 'vinegar' },
      },
      NOW - 20 * DAY,
    );
    expect(await told(vesselId)).toEqual({ rawMaterial: 'scrapAndSugarWater' });
  });
});

describe('the use of the vessel itself', () => {
  const CLEANED: ToldFacts = {
    cleaning: {
      ...{ bleach: false, acidOrSulfite: null, rinsedBetween: null, sulfiteWithAcid: false },
      ...{ place: null, asthmaPresent: null, lastCleanerRinsed: true },
    },
  };
  const word = async (vesselId: VesselId) =>
    (await desk.client.shelves.vessel({ vesselId })).verdicts.find(({ use }) => use === 'useVessel')?.word;

  it('is not known until it is told whole and rinsed, and is not known again of the next vessel', async () => {
    const { vesselId } = await begun(desk);
    expect(await word(vesselId)).toBe('notKnown');
    await tell(vesselId, CLEANED, 30);
    expect(await word(vesselId)).toBe('notKnown');
    const whole = CROCK.vessel;
    if (whole === undefined) throw new Error('nothing told of the crock');
    await tell(vesselId, { vessel: { ...whole, material: 'glass', glaze: null } }, 29);
    expect(await word(vesselId)).toBe('meetsTheRule');
    const second = await emptyJar();
    await pour(vesselId, second, 2, 20);
    expect(await word(second)).toBe('notKnown');
    expect(await word(vesselId)).toBe('meetsTheRule');
  });

  it('meets no rule while it is kept apart, whatever was told, and does again when it is moved on', async () => {
    const { vesselId } = await begun(desk);
    const whole = CROCK.vessel;
    if (whole === undefined) throw new Error('nothing told of the crock');
    await tell(vesselId, { ...CLEANED, vessel: { ...whole, material: 'glass', glaze: null } }, 29);
    expect(await word(vesselId)).toBe('meetsTheRule');
    await desk.post(
      { kind: 'changeStage', vesselId, stage: 'quarantine', reason: 'threads' },
      NOW - 20 * DAY,
    );
    expect(await word(vesselId)).toBe('notKnown');
    const { verdicts } = await desk.client.shelves.vessel({ vesselId });
    expect(verdicts.map(({ keptApart }) => keptApart)).not.toContain(false);
    expect(verdicts.map((verdict) => verdict.word)).not.toContain('meetsTheRule');
    await desk.post({ kind: 'changeStage', vesselId, stage: 'held', reason: '' }, NOW - 10 * DAY);
    expect(await word(vesselId)).toBe('meetsTheRule');
  });

  it('a glaze with lead forbids it, and so does a cleaner that was not rinsed out', async () => {
    const { vesselId } = await begun(desk);
    const whole = CROCK.vessel;
    if (whole === undefined) throw new Error('nothing told of the crock');
    await tell(vesselId, { ...CLEANED, vessel: { ...whole, glaze: 'swabPositive' } }, 30);
    expect(await word(vesselId)).toBe('doNotUse');
    await tell(vesselId, { vessel: { ...whole, glaze: 'makerSaysLeadFree', heldVinegarBefore: true } }, 25);
    expect(await word(vesselId)).not.toBe('doNotUse');
    const { cleaning } = CLEANED;
    if (cleaning === undefined) throw new Error('nothing told of the cleaning');
    await tell(vesselId, { cleaning: { ...cleaning, lastCleanerRinsed: false } }, 20);
    expect(await word(vesselId)).toBe('doNotUse');
  });
});

describe('what the book knows besides', () => {
  it('honey that went in is in it, whatever was told before, also by way of what was poured in', async () => {
    const { vesselId } = await begun(desk);
    const other = await anotherMust({ containsHoney: false });
    await desk.post(
      {
        ...{ kind: 'addTo', vesselId: other, what: 'honey', volumeUl: LITRE / 10 },
        ingredient: { name: 'honey', amountTyped: '', massUg: null },
      },
      NOW - 30 * DAY,
    );
    await tell(other, { recipient: 'infant' }, 20);
    expect(await finding(other, 'giveAway', 'HON-01')).toMatchObject({ verdict: 'do_not' });
    await pour(other, vesselId, 1, 15);
    await tell(vesselId, { recipient: 'infant', containsHoney: false }, 10);
    expect(await finding(vesselId, 'giveAway', 'HON-01')).toMatchObject({ verdict: 'do_not' });
  });

  it('to whom it goes with its label is told, and reaches the rule on giving', async () => {
    const { vesselId } = await begun(desk);
    const rules = await desk.client.houseRules.read();
    await desk.client.houseRules.settle({ ...rules, jurisdiction: 'us' });
    const before = await finding(vesselId, 'giveAway', 'LAW-02');
    expect(before).toMatchObject({ reason: 'missing', numbers: { find: 'labelAudience' } });
    await tell(vesselId, { labelAudience: 'gift', labelComplete: true }, 10);
    expect(await finding(vesselId, 'giveAway', 'LAW-02')).toMatchObject({ verdict: 'ok' });
    await tell(vesselId, { labelAudience: 'sale' }, 5);
    expect(await finding(vesselId, 'giveAway', 'LAW-02')).toMatchObject({ verdict: 'do_not' });
  });
});
