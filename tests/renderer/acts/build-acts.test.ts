import { describe, expect, test } from 'vitest';
import { ActDraft } from '#core/ledger/act.ts';
import type { BatchId, CultureId, PlaceId, ShelfId, VesselId } from '#core/ledger/ids.ts';
import type { Posted } from '#core/contract/ledger.ts';
import { METRIC_HOUSE } from '#core/quantities/house-units.ts';
import * as batches from '#renderer/acts/build-batches.ts';
import * as liquid from '#renderer/acts/build-liquid.ts';
import * as places from '#renderer/acts/build-places.ts';
import { buildReading, READING_FIELDS } from '#renderer/acts/build-reading.ts';
import * as vessels from '#renderer/acts/build-vessels.ts';
import type { FormReader } from '#renderer/acts/form-reader.ts';
import { amiss, id, readerOf } from './form-text.ts';

const JUG = id(1) as VesselId;
const JAR = id(2) as VesselId;
const MOTHER = id(3);
const SHELF = id(4);
const RULES = { hydrometerCalibrationCelsius: 20 };

/** What a sound form gives, checked against the schema of the book. */
function sound<Built>(read: FormReader, build: (read: FormReader) => Built): Built {
  const built = build(read);
  expect(read.problems).toEqual([]);
  if (!Array.isArray(built)) expect(ActDraft.safeParse(built)).toMatchObject({ success: true });
  return built;
}

function wrong(fields: Record<string, string>, build: (read: FormReader) => unknown): string[] {
  const read = readerOf(fields);
  build(read);
  return amiss(read);
}

describe('a reading', () => {
  const reading = (fields: Record<string, string>) =>
    sound(readerOf({ ...READING_FIELDS, vesselId: JUG, ...fields }), (read) => buildReading(read, RULES));

  test('is taken from one line', () => {
    expect(reading({ quick: '1.012 19C' })).toMatchObject({
      vesselId: JUG,
      values: {
        gravitySg: 1.012,
        gravityInstrument: 'hydrometer',
        gravityCalibrationCelsius: 20,
        temperatureCelsius: 19,
        ph: null,
      },
    });
  });

  test('joins the line and the separate fields', () => {
    const act = reading({ quick: 'pH 3.4', phMethod: 'meterToday', taste: 'clean', volumeUl: '4.2 L' });
    expect(act).toMatchObject({
      values: { ph: 3.4, phMethod: 'meterToday', taste: 'clean', volumeUl: 4_200_000 },
    });
  });

  test('takes the acid from the text before the one chosen beside it', () => {
    expect(reading({ acidityGramsPer100Ml: '5.2 % as tartaric', acidityAs: 'acetic' })).toMatchObject({
      values: { acidityAs: 'tartaric' },
    });
    expect(reading({ quick: '4.3 %', acidityAs: 'acetic', acidityMethod: 'syringeKit' })).toMatchObject({
      values: { acidityGramsPer100Ml: 4.3, acidityAs: 'acetic', acidityMethod: 'syringeKit' },
    });
  });

  test('works an acidity out from a titration', () => {
    const act = reading({
      titrationBaseMl: '8,33',
      titrationNormality: '0.1 N',
      titrationSampleMl: '1 ml',
      acidityAs: 'acetic',
    });
    // 8.33 mL × 0.1 N × 60.052 ÷ (10 × 1 mL) = 5.00 g/100 mL, the formula of AOAC 930.35J.
    expect(act.kind === 'recordReading' && act.values.acidityGramsPer100Ml).toBeCloseTo(5.0023, 3);
  });

  test('keeps no instrument or method for what was not read', () => {
    expect(
      reading({ temperatureCelsius: '68F', phMethod: 'wideStrip', acidityMethod: 'burette' }),
    ).toMatchObject({
      values: { temperatureCelsius: 20, gravityInstrument: null, phMethod: null, acidityMethod: null },
    });
  });

  test.each([
    [{ vesselId: '' }, ['vesselId']],
    [{}, ['quick']],
    [{ quick: '4.3 %' }, ['acidityAs']],
    [{ quick: '1.012', gravitySg: '1.010' }, ['gravitySg']],
    [{ quick: 'cloudy' }, ['quick']],
    [{ titrationBaseMl: '8', acidityAs: 'acetic' }, ['titrationNormality', 'titrationSampleMl']],
    [{ quick: '2.5 % salt' }, ['quick']],
    [{ gravitySg: '1.48' }, ['gravitySg']],
    [{ volumeUl: '0 L' }, ['volumeUl']],
    [
      {
        acidityGramsPer100Ml: '5',
        titrationBaseMl: '8',
        titrationNormality: '0.1',
        titrationSampleMl: '1',
        acidityAs: 'acetic',
      },
      ['acidityGramsPer100Ml'],
    ],
  ])('%j is sent back with %j', (fields: Record<string, string>, expected) => {
    const read = readerOf({ ...READING_FIELDS, vesselId: JUG, ...fields });
    buildReading(read, RULES);
    expect(amiss(read)).toEqual(expected);
  });

  test('an unlikely value may be kept on purpose', () => {
    const read = readerOf(
      { ...READING_FIELDS, vesselId: JUG, gravitySg: '1.48' },
      { kept: { gravitySg: '1.48' } },
    );
    expect(sound(read, (form) => buildReading(form, RULES))).toMatchObject({ values: { gravitySg: 1.48 } });
  });
});

