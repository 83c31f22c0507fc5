import { describe, expect, it } from 'vitest';
import type { Act } from '#core/ledger/act.ts';
import type { EntryId, VesselId } from '#core/ledger/ids.ts';
import { replay } from '#core/ledger/memory-cellar.ts';
import { RECORD_KINDS } from '#core/ledger/records.ts';
import { batch, idOf, LITRE, pour, START, testCellar, vessel, DAY, type TestCellar } from './cellar-of.ts';

const v = (n: number): VesselId => idOf<VesselId>('vessel', n);
const e = (n: number): EntryId => idOf<EntryId>('entry', n);

function told(entry: number, act: Act | null, day = entry - 1): Act {
  const correction = { entryId: e(entry), happenedAtMs: START + day * DAY, act };
  return { kind: 'restate', corrections: [correction], reason: '' } as Act;
}

/** What stands in each vessel: litres, by batch. */
function litres(t: TestCellar): Record<number, string> {
  const standing: Record<number, string> = {};
  for (const fill of t.cellar.records('fill').values()) {
    const number = t.cellar.get('vessel', fill.id)?.number ?? 0;
    standing[number] = `${fill.volumeUl / LITRE} L of ${t.cellar.get('batch', fill.batchId)?.name ?? '?'}`;
  }
  return standing;
}

/** The cellar without who wrote what last and without marks of correction. */
function standing(t: TestCellar): object {
  return Object.fromEntries(
    RECORD_KINDS.filter((kind) => !['strike', 'restatement'].includes(kind)).map((kind) => [
      kind,
      Object.fromEntries(
        [...t.cellar.records(kind)].map(([id, record]) => [id, { ...record, writtenBy: null }]),
      ),
    ]),
  );
}

/** Vessels 1 to 4 are entries 1 to 4, must in the first is entry 5. */
function begun(): TestCellar {
  const t = testCellar();
  t.given(vessel(1), vessel(2), vessel(3), vessel(4), batch(1, 1, 4));
  return t;
}

