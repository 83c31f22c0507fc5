import { describe, expect, it } from 'vitest';
import type { Act } from '#core/ledger/act.ts';
import type { EntryId } from '#core/ledger/ids.ts';
import { replay } from '#core/ledger/memory-cellar.ts';
import { batch, idOf, LITRE, mother, place, pour, shelf, testCellar, vessel } from './cellar-of.ts';

const strike = (entryId: EntryId): Act => ({ kind: 'reverse', entryId, how: 'strike' });
const back = (entryId: EntryId): Act => ({ kind: 'reverse', entryId, how: 'undo' });
const jarAt = (n: number, position: number): Act => vessel(n, 5, { shelfId: idOf('shelf', 1), position });
const move = (n: number, position: number, onShelf = 1): Act => ({
  ...{ kind: 'moveVessel', vesselId: idOf('vessel', n), position, shelfId: idOf('shelf', onShelf) },
});
const drawAll = (n: number, litres: number): Act => ({
  ...{ kind: 'drawOff', vesselId: idOf('vessel', n), volumeUl: litres * LITRE, purpose: '' },
});
const resize = (n: number, litres: number): Act => ({
  ...{ kind: 'editVessel', vesselId: idOf('vessel', n), name: '', silhouette: 'demijohn', mouth: 'narrow' },
  ...{ capacityUl: litres * LITRE, material: 'glass', closure: 'airlock', note: '' },
});

describe('a line whose liquid has gone on is not struck: what took it is named', () => {
  it('a batch that was drawn off to the last drop', () => {
    const t = testCellar();
    t.given(vessel(1));
    const begun = t.given(batch(1, 1, 4));
    const drawn = t.given(drawAll(1, 4));
    expect(t.refusal(strike(begun))).toMatchObject({ type: 'LaterEntriesRest', entryIds: [drawn] });
    expect(t.cellar.get('batch', idOf('batch', 1))).not.toBeNull();
  });

  it('a batch that was poured whole into another', () => {
    const t = testCellar();
    t.given(vessel(1), vessel(2), batch(2, 2, 1));
    const begun = t.given(batch(1, 1, 3));
    const poured = t.given(pour(1, 2, 3));
    expect(t.refusal(strike(begun))).toMatchObject({ type: 'LaterEntriesRest', entryIds: [poured] });
  });

  it('a racking whose receiver was emptied', () => {
    const t = testCellar();
    t.given(vessel(1), vessel(2), batch(1, 1, 4));
    const racked = t.given(pour(1, 2, 4));
    const drawn = t.given(drawAll(2, 4));
    expect(t.refusal(strike(racked))).toMatchObject({ type: 'LaterEntriesRest', entryIds: [drawn] });
    t.given(strike(drawn), strike(racked));
    expect(t.cellar.get('fill', idOf('vessel', 1))?.volumeUl).toBe(4 * LITRE);
  });
});

