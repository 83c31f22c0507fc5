import { randomUUID } from 'node:crypto';
import { describe, expect, it, vi } from 'vitest';
import { NOTHING_READ, type ActDraft, type ReadingValues } from '#core/ledger/act.ts';
import type { BatchId, CultureId, EntryId, VesselId } from '#core/ledger/ids.ts';
import { addMasses, totalUg, type MassDeltas } from '#core/ledger/masses.ts';
import { rebuildProjections } from '#main/cellar/rebuild-projections.ts';
import { DAY, deskForEach, jar, LITRE, NOW, openDeskOn, type TestDesk } from '../desk-for-tests.ts';

// A year is long on a machine with other work.
vi.setConfig({ testTimeout: 60_000 });

let desk: TestDesk;
deskForEach('year', (opened) => {
  desk = opened;
});

/** The five lines that a tester gets wrong, as they should have been or as they were first written. */
interface Told {
  /** The plums went into the second jug, not the third. */
  readonly plumsIn: 'jug 2' | 'jug 3';
  /** 1.6 L of cider were racked, not 1.5. */
  readonly rackedUl: number;
  /** Red Martha was set to work, not Old Bess. */
  readonly mother: 'Old Bess' | 'Red Martha';
  /** The barrel was filled up on the day after. */
  readonly refillDay: number;
  /** The strength of the spirit that went into the pears, % vol. */
  readonly spirit: number;
}
const RIGHT: Told = {
  plumsIn: 'jug 2',
  rackedUl: 1_600_000,
  mother: 'Red Martha',
  refillDay: 200,
  spirit: 96,
};
const WRONG: Told = { plumsIn: 'jug 3', rackedUl: 1_500_000, mother: 'Old Bess', refillDay: 199, spirit: 40 };

const day = (n: number): number => NOW - (365 - n) * DAY;
const read = (values: Partial<ReadingValues>): ReadingValues => ({ ...NOTHING_READ, ...values });
const hydrometer = { gravityInstrument: 'hydrometer', gravityCalibrationCelsius: 20 } as const;