describe('an earlier line told anew', () => {
  it('with another volume: what followed is played again with it', () => {
    const t = begun();
    t.given(pour(1, 2, 1), pour(2, 3, 0.5), {
      kind: 'drawOff',
      vesselId: v(1),
      volumeUl: LITRE,
      purpose: '',
    });
    t.given(told(6, pour(1, 2, 2)));
    expect(litres(t)).toEqual({
      1: '1 L of Apple must 1',
      2: '1.5 L of Apple must 1',
      3: '0.5 L of Apple must 1',
    });
  });

  it('gives the very cellar it would have been, had the line been right from the start', () => {
    const wrong = begun();
    wrong.given(pour(1, 2, 1), pour(2, 3, 0.5), pour(1, 4, 1.25, { leesUl: 130_001 }), pour(3, 4, 0.25));
    wrong.given(told(6, pour(1, 2, 1.333333)));
    const right = begun();
    right.given(
      pour(1, 2, 1.333333),
      pour(2, 3, 0.5),
      pour(1, 4, 1.25, { leesUl: 130_001 }),
      pour(3, 4, 0.25),
    );
    expect(standing(wrong)).toEqual(standing(right));
    const posted = new Map<string, number>();
    for (const entry of wrong.cellar.entries)
      for (const { account, deltaUl } of entry.postings)
        posted.set(account, (posted.get(account) ?? 0) + deltaUl);
    for (const n of [1, 2, 3, 4])
      expect(posted.get(v(n)) ?? 0).toBe(wrong.cellar.get('fill', v(n))?.volumeUl ?? 0);
  });

  it('with another vessel: readings and all that was done there go along or are named', () => {
    const t = begun();
    t.given(pour(1, 2, 1), pour(2, 3, 0.5));
    expect(t.refusal(told(6, pour(1, 4, 1)))).toMatchObject({
      type: 'RestateImpossible',
      refusals: [{ entryId: e(7), error: { type: 'VesselEmpty', vesselNumber: 2 } }],
    });
    expect(litres(t)).toEqual({
      1: '3 L of Apple must 1',
      2: '0.5 L of Apple must 1',
      3: '0.5 L of Apple must 1',
    });
    const corrections = [
      { entryId: e(6), happenedAtMs: START + 5 * DAY, act: pour(1, 4, 1) },
      { entryId: e(7), happenedAtMs: START + 6 * DAY, act: pour(4, 3, 0.5) },
    ];
    t.given({ kind: 'restate', corrections, reason: 'the wrong jar' } as Act);
    expect(litres(t)).toEqual({
      1: '3 L of Apple must 1',
      3: '0.5 L of Apple must 1',
      4: '0.5 L of Apple must 1',
    });
  });

  it('taken back though later lines rest on it, when those still can have been', () => {
    const t = begun();
    t.given(pour(1, 2, 1), pour(1, 3, 1), { kind: 'drawOff', vesselId: v(1), volumeUl: LITRE, purpose: '' });
    t.given(told(6, null));
    expect(litres(t)).toEqual({ 1: '2 L of Apple must 1', 3: '1 L of Apple must 1' });
    expect(t.cellar.get('strike', e(6))).not.toBeNull();
  });

  it('leaves alone what it does not touch: a vessel emptied and used again is another story', () => {
    const t = begun();
    t.given(pour(1, 2, 1), { kind: 'discard', vesselId: v(2), volumeUl: LITRE, reason: '' }, batch(2, 2, 3));
    const before = t.cellar.get('fill', v(2));
    t.given(told(6, pour(1, 2, 1, { toStage: 'held' })), told(6, pour(1, 2, 1, { toStage: 'settling' })));
    expect(t.cellar.get('fill', v(2))).toEqual(before);
  });

  it('moves to another day', () => {
    const t = begun();
    t.given(pour(1, 2, 1));
    t.given(told(6, pour(1, 2, 1), 5.5));
    expect(t.cellar.get('fill', v(2))?.sinceMs).toBe(START + 5.5 * DAY);
    expect(t.cellar.get('restatement', e(6))?.happenedAtMs).toBe(START + 5.5 * DAY);
  });

  it('is undone as one, and redone', () => {
    const t = begun();
    t.given(pour(1, 2, 1), pour(2, 3, 0.5), pour(3, 4, 0.25));
    const before = standing(t);
    const corrected = t.given(told(6, pour(1, 2, 2)));
    const after = standing(t);
    const undone = t.given({ kind: 'reverse', entryId: corrected, how: 'undo' });
    expect(standing(t)).toEqual(before);
    expect(t.cellar.get('restatement', e(6))).toBeNull();
    t.given({ kind: 'reverse', entryId: undone, how: 'redo' });
    expect(standing(t)).toEqual(after);
  });

  it('a second correction takes the first along', () => {
    const t = begun();
    t.given(pour(1, 2, 1), pour(2, 3, 0.5), pour(1, 4, 0.5));
    t.given(told(7, pour(2, 3, 0.75)));
    t.given(told(6, pour(1, 2, 2)));
    expect(litres(t)).toEqual({
      1: '1.5 L of Apple must 1',
      2: '1.25 L of Apple must 1',
      3: '0.75 L of Apple must 1',
      4: '0.5 L of Apple must 1',
    });
    t.given(told(6, pour(1, 2, 1.5)));
    expect(litres(t)[2]).toBe('0.75 L of Apple must 1');
  });

  it('an entry struck in between stays struck', () => {
    const t = begun();
    t.given(pour(1, 2, 1), pour(1, 3, 1));
    t.given({ kind: 'reverse', entryId: e(7), how: 'strike' }, pour(1, 4, 1));
    t.given(told(6, pour(1, 2, 2)));
    expect(litres(t)).toEqual({
      1: '1 L of Apple must 1',
      2: '2 L of Apple must 1',
      4: '1 L of Apple must 1',
    });
    expect(t.cellar.get('strike', e(7))).not.toBeNull();
  });

  it('an entry struck and brought back stays as it is', () => {
    const t = begun();
    t.given(pour(1, 2, 1), pour(1, 3, 1));
    const undone = t.given({ kind: 'reverse', entryId: e(7), how: 'undo' });
    t.given({ kind: 'reverse', entryId: undone, how: 'redo' });
    t.given(told(6, pour(1, 2, 2)));
    expect(litres(t)).toEqual({
      1: '1 L of Apple must 1',
      2: '2 L of Apple must 1',
      3: '1 L of Apple must 1',
    });
  });

  it('is replayed from the book', () => {
    const t = begun();
    t.given(pour(1, 2, 1), pour(2, 3, 0.5), pour(1, 4, 0.5), told(6, pour(1, 2, 2)), pour(2, 4, 0.1));
    t.given(told(5, batch(1, 1, 5)));
    const again = replay(t.cellar.entries);
    for (const kind of RECORD_KINDS)
      expect(Object.fromEntries(again.records(kind))).toEqual(Object.fromEntries(t.cellar.records(kind)));
  });

  it('is refused for a line that is not there, is struck, or takes another back', () => {
    const t = begun();
    t.given(pour(1, 2, 1));
    const struck = t.given({ kind: 'reverse', entryId: e(6), how: 'strike' });
    expect(t.refusal(told(99, null))).toMatchObject({ type: 'NotFound' });
    expect(t.refusal(told(6, null))).toMatchObject({ type: 'AlreadyStruck' });
    expect(t.refusal(told(Number(struck.slice(-12)), null))).toMatchObject({ type: 'CannotReverse' });
  });

  it('is refused when what it says itself cannot be', () => {
    const t = begun();
    t.given(pour(1, 2, 1));
    expect(t.refusal(told(6, pour(1, 2, 9)))).toMatchObject({
      type: 'RestateImpossible',
      refusals: [{ entryId: e(6), error: { type: 'VesselOverdrawn' } }],
    });
  });
});
