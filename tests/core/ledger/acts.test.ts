import { describe, expect, it } from 'vitest';
import { APART_AS_FILLED } from '#core/ledger/records.ts';
import { NOTHING_READ, type Act } from '#core/ledger/act.ts';
import type { EntryId, VesselId } from '#core/ledger/ids.ts';
import {
  batch,
  DAY,
  idOf,
  LITRE,
  mother,
  place,
  pour,
  shelf,
  START,
  testCellar,
  vessel,
  volumesPosted,
} from './cellar-of.ts';

const v = (n: number): VesselId => idOf('vessel', n);

describe('places, shelves and vessels', () => {
  it('refuses a second vessel on a taken spot and a spot off the shelf', () => {
    const t = testCellar();
    t.given(place(), shelf(1, 4), vessel(1, 5, { shelfId: idOf('shelf', 1), position: 2 }));
    expect(t.refusal(vessel(2, 5, { shelfId: idOf('shelf', 1), position: 2 }))).toEqual({
      ...{ type: 'PositionTaken', field: 'position', position: 2, byVesselNumber: 1 },
    });
    expect(t.refusal(vessel(2, 5, { shelfId: idOf('shelf', 1), position: 5 }))).toMatchObject({
      ...{ type: 'PositionOffShelf', positions: 4 },
    });
  });

  it('refuses to shorten a shelf under a vessel that stands there', () => {
    const t = testCellar();
    t.given(place(), shelf(1, 8), vessel(1, 5, { shelfId: idOf('shelf', 1), position: 7 }));
    expect(t.refusal({ kind: 'editShelf', shelfId: idOf('shelf', 1), name: 'x', positions: 6 })).toEqual({
      ...{ type: 'ShelfTooShort', field: 'positions', positions: 6, highestInUse: 7 },
    });
  });

  it('refuses a capacity below what the vessel holds, and retiring it while it holds anything', () => {
    const t = testCellar();
    t.given(vessel(1, 5), batch(1, 1, 4));
    const {
      number: _n,
      shelfId: _s,
      position: _p,
      ...fields
    } = vessel(1, 3) as Extract<Act, { kind: 'addVessel' }>;
    expect(t.refusal({ ...fields, kind: 'editVessel' })).toMatchObject({
      type: 'CapacityBelowContents',
      heldUl: 4 * LITRE,
    });
    expect(t.refusal({ kind: 'retireVessel', vesselId: v(1), reason: 'cracked' })).toMatchObject({
      type: 'VesselNotEmpty',
    });
  });
});

