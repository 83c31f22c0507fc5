import { describe, expect, it } from 'vitest';
import { NOTHING_READ, type Act } from '#core/ledger/act.ts';
import type { EntryId } from '#core/ledger/ids.ts';
import { HELD_MAX_UG } from '#core/ledger/masses.ts';
import { replay } from '#core/ledger/memory-cellar.ts';
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
} from './cellar-of.ts';

const told = (...corrections: readonly (readonly [EntryId, Act | null, number?])[]): Act =>
  ({
    ...{ kind: 'restate', reason: '' },
    corrections: corrections.map(([entryId, act, happenedAtMs = START]) => ({ entryId, act, happenedAtMs })),
  }) as Act;

describe('an act that fills or stages several vessels', () => {
  const parted = (): Act => ({
    ...{ kind: 'split', fromVesselId: idOf('vessel', 1), leesUl: 0 },
    parts: [2, 3, 4].map((n) => ({
      ...{ toVesselId: idOf('vessel', n), volumeUl: LITRE, toStage: 'yeast' },
      newBatch: { batchId: idOf('batch', n), code: `P-${n}`, name: `Part ${n}`, ferment: 'cider' },
    })),
  });

  it('writes a span of each, so that every batch is known to have stood somewhere', () => {
    const t = testCellar();
    t.given(...[1, 2, 3, 4].map((n) => vessel(n)), batch(1, 1, 4), parted());
    const spans = [...t.cellar.records('stageSpan').values()].filter(({ stage }) => stage === 'yeast');
    expect(spans.map(({ vesselId, batchId }) => [vesselId, batchId])).toEqual(
      [2, 3, 4].map((n) => [idOf('vessel', n), idOf('batch', n)]),
    );
    const quarantine: Act = {
      ...{ kind: 'quarantine', reason: 'looked odd', lotIds: [] },
      ...{ root: { kind: 'vessel', vesselId: idOf('vessel', 2) } },
      vesselIds: [2, 3, 4].map((n) => idOf('vessel', n)),
    };
    const apart = t.given(quarantine);
    const kept = [...t.cellar.records('stageSpan').values()].filter(({ stage }) => stage === 'quarantine');
    expect(kept.map(({ vesselId }) => vesselId)).toEqual([2, 3, 4].map((n) => idOf('vessel', n)));
    t.given({ kind: 'reverse', entryId: apart, how: 'undo' });
    expect([...t.cellar.records('stageSpan').values()].filter((s) => s.stage === 'quarantine')).toEqual([]);
  });
});

describe('lines told anew together', () => {
  it('give each pull of a mother a number of its own', () => {
    const t = testCellar();
    t.given(vessel(1), vessel(2), mother(1), mother(2), batch(1, 1, 1), batch(2, 2, 1));
    const pitch = (n: number, culture: number): Act => ({
      ...{ kind: 'pitchYeast', vesselId: idOf('vessel', n), cultureId: idOf('culture', culture) },
      ...{ yeast: '', massUg: null },
    });
    const [one, other] = [t.given(pitch(1, 1)), t.given(pitch(2, 1))];
    const later = START + 20 * DAY;
    t.given(told([one, pitch(1, 2), later], [other, pitch(2, 2), later]));
    expect(
      [...t.cellar.records('pull').values()].map(({ cultureId, number }) => [cultureId, number]),
    ).toEqual([
      [idOf('culture', 2), 1],
      [idOf('culture', 2), 2],
    ]);
  });

  it('cannot give two vessels one spot, or two batches one code', () => {
    const t = testCellar();
    t.given(place(), shelf(1));
    const at = (n: number, position: number): Act => vessel(n, 5, { shelfId: idOf('shelf', 1), position });
    const [one, other] = [t.given(at(1, 1)), t.given(at(2, 2))];
    expect(t.refusal(told([one, at(1, 3)], [other, at(2, 3)]))).toMatchObject({
      type: 'PositionTaken',
      position: 3,
    });
    const [first, second] = [t.given(batch(1, 1, 1)), t.given(batch(2, 2, 1))];
    const named = (n: number): Act => ({ ...(batch(n, n, 1) as object), code: 'SAME' }) as Act;
    const later = START + 20 * DAY;
    expect(t.refusal(told([first, named(1), later], [second, named(2), later]))).toMatchObject({
      ...{ type: 'AlreadyTaken', what: 'batch code', value: 'SAME' },
    });
  });
});