describe('starting a batch', () => {
  const FIELDS = {
    ...READING_FIELDS,
    name: 'Windfall cider',
    ferment: 'cider',
    vesselId: JUG,
    volumeUl: '4.5 L',
    note: '',
  };
  const start = (fields: Record<string, string>) =>
    sound(readerOf({ ...FIELDS, ...fields }), (read) => batches.buildStartBatch(read, RULES));

  test('holds what was measured and what went in', () => {
    expect(
      start({
        gravitySg: '12 Bx',
        ingredient0: 'Apples',
        amount0: '8 kg',
        ingredient1: 'Cloves',
        amount1: 'a few',
      }),
    ).toMatchObject({
      kind: 'startBatch',
      volumeUl: 4_500_000,
      stage: 'waiting',
      ingredients: [
        { name: 'Apples', amountTyped: '8 kg', massUg: 8_000_000_000 },
        { name: 'Cloves', amountTyped: 'a few', massUg: null },
      ],
    });
    expect(start({})).toMatchObject({ measured: null, ingredients: [] });
  });

  test('begins brined vegetables in the lactic stage', () => {
    expect(start({ ferment: 'brinedVegetables' })).toMatchObject({ stage: 'lactic' });
  });

  test('names all that is missing', () => {
    const missing = { ...FIELDS, name: '', ferment: '', vesselId: '', volumeUl: '' };
    expect(wrong(missing, (read) => batches.buildStartBatch(read, RULES))).toEqual([
      'name',
      'ferment',
      'vesselId',
      'volumeUl',
    ]);
    expect(wrong({ ...FIELDS, amount0: '3 kg' }, (read) => batches.buildStartBatch(read, RULES))).toEqual([
      'ingredient0',
    ]);
  });

  test('shows one empty row of ingredients more than are filled in', () => {
    expect(batches.ingredientRows({})).toBe(1);
    expect(batches.ingredientRows({ ingredient0: 'Apples' })).toBe(2);
    expect(batches.ingredientRows({ amount3: '1 kg' })).toBe(5);
    expect(batches.ingredientRows({ ingredient59: 'last' })).toBe(60);
  });
});

