import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { ActDraft } from '#core/ledger/act.ts';
import type { EntryId, VesselId } from '#core/ledger/ids.ts';
import { METRIC_HOUSE } from '#core/quantities/house-units.ts';
import { BLEND_FIELDS, buildBlend } from '#renderer/acts/build-blend.ts';
import {
  buildDrawAndRefill,
  DRAW_AND_REFILL_FIELDS,
  readShare,
  shareUl,
} from '#renderer/acts/build-draw-and-refill.ts';
import { buildLot, LOT_FIELDS } from '#renderer/acts/build-lot.ts';
import { buildSplit, refitSplit, restUl, sayRest, SPLIT_FIELDS } from '#renderer/acts/build-split.ts';
import { buildClean, buildFilter, buildLend, buildSample } from '#renderer/acts/build-upkeep.ts';
import type { FormReader } from '#renderer/acts/form-reader.ts';
import { dropPart, partCount, partField } from '#renderer/acts/numbered-rows.ts';
import { equalParts, filledInTurn } from '#renderer/acts/part-volumes.ts';
import { readLater } from '#renderer/acts/read-later.ts';
import { emptyRow } from '../shelves/rows-for-tests.ts';
import { amiss, id, LOCAL_TIME, NOW_MS, readerOf } from './form-text.ts';

const CASK = id(1) as VesselId;
const JAR = id(2) as VesselId;
const JUG = id(3) as VesselId;
const LOT = id(9) as EntryId;
const DAY_MS = 86_400_000;

/** What a sound form gives, checked against the schema of the book. */
function sound(fields: Record<string, string>, build: (read: FormReader) => ActDraft): ActDraft {
  const read = readerOf(fields);
  const built = build(read);
  expect(read.problems).toEqual([]);
  expect(ActDraft.safeParse(built)).toMatchObject({ success: true });
  return built;
}

function wrong(fields: Record<string, string>, build: (read: FormReader) => unknown): string[] {
  const read = readerOf(fields);
  build(read);
  return amiss(read);
}

describe('a split', () => {
  const two = {
    ...SPLIT_FIELDS,
    ...{ fromVesselId: CASK, leesUl: '200 ml' },
    ...{ 'parts.0.toVesselId': JAR, 'parts.0.volumeUl': '2 L' },
    ...{ 'parts.1.toVesselId': JUG, 'parts.1.volumeUl': '1 qt', 'parts.1.toStage': 'maturing' },
  };
  const build = (read: FormReader): ActDraft => buildSplit(read, () => false);

  test('keeps each part with its volume, its stage and its batch', () => {
    const own = {
      'parts.1.batch': 'own',
      'parts.1.newName': 'Young plum',
      'parts.1.newFerment': 'fruitVinegar',
    };
    expect(sound({ ...two, ...own }, build)).toEqual({
      ...{ kind: 'split', fromVesselId: CASK, leesUl: 200_000 },
      parts: [
        { toVesselId: JAR, volumeUl: 2_000_000, newBatch: null, toStage: null },
        {
          ...{ toVesselId: JUG, volumeUl: 946_353, toStage: 'maturing' },
          newBatch: { name: 'Young plum', ferment: 'fruitVinegar' },
        },
      ],
    });
  });

  test('begins no batch of its own in a vessel that holds something', () => {
    const own = { ...two, 'parts.1.batch': 'own' };
    expect(sound(own, (read) => buildSplit(read, (part) => part === 1))).toMatchObject({
      parts: [{ newBatch: null }, { newBatch: null }],
    });
  });

  test.each([
    [{ fromVesselId: '' }, ['fromVesselId']],
    [{ 'parts.0.toVesselId': '' }, ['parts.0.toVesselId']],
    [{ 'parts.1.toVesselId': JAR }, ['parts.1.toVesselId']],
    [{ 'parts.1.toVesselId': CASK }, ['parts.1.toVesselId']],
    [{ 'parts.1.volumeUl': '' }, ['parts.1.volumeUl']],
    [{ 'parts.1.volumeUl': '0 L' }, ['parts.1.volumeUl']],
    [{ 'parts.0.volumeUl': '2' }, ['parts.0.volumeUl']],
    [{ parts: '3' }, ['parts.2.toVesselId', 'parts.2.volumeUl']],
    [{ 'parts.0.batch': 'own' }, ['parts.0.newName', 'parts.0.newFerment']],
    [{ leesUl: 'a little' }, ['leesUl']],
  ])('%j is sent back with %j', (fields: Record<string, string>, expected) => {
    expect(wrong({ ...two, ...fields }, build)).toEqual(expected);
  });

  test('says what stays, and what is too much', () => {
    const parted = { heldUl: 4_500_000, partsUl: [2_000_000, 1_000_000], leesUl: 200_000 };
    expect(restUl(parted)).toBe(1_300_000);
    const plain = (text: string): string => text.replaceAll('\u00A0', ' ');
    expect(plain(sayRest(parted, METRIC_HOUSE))).toBe(
      '3 L in 2 parts, 200 ml as lees; 1.3 L stays where it is.',
    );
    expect(plain(sayRest({ ...parted, partsUl: [4_300_000] }, METRIC_HOUSE))).toMatch(/nothing stays/);
    expect(plain(sayRest({ ...parted, partsUl: [5_000_000] }, METRIC_HOUSE))).toMatch(
      /700 ml more than the 4.5 L that stand there/,
    );
  });

  test('offers the last part as much as is left for it', () => {
    const parted = { heldUl: 4_500_000, partsUl: [2_000_000, 3_000_000], leesUl: 0 };
    const refusal = {
      ...({ type: 'VesselOverdrawn', field: 'parts.0.volumeUl', vesselNumber: 3 } as const),
      ...{ heldUl: 4_500_000, wantedUl: 5_000_000 },
    };
    expect(refitSplit(refusal, parted, METRIC_HOUSE)?.fixes).toEqual([
      { label: 'Use 2.5 L', text: '2.5 L', how: 'use' },
    ]);
    expect(refitSplit(refusal, { ...parted, partsUl: [4_900_000, 100_000] }, METRIC_HOUSE)?.fixes).toEqual(
      [],
    );
    expect(refitSplit({ type: 'SameVessel', field: 'toVesselId' }, parted, METRIC_HOUSE)).toBeNull();
  });
});

