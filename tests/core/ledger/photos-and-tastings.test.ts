import { describe, expect, it } from 'vitest';
import { ActDraft, type Act } from '#core/ledger/act.ts';
import type { EntryId } from '#core/ledger/ids.ts';
import { replay } from '#core/ledger/memory-cellar.ts';
import { isFaultWord, TASTE_GROUP_NAMES, TASTE_GROUPS, TASTE_WORDS } from '#core/ledger/taste-words.ts';
import { batch, idOf, place, shelf, testCellar, vessel } from './cellar-of.ts';

const v = (n: number) => idOf<never>('vessel', n);
const b = (n: number) => idOf<never>('batch', n);
const SUM = 'ab'.repeat(32);

const photoOf = (about: unknown, caption = ''): Act =>
  ({ kind: 'addPhoto', about, checksum: SUM, widthPx: 640, heightPx: 480, caption }) as Act;
const ofVessel = (n: number) => ({ kind: 'vessel', vesselId: v(n) });
const ofBatch = (n: number) => ({ kind: 'batch', batchId: b(n) });
const tasted = (about: unknown, over: object = {}): Act =>
  ({ kind: 'tasteNote', about, words: ['apple'], score: 4, text: '', by: '', ...over }) as Act;
const undo = (entryId: EntryId): Act => ({ kind: 'reverse', entryId, how: 'undo' });

function oneJar() {
  const t = testCellar();
  t.given(place(), shelf(), vessel(1), vessel(2), batch(1, 1, 3));
  return t;
}

describe('a photo', () => {
  it('of a vessel is also of the batch that stands in it', () => {
    const t = oneJar();
    const id = t.given(photoOf(ofVessel(1), 'the disc'));
    expect(t.cellar.get('photo', id)).toMatchObject({ vesselId: v(1), batchId: b(1), checksum: SUM });
  });

  it('of an empty vessel is of the vessel alone, and of a batch of the batch alone', () => {
    const t = oneJar();
    const empty = t.given(photoOf(ofVessel(2)));
    expect(t.cellar.get('photo', empty)).toMatchObject({ vesselId: v(2), batchId: null });
    const leaf = t.given(photoOf(ofBatch(1)));
    expect(t.cellar.get('photo', leaf)).toMatchObject({ vesselId: null, batchId: b(1) });
  });

  it('of what is not there is refused', () => {
    const t = oneJar();
    expect(t.refusal(photoOf(ofVessel(9)))).toMatchObject({ type: 'NotFound', what: 'vessel' });
    expect(t.refusal(photoOf(ofBatch(9)))).toMatchObject({ type: 'NotFound', what: 'batch' });
  });

  it('taken back is gone, and done again is there, with its caption', () => {
    const t = oneJar();
    const id = t.given(photoOf(ofVessel(1), 'the disc'));
    const back = t.given(undo(id));
    expect(t.cellar.get('photo', id)).toBeNull();
    t.given({ kind: 'reverse', entryId: back, how: 'redo' });
    expect(t.cellar.get('photo', id)).toMatchObject({ caption: 'the disc' });
  });

  it('whose caption was changed is not taken back before the change is', () => {
    const t = oneJar();
    const id = t.given(photoOf(ofVessel(1), 'one'));
    const edit = t.given({ kind: 'editCaption', photoId: id, caption: 'two' });
    expect(t.cellar.get('photo', id)).toMatchObject({ caption: 'two' });
    expect(t.refusal(undo(id))).toMatchObject({ type: 'LaterEntriesRest', entryIds: [edit] });
    t.given(undo(edit));
    expect(t.cellar.get('photo', id)).toMatchObject({ caption: 'one' });
    t.given(undo(id));
    expect(t.refusal({ kind: 'editCaption', photoId: id, caption: 'x' })).toMatchObject({
      ...{ type: 'NotFound', what: 'photo' },
    });
  });

  it('has a new caption or none: the same is no change', () => {
    const t = oneJar();
    const id = t.given(photoOf(ofVessel(1), 'one'));
    expect(t.refusal({ kind: 'editCaption', photoId: id, caption: 'one' })).toMatchObject({
      ...{ type: 'NothingToAdd', field: 'caption' },
    });
  });

  it.each([
    ['a checksum in capitals', { checksum: SUM.toUpperCase() }],
    ['a checksum that is a path', { checksum: '../../etc/passwd' }],
    ['no width', { widthPx: 0 }],
    ['a side longer than a kept picture has', { heightPx: 4097 }],
    ['a caption of two lines', { caption: 'one\ntwo' }],
    ['a caption of 241 letters', { caption: 'x'.repeat(241) }],
    ['bytes in the act', { content: 'AAAA' }],
  ])('with %s is no act of the book', (_what, over) => {
    expect(ActDraft.safeParse({ ...photoOf(ofVessel(1)), ...over }).success).toBe(false);
  });
});