describe('moving liquid', () => {
  const FIELDS = { ...liquid.TRANSFER_FIELDS, fromVesselId: JUG, toVesselId: JAR, volumeUl: '4 L' };

  test('a transfer states lees, stage and a batch of its own', () => {
    const fields = {
      ...FIELDS,
      leesUl: '200 ml',
      batch: 'own',
      newName: 'Cider vinegar',
      newFerment: 'fruitVinegar',
      toStage: 'vinegar',
    };
    expect(
      sound(readerOf(fields), (read) => liquid.buildTransfer(read, { receiverHolds: false })),
    ).toMatchObject({
      volumeUl: 4_000_000,
      leesUl: 200_000,
      newBatch: { name: 'Cider vinegar', ferment: 'fruitVinegar' },
      toStage: 'vinegar',
    });
  });

  test('a blend joins the batch that is there, whatever was chosen before', () => {
    const fields = { ...FIELDS, batch: 'own', newName: '', newFerment: '' };
    expect(
      sound(readerOf(fields), (read) => liquid.buildTransfer(read, { receiverHolds: true })),
    ).toMatchObject({
      newBatch: null,
      toStage: null,
      leesUl: 0,
    });
  });

  test('what can be poured off is what stays after the lees', () => {
    const refusal = {
      type: 'VesselOverdrawn',
      field: 'volumeUl',
      vesselNumber: 7,
      heldUl: 4_500_000,
      wantedUl: 4_700_000,
    } as const;
    expect(liquid.refitTransfer(refusal, 200_000, METRIC_HOUSE)?.fixes[0]?.text).toBe('4.3 L');
    expect(liquid.refitTransfer(refusal, 4_500_000, METRIC_HOUSE)?.fixes).toEqual([]);
    expect(liquid.refitTransfer(refusal, 0, METRIC_HOUSE)).toBeNull();
  });

  test('throwing out asks for a reason', () => {
    expect(wrong({ volumeUl: '1 L', reason: '' }, (read) => liquid.buildDiscard(read, JUG))).toEqual([
      'reason',
    ]);
    sound(readerOf({ volumeUl: '1 L', reason: 'mouldy' }), (read) => liquid.buildDiscard(read, JUG));
    sound(readerOf({ volumeUl: '1 L', purpose: '' }), (read) => liquid.buildDrawOff(read, JUG));
  });

  test('bottles are counted whole', () => {
    const fields = { bottles: '5', bottleUl: '750 ml', lossUl: '', note: '' };
    expect(sound(readerOf(fields), (read) => liquid.buildBottle(read, JUG))).toMatchObject({
      bottles: 5,
      bottleUl: 750_000,
      lossUl: 0,
    });
    expect(wrong({ ...fields, bottles: '2.5' }, (read) => liquid.buildBottle(read, JUG))).toEqual([
      'bottles',
    ]);
    expect(liquid.bottlesFilled({ heldUl: 4_500_000, lossUl: 100_000, bottleUl: 750_000 })).toBe(5);
    expect(liquid.bottlesFilled({ heldUl: 1, lossUl: 5, bottleUl: 750_000 })).toBe(0);
    expect(liquid.bottlesFilled({ heldUl: 5, lossUl: 0, bottleUl: 0 })).toBe(0);
  });

  test('a level above the book is a correction, one below names its cause', () => {
    const settle = (volumeUl: string) =>
      sound(readerOf({ volumeUl, cause: 'evaporation' }), (read) => liquid.buildSettle(read, JUG, 4_000_000));
    expect(settle('3.8 L')).toMatchObject({ cause: 'evaporation' });
    expect(settle('4.2 L')).toMatchObject({ cause: 'correction' });
    expect(
      wrong({ volumeUl: '4 L', cause: 'loss' }, (read) => liquid.buildSettle(read, JUG, 4_000_000)),
    ).toEqual(['volumeUl']);
  });

  test('an addition typed as a volume raises the level, one typed as a weight does not by itself', () => {
    const add = (fields: Record<string, string>) =>
      sound(readerOf({ what: 'sugar', ingredient: '', volumeUl: '', ...fields }), (read) =>
        liquid.buildAddTo(read, JUG),
      );
    expect(add({ what: 'juice', amount: '2 L' })).toMatchObject({
      volumeUl: 2_000_000,
      ingredient: { name: 'juice', massUg: null },
    });
    expect(add({ amount: '500 g' })).toMatchObject({
      volumeUl: 0,
      ingredient: { amountTyped: '500 g', massUg: 500_000_000 },
    });
    expect(add({ amount: '500 g', volumeUl: '300 ml' })).toMatchObject({ volumeUl: 300_000 });
    expect(add({ amount: 'a handful', ingredient: 'raisins' })).toMatchObject({
      ingredient: { name: 'raisins', massUg: null },
    });
    const spirit = { what: 'spirit', amount: '200 ml' };
    expect(add({ ...spirit, alcoholPercentVolume: '40 % vol' })).toMatchObject({
      ...{ what: 'spirit', volumeUl: 200_000, alcoholPercentVolume: 40 },
    });
    expect(add(spirit)).not.toHaveProperty('alcoholPercentVolume');
    // The strength of another thing than spirit is not asked, and a text left over there says nothing.
    expect(add({ amount: '500 g', alcoholPercentVolume: '40' })).not.toHaveProperty('alcoholPercentVolume');
    for (const strength of ['0', '101 %', 'strong', '40 g']) {
      expect(
        wrong({ ...spirit, alcoholPercentVolume: strength }, (read) => liquid.buildAddTo(read, JUG)),
      ).toEqual(['alcoholPercentVolume']);
    }
    expect(wrong({ what: 'water', amount: 'a splash' }, (read) => liquid.buildAddTo(read, JUG))).toEqual([
      'amount',
    ]);
    expect(wrong({ what: 'other', amount: '' }, (read) => liquid.buildAddTo(read, JUG))).toEqual([
      'ingredient',
      'amount',
    ]);
  });

  test('moving on needs a stage that liquid can be in', () => {
    sound(readerOf({ stage: 'settling' }), (read) => liquid.buildChangeStage(read, JUG));
    expect(wrong({ stage: 'empty' }, (read) => liquid.buildChangeStage(read, JUG))).toEqual(['stage']);
  });
});