describe('liquid', () => {
  it('a batch fills its vessel from the store, to the microlitre', () => {
    const t = testCellar();
    const posted = t.given(vessel(1, 5)) && t.post(batch(1, 1, 4.5));
    expect(posted.ok).toBe(true);
    expect(volumesPosted(t.cellar)).toEqual([
      { account: 'store', deltaUl: -4.5 * LITRE },
      { account: v(1), deltaUl: 4.5 * LITRE },
    ]);
    expect(t.cellar.get('fill', v(1))).toMatchObject({
      volumeUl: 4.5 * LITRE,
      stage: 'waiting',
      sinceMs: START + DAY,
    });
  });

  it('refuses more than a vessel has room for, and more than it holds', () => {
    const t = testCellar();
    t.given(vessel(1, 5), vessel(2, 1));
    expect(t.refusal(batch(1, 1, 5.000001))).toMatchObject({
      type: 'VesselOverfilled',
      roomUl: 5 * LITRE,
      wantedUl: 5_000_001,
    });
    t.given(batch(1, 1, 5));
    expect(t.refusal(pour(1, 2, 2))).toMatchObject({
      type: 'VesselOverfilled',
      vesselNumber: 2,
      roomUl: LITRE,
    });
    expect(
      t.refusal({ kind: 'drawOff', vesselId: v(1), volumeUl: 5 * LITRE + 1, purpose: '' }),
    ).toMatchObject({
      ...{ type: 'VesselOverdrawn', heldUl: 5 * LITRE },
    });
  });

  it('racking leaves the stated lees behind and empties the vessel when nothing else is left', () => {
    const t = testCellar();
    t.given(vessel(1), vessel(2), batch(1, 1, 5), pour(1, 2, 4.8, { leesUl: 200_000, toStage: 'settling' }));
    expect(t.cellar.get('fill', v(1))).toBeNull();
    expect(t.cellar.get('fill', v(2))).toMatchObject({
      volumeUl: 4.8 * LITRE,
      stage: 'settling',
      batchId: idOf('batch', 1),
    });
  });

  it('a part taken as a batch of its own remembers its parent and its own stage', () => {
    const t = testCellar();
    t.given(
      ...[vessel(1), vessel(2), batch(1, 1, 5)],
      pour(1, 2, 2, {
        newBatch: {
          batchId: idOf('batch', 2),
          code: 'AV-26-001',
          name: 'Apple vinegar',
          ferment: 'fruitVinegar',
        },
        toStage: 'vinegar',
      }),
    );
    expect(t.cellar.get('batch', idOf('batch', 2))).toMatchObject({
      parentBatchId: idOf('batch', 1),
      parentUl: 2 * LITRE,
    });
    expect(t.cellar.get('fill', v(1))).toMatchObject({ stage: 'waiting', volumeUl: 3 * LITRE });
    expect(t.cellar.get('fill', v(2))).toMatchObject({ stage: 'vinegar', trail: [{ vesselId: v(1) }] });
  });

  it('pouring into an occupied vessel blends: the receiver keeps its batch and shares its origins exactly', () => {
    const t = testCellar();
    t.given(vessel(1), vessel(2), batch(1, 1, 3), batch(2, 2, 1), pour(1, 2, 2));
    expect(t.cellar.get('fill', v(2))).toMatchObject({
      ...{ batchId: idOf('batch', 2), volumeUl: 3 * LITRE, composedBy: 'blend' },
      origins: { [idOf('batch', 1)]: 2 * LITRE, [idOf('batch', 2)]: LITRE },
    });
    expect(
      t.refusal(
        pour(1, 2, 0.5, { newBatch: { batchId: idOf('batch', 3), code: 'X', name: 'X', ferment: 'cider' } }),
      ),
    ).toMatchObject({ type: 'NewBatchIntoOccupied' });
  });

  it('seeding takes the mother from its jar, names her pull and marks the liquid as composed anew', () => {
    const t = testCellar();
    t.given(vessel(1), vessel(2, 2), batch(1, 1, 4), mother(1, 2, 1));
    t.given({
      ...{
        kind: 'seed',
        vesselId: v(1),
        cultureId: idOf('culture', 1),
        fromVesselId: v(2),
        volumeUl: 300_000,
      },
      ...{ what: '', toStage: 'vinegar' },
    });
    expect(t.cellar.get('fill', v(1))).toMatchObject({
      ...{
        volumeUl: 4.3 * LITRE,
        stage: 'vinegar',
        cultureId: idOf('culture', 1),
        pull: 1,
        composedBy: 'seed',
      },
    });
    expect(t.cellar.get('fill', v(2))).toMatchObject({ volumeUl: 0.7 * LITRE, stage: 'culture' });
  });

  it('bottling counts bottles and loss, and refuses more bottles than there is liquid', () => {
    const t = testCellar();
    t.given(vessel(1), batch(1, 1, 4));
    const bottles = (count: number): Act => ({
      kind: 'bottle',
      vesselId: v(1),
      bottles: count,
      bottleUl: 750_000,
      lossUl: 50_000,
      note: '',
    });
    expect(t.refusal(bottles(6))).toMatchObject({ type: 'VesselOverdrawn', wantedUl: 4_550_000 });
    t.given(bottles(5));
    expect(t.cellar.get('fill', v(1))).toMatchObject({ volumeUl: 200_000 });
    expect([...t.cellar.records('lot').values()]).toMatchObject([{ bottles: 5, bottleUl: 750_000 }]);
  });

  it('a reading never changes an amount', () => {
    const t = testCellar();
    t.given(vessel(1), batch(1, 1, 4));
    const before = t.cellar.get('fill', v(1));
    t.given({ kind: 'recordReading', vesselId: v(1), values: { ...NOTHING_READ, volumeUl: 3 * LITRE } });
    expect(t.cellar.get('fill', v(1))).toEqual(before);
    t.given({ kind: 'settleVolume', vesselId: v(1), volumeUl: 3 * LITRE, cause: 'evaporation' });
    expect(volumesPosted(t.cellar)).toContainEqual({ account: 'air', deltaUl: LITRE });
  });
});