describe('a line is not struck when what it would bring back no longer fits', () => {
  it('the spot was given to another vessel', () => {
    const t = testCellar();
    t.given(place(), shelf(), jarAt(1, 1));
    const moved = t.given(move(1, 2));
    t.given(jarAt(2, 1));
    const taken = { type: 'PositionTaken', field: 'entryId', position: 1, byVesselNumber: 2 };
    expect(t.refusal(strike(moved))).toEqual(taken);
    t.given(move(2, 5), strike(moved));
    expect(t.cellar.get('vessel', idOf('vessel', 1))?.position).toBe(1);
  });

  it('two vessels that changed places come back one after the other', () => {
    const t = testCellar();
    t.given(place(), shelf(), jarAt(1, 1), jarAt(2, 2));
    const aside = t.given(move(1, 3));
    const second = t.given(move(2, 1));
    const first = t.given(move(1, 2));
    expect(t.refusal(strike(second))).toMatchObject({ type: 'PositionTaken' });
    expect(t.refusal(strike(aside))).toMatchObject({ type: 'LaterEntriesRest', entryIds: [first] });
    t.given(strike(first), strike(second), strike(aside));
    expect(t.cellar.vesselAt(idOf('shelf', 1), 1)).toBe(idOf('vessel', 1));
    expect(t.cellar.vesselAt(idOf('shelf', 1), 2)).toBe(idOf('vessel', 2));
  });

  it('a retired vessel whose spot was given away', () => {
    const t = testCellar();
    t.given(place(), shelf(), jarAt(1, 1));
    const retired = t.given({ kind: 'retireVessel', vesselId: idOf('vessel', 1), reason: '' });
    t.given(jarAt(2, 1));
    expect(t.refusal(strike(retired))).toMatchObject({ type: 'PositionTaken', byVesselNumber: 2 });
  });

  it('the shelf is shorter now, or longer than a struck line would have it', () => {
    const t = testCellar();
    t.given(place(), shelf(), jarAt(1, 8));
    const moved = t.given(move(1, 1));
    const shelved = (positions: number): Act => ({
      ...{ kind: 'editShelf', shelfId: idOf('shelf', 1), name: 'Shelf', positions },
    });
    t.given(shelved(4));
    const off = { type: 'PositionOffShelf', field: 'entryId', position: 8, positions: 4 };
    expect(t.refusal(strike(moved))).toEqual(off);
    const longer = t.given(shelved(9));
    t.given(move(1, 9));
    expect(t.refusal(strike(longer))).toMatchObject({ type: 'ShelfTooShort', highestInUse: 9 });
  });

  it('the shelf it stood on was struck', () => {
    const t = testCellar();
    t.given(place());
    const put = t.given(shelf(1));
    t.given(shelf(2), jarAt(1, 1));
    const moved = t.given(move(1, 1, 2));
    t.given(strike(put));
    expect(t.refusal(strike(moved))).toMatchObject({ type: 'NotFound', what: 'shelf' });
  });

  it('a vessel holds more than it once could', () => {
    const t = testCellar();
    t.given(vessel(1, 5));
    const larger = t.given(resize(1, 10));
    const begun = t.given(batch(1, 1, 8));
    expect(t.refusal(strike(larger))).toMatchObject({ type: 'LaterEntriesRest', entryIds: [begun] });
  });

  it('a vessel holds less than it once did', () => {
    const t = testCellar();
    t.given(vessel(1, 10), batch(1, 1, 8));
    const drawn = t.given(drawAll(1, 6));
    const smaller = t.given(resize(1, 3));
    expect(t.refusal(strike(drawn))).toMatchObject({ type: 'LaterEntriesRest', entryIds: [smaller] });
  });

  it('liquid never comes back into a retired vessel', () => {
    const t = testCellar();
    t.given(vessel(1), batch(1, 1, 2));
    const drawn = t.given(drawAll(1, 2));
    const retired = t.given({ kind: 'retireVessel', vesselId: idOf('vessel', 1), reason: '' });
    expect(t.refusal(strike(drawn))).toMatchObject({ type: 'LaterEntriesRest', entryIds: [retired] });
  });
});

describe('a line that takes another back', () => {
  it('is undone and redone, also where what it brings back hangs together', () => {
    const t = testCellar();
    t.given(vessel(1));
    const struck = t.given(strike(t.given(batch(1, 1, 2))));
    const undone = t.given(back(struck));
    expect(t.cellar.get('fill', idOf('vessel', 1))?.volumeUl).toBe(2 * LITRE);
    t.given({ kind: 'reverse', entryId: undone, how: 'redo' });
    expect(t.cellar.get('batch', idOf('batch', 1))).toBeNull();
  });

  it('is not struck itself: undo and redo do that, in their order', () => {
    const t = testCellar();
    const struck = t.given(strike(t.given(vessel(1))));
    expect(t.refusal(strike(struck))).toEqual({ type: 'CannotReverse', field: 'entryId', kind: 'reverse' });
    t.given(back(struck));
    expect(t.cellar.get('vessel', idOf('vessel', 1))).not.toBeNull();
  });

  it('does not bring back a number, code or letter that was given out again', () => {
    const t = testCellar();
    t.given(place(), vessel(3));
    const gone = [vessel(1), batch(1, 3, 1), shelf(1)].map((act) => t.given(back(t.given(act))));
    t.given(vessel(2, 5, { number: 1 }));
    t.given({ ...batch(2, 3, 2), code: 'AM-26-001' } as Act, { ...shelf(2), letter: 'A' } as Act);
    expect(gone.map((id) => t.refusal(back(id))?.type)).toEqual([
      'AlreadyTaken',
      'LaterEntriesRest',
      'AlreadyTaken',
    ]);
    t.given(drawAll(3, 2));
    expect(t.refusal(back(gone[1] as EntryId))).toMatchObject({ type: 'AlreadyTaken', what: 'batch code' });
  });

  it('does not bring back what points at something struck since', () => {
    const t = testCellar();
    const added = t.given(mother(1));
    const fed = t.given({ kind: 'feedCulture', cultureId: idOf('culture', 1), text: '' });
    const unfed = t.given(strike(fed));
    t.given(strike(added));
    expect(t.refusal(back(unfed))).toMatchObject({ type: 'NotFound', what: 'culture' });
    replay(t.cellar.entries);
  });
});