describe('cultures', () => {
  test('seeding from a culture and its jar, or from a bottle that was bought', () => {
    const fields = {
      vesselId: JAR,
      source: 'culture',
      cultureId: MOTHER,
      fromVesselId: JUG,
      volumeUl: '300 ml',
      toStage: 'vinegar',
      what: 'left over',
    };
    expect(sound(readerOf(fields), batches.buildSeed)).toMatchObject({
      cultureId: MOTHER,
      fromVesselId: JUG,
      what: '',
      volumeUl: 300_000,
    });
    const bought = { ...fields, source: 'bought', what: 'raw cider vinegar' };
    expect(sound(readerOf(bought), batches.buildSeed)).toMatchObject({
      cultureId: null,
      fromVesselId: null,
      what: 'raw cider vinegar',
    });
    expect(wrong({ ...bought, what: '' }, batches.buildSeed)).toEqual(['what']);
    expect(wrong({ ...fields, cultureId: '' }, batches.buildSeed)).toEqual(['cultureId']);
  });

  test('pitching a packet or a culture', () => {
    const fields = { source: 'packet', yeast: 'wine yeast', cultureId: '', massUg: '5 g' };
    expect(sound(readerOf(fields), (read) => batches.buildPitchYeast(read, JUG))).toMatchObject({
      cultureId: null,
      yeast: 'wine yeast',
      massUg: 5_000_000,
    });
    const culture = { ...fields, source: 'culture', cultureId: MOTHER, massUg: '' };
    expect(sound(readerOf(culture), (read) => batches.buildPitchYeast(read, JUG))).toMatchObject({
      cultureId: MOTHER,
      yeast: '',
      massUg: null,
    });
    expect(wrong({ ...fields, yeast: '' }, (read) => batches.buildPitchYeast(read, JUG))).toEqual(['yeast']);
  });

  test('adding, describing and feeding one', () => {
    const fields = {
      name: 'Old Bess',
      sort: 'mother',
      parentCultureId: '',
      source: 'a friend',
      note: '',
      vesselId: JAR,
      volumeUl: '1.5 L',
    };
    expect(sound(readerOf(fields), batches.buildAddCulture)).toMatchObject({
      standing: { vesselId: JAR, volumeUl: 1_500_000 },
    });
    expect(sound(readerOf({ ...fields, vesselId: '', volumeUl: '' }), batches.buildAddCulture)).toMatchObject(
      { standing: null },
    );
    expect(wrong({ ...fields, vesselId: '' }, batches.buildAddCulture)).toEqual(['vesselId']);
    sound(readerOf(fields), (read) => batches.buildEditCulture(read, MOTHER as CultureId));
    sound(readerOf({ text: '200 ml of cider' }), (read) =>
      batches.buildFeedCulture(read, MOTHER as CultureId),
    );
    expect(wrong({ text: '' }, (read) => batches.buildFeedCulture(read, MOTHER as CultureId))).toEqual([
      'text',
    ]);
  });

  test('notes and leaves', () => {
    const about = { kind: 'vessel', vesselId: JUG } as const;
    sound(readerOf({ text: 'clear' }), (read) => batches.buildNote(read, about));
    expect(wrong({ text: ' ' }, (read) => batches.buildNote(read, about))).toEqual(['text']);
    sound(readerOf({ name: 'Cider', ferment: 'cider', note: '' }), (read) =>
      batches.buildEditBatch(read, id(9) as BatchId),
    );
  });
});