describe('time', () => {
  it('refuses an act in the future and one from before the liquid stood there', () => {
    const t = testCellar();
    t.given(vessel(1), batch(1, 1, 4));
    const reading: Act = { kind: 'recordReading', vesselId: v(1), values: { ...NOTHING_READ, ph: 3.4 } };
    expect(t.refusal(reading, START + 20_000 * DAY)).toMatchObject({ type: 'InTheFuture' });
    expect(t.refusal(reading, START - DAY)).toMatchObject({ type: 'BeforeItBegan', beganAtMs: START + DAY });
  });
});

describe('reversal', () => {
  const strike = (entryId: EntryId): Act => ({ kind: 'reverse', entryId, how: 'strike' });

  it('restores every record as it was and posts the mirror image', () => {
    const t = testCellar();
    t.given(vessel(1), vessel(2), batch(1, 1, 5));
    const before = t.cellar.get('fill', v(1));
    const racked = t.given(pour(1, 2, 4.8, { leesUl: 200_000 }));
    t.given(strike(racked));
    expect(t.cellar.get('fill', v(1))).toEqual(before);
    expect(t.cellar.get('fill', v(2))).toBeNull();
    expect(volumesPosted(t.cellar)).toEqual(
      expect.arrayContaining([
        { account: v(1), deltaUl: 5 * LITRE },
        { account: v(2), deltaUl: -4.8 * LITRE },
        { account: 'lees', deltaUl: -200_000 },
      ]),
    );
  });

  it('a reversal is itself reversed: the act stands again, and can be undone again', () => {
    const t = testCellar();
    t.given(vessel(1), vessel(2), batch(1, 1, 5));
    const racked = t.given(pour(1, 2, 5));
    const after = t.cellar.get('fill', v(2));
    const undone = t.given({ kind: 'reverse', entryId: racked, how: 'undo' });
    t.given({ kind: 'reverse', entryId: undone, how: 'redo' });
    expect(t.cellar.get('fill', v(2))).toEqual(after);
    t.given({ kind: 'reverse', entryId: racked, how: 'undo' });
    expect(t.cellar.get('fill', v(2))).toBeNull();
  });

  it('an old reading can be struck though others followed', () => {
    const t = testCellar();
    t.given(vessel(1), batch(1, 1, 4));
    const wrong = t.given({ kind: 'recordReading', vesselId: v(1), values: { ...NOTHING_READ, ph: 8 } });
    t.given({ kind: 'recordReading', vesselId: v(1), values: { ...NOTHING_READ, ph: 3.4 } });
    expect(t.refusal(strike(wrong))).toBeNull();
    expect(t.refusal(strike(wrong))).toMatchObject({ type: 'AlreadyStruck' });
  });

  it('an act on which later ones rest is refused, and they are named', () => {
    const t = testCellar();
    const added = t.given(vessel(1));
    const began = t.given(batch(1, 1, 4));
    const drawn = t.given({ kind: 'drawOff', vesselId: v(1), volumeUl: LITRE, purpose: '' });
    expect(t.refusal(strike(began))).toMatchObject({ type: 'LaterEntriesRest', entryIds: [drawn] });
    const resting = t.refusal(strike(added));
    expect(resting?.type === 'LaterEntriesRest' && resting.entryIds).toEqual(
      expect.arrayContaining([began, drawn]),
    );
  });

  it('an entry that is not in the book cannot be struck', () => {
    expect(testCellar().refusal(strike(idOf('entry', 99)))).toMatchObject({
      type: 'NotFound',
      what: 'entry',
    });
  });
});