describe('a tasting', () => {
  it('of a vessel is of the batch in it, and changes nothing else', () => {
    const t = oneJar();
    const before = t.cellar.get('fill', v(1));
    const posted = t.post(tasted(ofVessel(1), { words: ['sharp', 'oak'], text: 'long', by: 'both of us' }));
    expect(posted).toMatchObject({ ok: true, value: { postings: [] } });
    const [id] = [...t.cellar.records('tasting').keys()];
    expect(t.cellar.get('tasting', id ?? '')).toMatchObject({
      ...{ vesselId: v(1), batchId: b(1), words: ['sharp', 'oak'], score: 4, text: 'long', by: 'both of us' },
    });
    expect(t.cellar.get('fill', v(1))).toBe(before);
  });

  it('of a batch that stands nowhere any more is kept: it may be tasted from its bottles', () => {
    const t = oneJar();
    t.given({ kind: 'discard', vesselId: v(1), volumeUl: 3_000_000, reason: '' });
    const id = t.given(tasted(ofBatch(1)));
    expect(t.cellar.get('tasting', id)).toMatchObject({ vesselId: null, batchId: b(1) });
  });

  it('of an empty vessel, of nothing there, or that says nothing, is refused', () => {
    const t = oneJar();
    expect(t.refusal(tasted(ofVessel(2)))).toMatchObject({ type: 'VesselEmpty', vesselNumber: 2 });
    expect(t.refusal(tasted(ofVessel(9)))).toMatchObject({ type: 'NotFound' });
    expect(t.refusal(tasted(ofBatch(1), { words: [], score: null, text: '' }))).toMatchObject({
      ...{ type: 'NothingToAdd', field: 'words' },
    });
    expect(t.refusal(tasted(ofBatch(1), { words: [], score: null, text: 'flat' }))).toBeNull();
  });

  it.each([
    ['a score of nothing', { score: 0 }],
    ['a score of six', { score: 6 }],
    ['half a point', { score: 3.5 }],
    ['a word twice', { words: ['oak', 'oak'] }],
    ['a word that is not on the wheel', { words: ['lovely'] }],
    ['a name of two lines', { by: 'a\nb' }],
  ])('with %s is no act of the book', (_what, over) => {
    expect(ActDraft.safeParse(tasted(ofVessel(1), over)).success).toBe(false);
  });

  it('taken back is gone', () => {
    const t = oneJar();
    const id = t.given(tasted(ofVessel(1)));
    t.given(undo(id));
    expect(t.cellar.records('tasting').size).toBe(0);
  });
});

describe('the book', () => {
  it('with photos and tastings reads the same again from its first line', () => {
    const t = oneJar();
    const photo = t.given(photoOf(ofVessel(1)));
    t.given(
      { kind: 'editCaption', photoId: photo, caption: 'later' },
      tasted(ofVessel(1)),
      tasted(ofBatch(1)),
    );
    const again = replay(t.cellar.entries);
    for (const kind of ['photo', 'tasting', 'fill'] as const) {
      expect([...again.records(kind)]).toEqual([...t.cellar.records(kind)]);
    }
  });
});

describe('the words of the wheel', () => {
  it('stand once each, in the order of their groups', () => {
    const all = TASTE_GROUP_NAMES.flatMap((group) => [...TASTE_GROUPS[group]]);
    expect(all).toEqual([...TASTE_WORDS]);
    expect(new Set(all).size).toBe(all.length);
  });

  it('are faults in one group alone', () => {
    expect(TASTE_WORDS.filter(isFaultWord)).toEqual([...TASTE_GROUPS.faults]);
  });
});