describe('places, shelves and vessels', () => {
  const VESSEL = {
    name: '',
    silhouette: 'jar',
    capacityUl: '2 L',
    mouth: 'wide',
    material: 'glass',
    closure: 'cloth',
    note: '',
    count: '1',
    shelfId: '',
    position: '',
  };

  test('several shelves are acts of their own, numbered, in a place written before them', () => {
    const steps = sound(
      readerOf({ name: 'Pantry', note: '', shelfCount: '3', positions: '8' }),
      places.buildAddPlace,
    );
    expect(steps).toHaveLength(4);
    const written = [{ entry: { act: { kind: 'addPlace', placeId: id(7) } } }] as unknown as Posted[];
    expect(steps[3]?.(written)).toEqual({ kind: 'addShelf', placeId: id(7), name: 'Shelf 3', positions: 8 });
    expect(() => steps[1]?.([])).toThrow();
  });

  test('a shelf goes into a place that is there, or into one named with it', () => {
    const fields = { placeId: id(7), placeName: '', name: 'Top shelf', count: '1', positions: '6' };
    const steps = sound(readerOf(fields), places.buildAddShelf);
    expect(steps.map((step) => step([]))).toEqual([
      { kind: 'addShelf', placeId: id(7), name: 'Top shelf', positions: 6 },
    ]);
    expect(
      sound(readerOf({ ...fields, placeId: 'new', placeName: 'Shed', count: '2' }), places.buildAddShelf),
    ).toHaveLength(3);
    expect(wrong({ ...fields, placeId: 'new' }, places.buildAddShelf)).toEqual(['placeName']);
    sound(readerOf(fields), (read) => places.buildEditShelf(read, SHELF as ShelfId));
    sound(readerOf({ name: 'Pantry', note: '' }), (read) => places.buildEditPlace(read, id(7) as PlaceId));
  });

  test('vessels alike take the free positions from the chosen one on', () => {
    const standing = { freePositions: [1, 3, 4, 8], positions: 8 };
    const steps = sound(readerOf({ ...VESSEL, count: '3', shelfId: SHELF, position: '2' }), (read) =>
      vessels.buildAddVessel(read, standing),
    );
    expect(steps.map((step) => step([])).map((act) => act.kind === 'addVessel' && act.position)).toEqual([
      3, 4, 8,
    ]);
  });

  test('too many for the shelf are sent back with how many fit', () => {
    const read = readerOf({ ...VESSEL, count: '5', shelfId: SHELF, position: '1' });
    vessels.buildAddVessel(read, { freePositions: [1, 3], positions: 8 });
    expect(read.problems[0]).toMatchObject({ field: 'count', fixes: [{ text: '2' }] });
  });

  test('a vessel may stand nowhere yet', () => {
    const [step] = sound(readerOf(VESSEL), (read) => vessels.buildAddVessel(read, null));
    expect(ActDraft.parse(step?.([]))).toMatchObject({ shelfId: null, position: null });
  });

  test('describing and moving one', () => {
    sound(readerOf(VESSEL), (read) => vessels.buildEditVessel(read, JAR));
    const standing = { freePositions: [2], positions: 8 };
    const moved = { shelfId: SHELF, position: '2' };
    expect(sound(readerOf(moved), (read) => vessels.buildMoveVessel(read, JAR, standing))).toMatchObject({
      position: 2,
    });
    expect(
      wrong({ shelfId: SHELF, position: '9' }, (read) => vessels.buildMoveVessel(read, JAR, standing)),
    ).toEqual(['position']);
    expect(
      sound(readerOf({ shelfId: '', position: '' }), (read) => vessels.buildMoveVessel(read, JAR, null)),
    ).toMatchObject({ shelfId: null });
  });

  test('every shape has a usual vessel that the form understands', () => {
    for (const [silhouette, usual] of Object.entries(vessels.USUAL_VESSEL)) {
      sound(readerOf({ ...VESSEL, silhouette, ...usual, capacityUl: usual.capacity }), (read) =>
        vessels.buildEditVessel(read, JAR),
      );
    }
  });
});