describe('what is kept apart', () => {
  /** A must kept apart in the first vessel, another in the second, the third empty. */
  function apart(): ReturnType<typeof testCellar> {
    const t = testCellar();
    t.given(vessel(1), vessel(2), vessel(3), batch(1, 1, 3), batch(2, 2, 1));
    t.given({ kind: 'changeStage', vesselId: v(1), stage: 'quarantine', reason: 'threads' });
    return t;
  }
  const stageOf = (t: ReturnType<typeof testCellar>, n: number) => t.cellar.get('fill', v(n))?.stage;

  it('keeps apart what it is poured into, blended with or seeded into', () => {
    const poured = apart();
    poured.given(pour(1, 2, 1));
    expect(stageOf(poured, 2)).toBe('quarantine');

    const blended = apart();
    const parts = [1, 2].map((n) => ({ fromVesselId: v(n), volumeUl: n === 1 ? 100_000 : LITRE }));
    blended.given({ kind: 'blend', toVesselId: v(3), parts, newBatch: null, toStage: null });
    expect(stageOf(blended, 3)).toBe('quarantine');

    const seeded = apart();
    seeded.given({
      ...{ kind: 'seed', vesselId: v(2), cultureId: null, fromVesselId: v(1), volumeUl: 100_000 },
      ...{ what: '', toStage: 'vinegar' },
    });
    expect(stageOf(seeded, 2)).toBe('quarantine');
  });

  it('keeps apart the bottles filled from it, and these what they are emptied into, until they are released', () => {
    const t = apart();
    const of = (n: number): Act => ({
      ...{ kind: 'bottle', vesselId: v(n), bottles: 2, bottleUl: 400_000, lossUl: 0, note: '' },
    });
    const sound = t.given(of(2));
    expect(t.cellar.get('lot', sound)?.keptApartFor).toBe('');
    const lotId = t.given(of(1));
    expect(t.cellar.get('lot', lotId)?.keptApartFor).toBe(APART_AS_FILLED);
    const back: Act = {
      ...{ kind: 'returnBottles', lotId, bottles: 1, toVesselId: v(3), lossUl: 0, note: '' },
      toStage: 'ready',
    };
    t.given(back);
    expect(stageOf(t, 3)).toBe('quarantine');
    t.given({ kind: 'discard', vesselId: v(3), volumeUl: 400_000, reason: '' });
    t.given({ kind: 'releaseBottles', lotId, reason: 'looked at again' }, back);
    expect(stageOf(t, 3)).toBe('ready');
  });

  it('stays so when its bottles are emptied back', () => {
    const t = apart();
    const lotId = t.given({
      kind: 'bottle',
      vesselId: v(2),
      bottles: 2,
      bottleUl: 400_000,
      lossUl: 0,
      note: '',
    });
    const root = { kind: 'lot' as const, lotId };
    t.given({ kind: 'quarantine', root, vesselIds: [], lotIds: [lotId], reason: 'threads' });
    t.given({
      kind: 'returnBottles',
      lotId,
      bottles: 1,
      toVesselId: v(3),
      lossUl: 0,
      toStage: null,
      note: '',
    });
    expect(stageOf(t, 3)).toBe('quarantine');
  });

  it('leaves it only when the keeper says to which stage', () => {
    const t = apart();
    t.given(pour(1, 2, 1, { toStage: 'maturing' }));
    expect(stageOf(t, 2)).toBe('maturing');
  });
});