describe('volumes of parts', () => {
  test('equal parts lose nothing and differ by one unit at most', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 1e11 }), fc.integer({ min: 1, max: 24 }), (wholeUl, count) => {
        const parts = equalParts(wholeUl, count);
        expect(parts).toHaveLength(count);
        expect(parts.reduce((a, b) => a + b, 0)).toBe(wholeUl);
        const unit = wholeUl % 1000 === 0 && wholeUl / 1000 >= count ? 1000 : 1;
        expect(Math.max(...parts) - Math.min(...parts)).toBeLessThanOrEqual(unit);
      }),
    );
    expect(equalParts(4_000_000, 3)).toEqual([1_334_000, 1_333_000, 1_333_000]);
  });

  test('vessels are filled in turn, none above its brim, until nothing is left', () => {
    expect(filledInTurn(4_500_000, [2_000_000, null, 2_000_000, 2_000_000])).toEqual([
      ...[2_000_000, 0, 2_000_000, 500_000],
    ]);
    expect(filledInTurn(1, [0, 5])).toEqual([0, 1]);
  });

  test('a part taken away leaves the others with their vessels', () => {
    const rows = { [partField(2, 'toVesselId')]: emptyRow(7) };
    const form = {
      fields: {
        ...{ parts: '3', 'parts.0.volumeUl': '1 L', 'parts.1.volumeUl': '2 L', 'parts.2.volumeUl': '3 L' },
        ...{ 'parts.0.toVesselId': 'a', 'parts.1.toVesselId': 'b', 'parts.2.toVesselId': 'c' },
      } as Record<string, string>,
      kept: {},
      rows: rows as Record<string, ReturnType<typeof emptyRow>>,
      choose(field: string, row: ReturnType<typeof emptyRow> | null) {
        this.fields[field] = row?.vesselId ?? '';
      },
    };
    dropPart(form, { row: 0, count: 3, vesselField: 'toVesselId', texts: ['volumeUl'] });
    expect(form.fields).toMatchObject({
      ...{ parts: '2', 'parts.0.volumeUl': '2 L', 'parts.1.volumeUl': '3 L', 'parts.2.volumeUl': '' },
      ...{ 'parts.0.toVesselId': 'b', 'parts.1.toVesselId': emptyRow(7).vesselId, 'parts.2.toVesselId': '' },
    });
    expect(partCount({ parts: 'x' }, { low: 1, high: 24 })).toBe(1);
    expect(partCount({ parts: '400' }, { low: 1, high: 24 })).toBe(24);
  });
});