/** A year of three fruits, two mothers and a perpetual barrel. Hands back the five lines. */
async function live(told: Told) {
  await desk.client.cellar.begin({
    ...{ name: 'A year', houseRules: await desk.client.houseRules.read() },
    shelves: { placeName: 'Cellar', shelfCount: 1, positions: 12 },
  });
  const vessels = new Map<string, VesselId>();
  const stand = async (name: string, litres: number): Promise<void> => {
    const made = await desk.write('addVessel', jar({ name, capacityUl: litres * LITRE }), day(0));
    vessels.set(name, made.vesselId);
  };
  for (const name of ['jug 1', 'jug 2', 'jug 3', 'wide jar', 'pear jar']) await stand(name, 5);
  for (const name of ['bess', 'martha']) await stand(name, 2);
  await stand('barrel', 20);
  const v = (name: string): VesselId => {
    const id = vessels.get(name);
    if (id === undefined) throw new Error(`no ${name}`);
    return id;
  };
  const cultures = new Map<string, CultureId>();
  for (const [name, jarName] of [
    ['Old Bess', 'bess'],
    ['Red Martha', 'martha'],
  ] as const) {
    const mother = await desk.write(
      'addCulture',
      {
        ...{ kind: 'addCulture', name, sort: 'mother', source: '', note: '', parentCultureId: null },
        standing: { vesselId: v(jarName), volumeUl: 1.5 * LITRE },
      },
      day(1),
    );
    cultures.set(name, mother.cultureId);
  }
  const post = async (n: number, act: ActDraft): Promise<EntryId> =>
    (await desk.post(act, day(n))).entry.entryId;
  const must = (name: string, vesselName: string, litres: number, sg: number): ActDraft => ({
    ...{ kind: 'startBatch', name, ferment: 'fruitVinegar', vesselId: v(vesselName) },
    ...{ volumeUl: litres * LITRE, stage: 'waiting', ingredients: [], note: '' },
    measured: read({ gravitySg: sg, ...hydrometer }),
  });
  const plums = (vesselName: string): ActDraft => must('Plum must', vesselName, 3, 1.062);
  const settle = async (n: number, vesselName: string): Promise<void> => {
    const { findings } = await desk.client.shelves.bookOf({ vesselId: v(vesselName) });
    for (const { readingId, steps, doubt } of findings) {
      if (doubt !== null || steps.length === 0) continue;
      await post(n, { kind: 'reconcile', vesselId: v(vesselName), readingId, steps: [...steps], note: '' });
    }
  };

  // The barrel: vinegar from before this book, drawn and filled up for the rest of the year.
  await post(2, {
    ...{ kind: 'startBatch', name: 'House red', ferment: 'fruitVinegar', vesselId: v('barrel') },
    ...{ volumeUl: 18 * LITRE, stage: 'vinegar', ingredients: [], note: '' },
    measured: read({ acidityGramsPer100Ml: 6, acidityAs: 'acetic', acidityMethod: 'burette' }),
  });
  await post(5, must('Apple must', 'jug 1', 4.5, 1.048));
  const plumLine = await post(6, plums(told.plumsIn));
  await post(7, must('Pear must', 'pear jar', 3, 1.045));
  for (const vesselName of ['jug 1', 'pear jar']) {
    await post(8, {
      kind: 'pitchYeast',
      vesselId: v(vesselName),
      cultureId: null,
      yeast: 'dry',
      massUg: null,
    });
    const values = read({ gravitySg: 0.999, ...hydrometer });
    await post(30, { kind: 'recordReading', vesselId: v(vesselName), values });
    await settle(31, vesselName);
  }
  const rack = (volumeUl: number): ActDraft => ({
    ...{ kind: 'transfer', fromVesselId: v('jug 1'), toVesselId: v('wide jar'), volumeUl, leesUl: 200_000 },
    ...{ newBatch: { name: 'Apple vinegar', ferment: 'fruitVinegar' }, toStage: 'waiting' },
  });
  const rackLine = await post(40, rack(told.rackedUl));
  const seed = (mother: string): ActDraft => ({
    ...{ kind: 'seed', vesselId: v('wide jar'), cultureId: cultures.get(mother) ?? null },
    ...{ fromVesselId: v(mother === 'Old Bess' ? 'bess' : 'martha'), volumeUl: 300_000 },
    ...{ what: '', toStage: 'vinegar' },
  });
  const seedLine = await post(41, seed(told.mother));
  const fortify = (percent: number): ActDraft => ({
    ...{ kind: 'addTo', vesselId: v('pear jar'), what: 'spirit', volumeUl: 800_000 },
    ingredient: { name: 'spirit', amountTyped: '0.8 L', massUg: null },
    alcoholPercentVolume: percent,
  });
  const spiritLine = await post(60, fortify(told.spirit));
  await post(70, {
    kind: 'bottle',
    vesselId: v('pear jar'),
    bottles: 3,
    bottleUl: 500_000,
    lossUl: 30_000,
    note: '',
  });
  const drawAndRefill = (from: string, litres: number): ActDraft => ({
    ...{ kind: 'drawAndRefill', vesselId: v('barrel'), drawnUl: litres * LITRE, toVesselId: null },
    ...{ newBatch: null, toStage: null, fromVesselId: v(from), refillUl: litres * LITRE },
  });
  await post(100, drawAndRefill('jug 1', 1));
  await post(150, drawAndRefill('jug 1', 0.7));
  const refillLine = await post(told.refillDay, drawAndRefill('wide jar', 0.4));
  await post(250, {
    kind: 'settleVolume',
    vesselId: v('barrel'),
    volumeUl: 17.5 * LITRE,
    cause: 'evaporation',
  });
  await post(300, drawAndRefill('wide jar', 0.5));

  const corrections: readonly { entryId: EntryId; act: ActDraft; happenedAtMs: number | null }[] = [
    { entryId: plumLine, act: plums(RIGHT.plumsIn), happenedAtMs: null },
    { entryId: rackLine, act: rack(RIGHT.rackedUl), happenedAtMs: null },
    { entryId: seedLine, act: seed(RIGHT.mother), happenedAtMs: null },
    { entryId: refillLine, act: drawAndRefill('wide jar', 0.4), happenedAtMs: day(RIGHT.refillDay) },
    { entryId: spiritLine, act: fortify(RIGHT.spirit), happenedAtMs: null },
  ];
  return { corrections, vessels };
}