describe('a line told anew', () => {
  it('takes along who settled a vessel by a reading that was taken at another hour, or never', () => {
    const t = testCellar();
    t.given(vessel(1), batch(1, 1, 3));
    const reading: Act = {
      ...{ kind: 'recordReading', vesselId: idOf('vessel', 1), values: { ...NOTHING_READ, gravitySg: 1.04 } },
    };
    const read = t.given(reading);
    const settling: Act = {
      ...{ kind: 'reconcile', vesselId: idOf('vessel', 1), readingId: read, note: '' },
      steps: [{ kind: 'assay', massesUg: { sugar: 5000 }, whole: false }],
    };
    const settled = t.given(settling);
    t.given(told([read, reading, START + 9 * DAY]));
    expect(t.cellar.get('fill', idOf('vessel', 1))?.settledAtMs).toBe(START + 9 * DAY);
    expect(t.refusal(told([read, null]))).toEqual({
      ...{ type: 'RestateImpossible', field: 'entryId' },
      refusals: [
        { entryId: settled, error: { type: 'NotFound', field: 'readingId', what: 'reading', id: read } },
      ],
    });
    expect(replay(t.cellar.entries).get('fill', idOf('vessel', 1))).toEqual(
      t.cellar.get('fill', idOf('vessel', 1)),
    );
  });

  it('leaves standing what was said of a shelf later', () => {
    const t = testCellar();
    t.given(place());
    const added = t.given(shelf(1, 8));
    t.given({ kind: 'editShelf', shelfId: idOf('shelf', 1), name: 'Short', positions: 4 });
    t.given({ kind: 'editShelf', shelfId: idOf('shelf', 1), name: 'Long', positions: 12 });
    t.given(vessel(1, 5, { shelfId: idOf('shelf', 1), position: 10 }));
    t.given(told([added, { ...(shelf(1, 9) as object), name: 'By the door' } as Act]));
    expect(t.cellar.get('shelf', idOf('shelf', 1))).toMatchObject({ name: 'Long', positions: 12 });
  });

  it('never leaves a shelf in a place that is gone, also when the shelf is told anew with it', () => {
    const t = testCellar();
    const placed = t.given(place());
    t.given(shelf(1));
    const renaming: Act = { kind: 'editShelf', shelfId: idOf('shelf', 1), name: 'Short', positions: 8 };
    const renamed = t.given(renaming);
    expect(t.refusal(told([placed, null], [renamed, renaming]))).toMatchObject({ type: 'LaterEntriesRest' });
  });
});

describe('more than can be counted', () => {
  it('is refused before it is written, however it came about', () => {
    const t = testCellar();
    t.given(vessel(1, 5), vessel(2, 100_000), batch(1, 1, 3));
    const sugar = (massUg: number): Act => ({
      ...{
        kind: 'addTo',
        vesselId: idOf('vessel', 1),
        what: 'sugar',
        volumeUl: 0,
        massesUg: { sugar: massUg },
      },
      ingredient: { name: 'sugar', amountTyped: '', massUg },
    });
    const tooHeavy = { type: 'TooHeavy', mostUg: HELD_MAX_UG };
    expect(t.refusal(sugar(9e15))).toMatchObject(tooHeavy);
    t.given(sugar(HELD_MAX_UG - 1e13));
    expect(t.refusal(sugar(1e13))).toMatchObject(tooHeavy);
    t.given(pour(1, 2, 1));
    expect(
      t.refusal({ kind: 'settleVolume', vesselId: idOf('vessel', 2), volumeUl: 1e11, cause: 'correction' }),
    ).toMatchObject(tooHeavy);
  });
});