describe('a blend', () => {
  const two = {
    ...{ ...BLEND_FIELDS, toVesselId: CASK },
    ...{ 'parts.0.fromVesselId': JAR, 'parts.0.volumeUl': '2 L' },
    ...{ 'parts.1.fromVesselId': JUG, 'parts.1.volumeUl': '500 ml' },
  };
  const build = (read: FormReader): ActDraft => buildBlend(read, { receiverHolds: false });

  test('keeps how much of each, and what it becomes', () => {
    const own = { batch: 'own', newName: 'House blend', newFerment: 'cider', toStage: 'settling' };
    expect(sound({ ...two, ...own }, build)).toEqual({
      ...{ kind: 'blend', toVesselId: CASK, toStage: 'settling' },
      parts: [
        { fromVesselId: JAR, volumeUl: 2_000_000 },
        { fromVesselId: JUG, volumeUl: 500_000 },
      ],
      newBatch: { name: 'House blend', ferment: 'cider' },
    });
  });

  test.each([
    [{ toVesselId: '' }, ['toVesselId']],
    [{ 'parts.1.fromVesselId': JAR }, ['parts.1.fromVesselId']],
    [{ 'parts.1.fromVesselId': CASK }, ['parts.1.fromVesselId']],
    [{ 'parts.0.fromVesselId': '', 'parts.0.volumeUl': '' }, ['parts.0.fromVesselId', 'parts.0.volumeUl']],
    [{ batch: 'own', newName: '' }, ['newName', 'newFerment']],
  ])('%j is sent back with %j', (fields: Record<string, string>, expected) => {
    expect(wrong({ ...two, ...fields }, build)).toEqual(expected);
  });
});

describe('drawing and refilling', () => {
  const third = { ...DRAW_AND_REFILL_FIELDS, share: '1/3', fromVesselId: JAR, refillUl: '1.5 L' };
  const build = (read: FormReader): ActDraft =>
    buildDrawAndRefill(read, { vesselId: CASK, heldUl: 4_500_000, receiverHolds: false });

  test('draws a share or a volume', () => {
    expect(sound(third, build)).toEqual({
      ...{ kind: 'drawAndRefill', vesselId: CASK, drawnUl: 1_500_000, toVesselId: null },
      ...{ newBatch: null, toStage: null, fromVesselId: JAR, refillUl: 1_500_000 },
    });
    const into = { drawnAs: 'volume', drawnUl: '2 L', toVesselId: JUG, toStage: 'ready' };
    expect(sound({ ...third, ...into }, build)).toMatchObject({
      ...{ drawnUl: 2_000_000, toVesselId: JUG, toStage: 'ready' },
    });
  });

  test.each([
    ['1/3', 1 / 3],
    ['25 %', 0.25],
    ['12,5%', 0.125],
    ['.5', 0.5],
    ['0,25', 0.25],
    ['1/0', null],
    ['half', null],
    ['', null],
    ['25', null],
    ['3 L', null],
  ])('%j is read as the share %j', (text, share) => {
    expect(readShare(text)).toBe(share);
  });

  test('a share never comes to more than it is of', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1e11 }), fc.integer({ min: 2, max: 99 }), (heldUl, n) => {
        expect(Math.abs(shareUl(1 / n, heldUl) - heldUl / n)).toBeLessThanOrEqual(0.5);
      }),
    );
  });

  test.each([
    [{ share: '' }, ['share']],
    [{ share: 'all' }, ['share']],
    [{ share: '3/2' }, ['share']],
    [{ share: '100 %' }, ['share']],
    [{ share: '0.000000' }, ['share']],
    [{ drawnAs: 'volume' }, ['drawnUl']],
    [{ fromVesselId: '' }, ['fromVesselId']],
    [{ refillUl: '' }, ['refillUl']],
    [{ toVesselId: JUG, batch: 'own' }, ['newName', 'newFerment']],
  ])('%j is sent back with %j', (fields: Record<string, string>, expected) => {
    expect(wrong({ ...third, ...fields }, build)).toEqual(expected);
  });
});