/** Each vessel by its name: what stands in it to the microlitre and the microgram, from which origins, and its mother. */
async function standing(vessels: ReadonlyMap<string, VesselId>) {
  const { records } = desk.app.desk.services.session;
  const named = (batchId: string): string => records.get('batch', batchId)?.name ?? batchId;
  const all: Record<string, unknown> = {};
  for (const [name, vesselId] of vessels) {
    const fill = records.get('fill', vesselId);
    all[name] =
      fill === null
        ? null
        : {
            ...{
              volumeUl: fill.volumeUl,
              massesUg: fill.massesUg,
              stage: fill.stage,
              batch: named(fill.batchId),
            },
            origins: Object.fromEntries(
              Object.entries(fill.origins)
                .map(([batchId, tokens]) => [named(batchId), tokens] as const)
                .toSorted(([a], [b]) => (a < b ? -1 : 1)),
            ),
            mother: fill.cultureId === null ? null : records.get('culture', fill.cultureId)?.name,
          };
  }
  const { sqlite } = desk.app.desk.services.session.cellar;
  const lots = sqlite.prepare('SELECT batch_id, bottles, bottles_left FROM lot').all() as {
    batch_id: BatchId;
  }[];
  return { vessels: all, lots: lots.map(({ batch_id: id, ...lot }) => ({ ...lot, batch: named(id) })) };
}

/** Every posting of the book, summed up by account. */
function posted() {
  const { book } = desk.app.desk.services.session;
  const sums = new Map<string, { ul: number; ug: MassDeltas }>();
  for (const { postings } of book.page(0, 10_000)) {
    for (const { account, deltaUl, massesUg = {} } of postings) {
      const before = sums.get(account) ?? { ul: 0, ug: {} };
      sums.set(account, { ul: before.ul + deltaUl, ug: addMasses(before.ug, massesUg) });
    }
  }
  return sums;
}

async function report(): Promise<unknown> {
  const steps = await desk.client.cellar.check();
  for (let step = await steps.next(); ; step = await steps.next()) if (step.done === true) return step.value;
}

describe('a year with three fruits, two mothers and a perpetual barrel', () => {
  it('with five mistakes that are corrected is the year it would have been, and the book closes', async () => {
    const wrong = await live(WRONG);
    const asItWas = await standing(wrong.vessels);
    for (const [index, correction] of wrong.corrections.entries()) {
      const asked = { corrections: [correction], reason: `mistake ${index + 1}` };
      const plan = await desk.client.ledger.planRestate(asked);
      const { rows } = await desk.client.ledger.restate({ requestId: randomUUID(), ...asked });
      // What was shown before is what came of it.
      for (const { vesselId, afterUl } of plan.vessels) {
        const row = rows.find((each) => each.vesselId === vesselId);
        if (row !== undefined) expect(row.volumeUl).toBe(afterUl);
      }
    }
    const corrected = await standing(wrong.vessels);

    // The book closes: nothing is lost between the accounts, and each vessel holds what was posted to it.
    const sums = posted();
    expect([...sums.values()].reduce((all, { ul }) => all + ul, 0)).toBe(0);
    expect(totalUg([...sums.values()].reduce((all, { ug }) => addMasses(all, ug), {}))).toBe(0);
    expect(sums.get('contraction')?.ul ?? 0).toBeGreaterThan(0);
    const { records } = desk.app.desk.services.session;
    for (const vesselId of wrong.vessels.values()) {
      const fill = records.get('fill', vesselId);
      expect(sums.get(vesselId)?.ul ?? 0).toBe(fill?.volumeUl ?? 0);
      expect(sums.get(vesselId)?.ug ?? {}).toEqual(fill?.massesUg ?? {});
    }
    expect(await report()).toMatchObject({ sound: true, faults: [] });
    rebuildProjections(desk.app.desk.services.session);
    expect(await standing(wrong.vessels)).toEqual(corrected);

    // Taken back one after the other, the year is the one with its mistakes again; done again, the right one.
    for (const _ of wrong.corrections) await desk.client.ledger.undo({ requestId: randomUUID() });
    expect(await standing(wrong.vessels)).toEqual(asItWas);
    for (const _ of wrong.corrections) await desk.client.ledger.redo({ requestId: randomUUID() });
    expect(await standing(wrong.vessels)).toEqual(corrected);
    expect(await report()).toMatchObject({ sound: true, faults: [] });

    // And it is the very year it would have been, had nothing been told wrong.
    desk.close();
    desk = openDeskOn(`${scratchOf(desk)}-right.undercroft`);
    const right = await live(RIGHT);
    expect(await standing(right.vessels)).toEqual(corrected);
    desk.close();
  });
});

/** The file of a desk without its ending. */
function scratchOf(closed: TestDesk): string {
  return closed.app.desk.services.session.cellar.file.replace(/\.undercroft$/u, '');
}