describe('samples, filters and vessels', () => {
  test('a sample is for something', () => {
    const build = (read: FormReader): ActDraft => buildSample(read, JAR);
    expect(sound({ volumeUl: '100 ml', purpose: 'ph', note: '' }, build)).toMatchObject({
      ...{ kind: 'sample', volumeUl: 100_000, purpose: 'ph' },
    });
    expect(wrong({ volumeUl: '', purpose: 'why' }, build)).toEqual(['volumeUl', 'purpose']);
  });

  test('a filter may cost nothing', () => {
    const build = (read: FormReader): ActDraft => buildFilter(read, JAR);
    expect(sound({ how: 'paper', lossUl: '', note: '' }, build)).toMatchObject({ how: 'paper', lossUl: 0 });
    expect(wrong({ how: '', lossUl: 'some' }, build)).toEqual(['how', 'lossUl']);
  });

  test('a cleaned vessel rests until a day to come, or not at all', () => {
    const build = (read: FormReader): ActDraft => buildClean(read, JAR);
    expect(sound({ how: 'washed', restUntilMs: '', note: '' }, build)).toMatchObject({ restUntilMs: null });
    expect(sound({ how: 'heated', restUntilMs: '5 days', note: '' }, build)).toMatchObject({
      restUntilMs: NOW_MS + 5 * DAY_MS,
    });
    expect(wrong({ how: 'washed', restUntilMs: 'yesterday' }, build)).toEqual(['restUntilMs']);
  });

  test.each([
    ['3 d', 3],
    ['in 2 weeks', 14],
    ['1 month', 30],
  ])('%j is %j days ahead', (text, days) => {
    expect(readLater(text, NOW_MS, LOCAL_TIME)).toMatchObject({ atMs: NOW_MS + days * DAY_MS });
  });

  test.each(['now', 'today', '0 days', '2026-11-01', '2099-01-01', 'soon', '5 parsecs', '03/04/2027'])(
    '%j is no day to rest until',
    (text) => {
      expect(readLater(text, NOW_MS, LOCAL_TIME)).toMatchObject({ type: 'wrong' });
    },
  );

  test('a vessel goes to somebody, on to another, or comes back', () => {
    const lend = (fields: Record<string, string>, isOut: boolean) =>
      sound({ where: 'back', note: '', ...fields }, (read) => buildLend(read, JAR, { isOut }));
    expect(lend({ holder: ' The neighbour ' }, false)).toMatchObject({ holder: 'The neighbour' });
    expect(lend({ holder: 'The neighbour' }, true)).toMatchObject({ holder: '' });
    expect(lend({ holder: 'The school', where: 'other' }, true)).toMatchObject({ holder: 'The school' });
    expect(wrong({ holder: '' }, (read) => buildLend(read, JAR, { isOut: false }))).toEqual(['holder']);
  });
});

describe('bottles of a lot', () => {
  const build = (read: FormReader): ActDraft => buildLot(read, LOT);

  test('are opened, given to somebody, broken, or emptied back', () => {
    expect(sound({ ...LOT_FIELDS, how: 'opened', holder: 'left over' }, build)).toMatchObject({
      ...{ kind: 'takeBottles', lotId: LOT, bottles: 1, how: 'opened', holder: '' },
    });
    expect(
      sound({ ...LOT_FIELDS, how: 'given', bottles: '6', holder: 'The neighbour' }, build),
    ).toMatchObject({ how: 'given', bottles: 6, holder: 'The neighbour' });
    expect(
      sound({ ...LOT_FIELDS, how: 'returned', bottles: '3', toVesselId: JUG, lossUl: '50 ml' }, build),
    ).toMatchObject({
      ...{ kind: 'returnBottles', bottles: 3, toVesselId: JUG, lossUl: 50_000, toStage: null },
    });
  });

  test.each([
    [{ how: '' }, ['how']],
    [{ how: 'opened', bottles: '0' }, ['bottles']],
    [{ how: 'opened', bottles: '1.5' }, ['bottles']],
    [{ how: 'given' }, ['holder']],
    [{ how: 'returned' }, ['toVesselId']],
    [{ how: 'returned', toVesselId: JUG, lossUl: 'x' }, ['lossUl']],
  ])('%j is sent back with %j', (fields: Record<string, string>, expected) => {
    expect(wrong({ ...LOT_FIELDS, ...fields }, build)).toEqual(expected);
  });
});
