import { describe, expect, test } from 'vitest';
import { Act, ActDraft, NOTHING_READ, type ActKind, type ActOf } from '#core/ledger/act.ts';
import type { EntryRow } from '#core/contract/ledger.ts';
import type { BatchId, CultureId, EntryId, PlaceId, ShelfId, VesselId } from '#core/ledger/ids.ts';
import { METRIC_HOUSE, type HouseUnits } from '#core/quantities/house-units.ts';
import type { Step } from '#renderer/acts/act-form.svelte.ts';
import * as batches from '#renderer/acts/build-batches.ts';
import { buildBlend } from '#renderer/acts/build-blend.ts';
import { buildClosure } from '#renderer/acts/build-closure.ts';
import { buildDrawAndRefill } from '#renderer/acts/build-draw-and-refill.ts';
import * as liquid from '#renderer/acts/build-liquid.ts';
import * as places from '#renderer/acts/build-places.ts';
import { buildReading } from '#renderer/acts/build-reading.ts';
import { buildSplit } from '#renderer/acts/build-split.ts';
import { buildTitration } from '#renderer/acts/build-titration.ts';
import * as upkeep from '#renderer/acts/build-upkeep.ts';
import * as vessels from '#renderer/acts/build-vessels.ts';
import { CORRECTED_VESSEL, toldAnew, type Correcting } from '#renderer/acts/correcting.ts';
import { FormReader } from '#renderer/acts/form-reader.ts';
import { NOTHING_SAID, workOut, type TitrationDone } from '#renderer/acts/titration-work.ts';
import { draftOf } from '#renderer/corrections/draft-of.ts';
import { refillOwnForm, refillSmallForm, type Refilled } from '#renderer/corrections/refill-form.ts';
import { buildPlain } from '#renderer/corrections/refill-plain.ts';
import { buildTasting } from '#renderer/tasting/build-tasting.ts';
import { entryOf } from '../fake-cellar.ts';
import { id, LOCAL_TIME, NOW_MS } from '../acts/form-text.ts';

const JUG = id(1) as VesselId;
const JAR = id(2) as VesselId;
const VAT = id(3) as VesselId;
const BATCH = id(4) as BatchId;
const MOTHER = id(5) as CultureId;
const SHELF = id(6) as ShelfId;
const PLACE = id(7) as PlaceId;
const LOT = id(8) as EntryId;
const DAY = 86_400_000;
/** To the minute, as a field can say it. */
const THEN = NOW_MS - 20 * DAY;
const newBatch = { batchId: BATCH, code: 'CI-26-001', name: 'Still cider', ferment: 'cider' } as const;
const made: Omit<ActOf<'editVessel'>, 'kind' | 'vesselId'> = {
  ...{ name: 'The tall one', silhouette: 'demijohn', capacityUl: 5_000_001, mouth: 'narrow' },
  ...{ material: 'glass', closure: 'airlock', note: 'from the fair' },
};

/** One line of each kind, with as much in it as it can hold. */
const LINES: { readonly [K in Exclude<ActKind, 'reverse' | 'restate'>]: Omit<ActOf<K>, 'kind'> } = {
  addPlace: { placeId: PLACE, name: 'Shed', note: 'dry' },
  editPlace: { placeId: PLACE, name: 'Shed', note: 'damp' },
  addShelf: { shelfId: SHELF, placeId: PLACE, letter: 'B', name: 'Low shelf', positions: 6 },
  editShelf: { shelfId: SHELF, name: 'Low shelf', positions: 7 },
  addVessel: { vesselId: JUG, number: 3, ...made, shelfId: SHELF, position: 4 },
  editVessel: { vesselId: JUG, ...made },
  moveVessel: { vesselId: JUG, shelfId: SHELF, position: 2 },
  retireVessel: { vesselId: JUG, reason: 'cracked' },
  changeClosure: { vesselId: JUG, closure: 'cloth' },
  addCulture: {
    ...{ cultureId: MOTHER, name: 'Old Bess', sort: 'mother', source: 'a neighbour', note: 'thick' },
    parentCultureId: id(9) as CultureId,
    standing: { vesselId: JAR, volumeUl: 1_500_000, batchId: BATCH, code: 'MO-26-001' },
  },
  editCulture: { cultureId: MOTHER, name: 'Old Bess', sort: 'mother', source: 'the hall', note: '' },
  feedCulture: { cultureId: MOTHER, text: '200 ml of cider' },
  keepBatchFilter: { filterId: id(10), name: 'Ciders', filter: { text: 'cider' } } as never,
  editBatchFilter: { filterId: id(10), name: 'Ciders', filter: { text: 'cider' } } as never,
  dropBatchFilter: { filterId: id(10) } as never,
  startBatch: {
    ...{ batchId: BATCH, code: 'CI-26-001', name: 'Windfall', ferment: 'cider', vesselId: JUG },
    ...{ volumeUl: 4_500_000, stage: 'waiting', note: 'cold day', repeatsBatchId: id(11) as BatchId },
    ingredients: [
      { name: 'apples', amountTyped: '7 kg', massUg: 7_000_000_000, costHundredths: 450 },
      { name: 'sugar', amountTyped: 'a handful', massUg: null },
      { name: 'honey', amountTyped: '', massUg: 250_000_001 },
    ],
    measured: {
      ...{ ...NOTHING_READ, gravitySg: 1.052, gravityInstrument: 'hydrometer', temperatureCelsius: 24 },
      ...{ gravityCalibrationCelsius: 15.6, ph: 3.41, phMethod: 'meterToday' },
      detail: { ...NOTHING_SAID, phUncertainty: 0.05 },
    },
  },
  editBatch: { batchId: BATCH, name: 'Windfall', ferment: 'cider', note: 'dry' },
  addTo: {
    ...{ vesselId: JUG, what: 'spirit', volumeUl: 300_000, alcoholPercentVolume: 41.5 },
    ingredient: { name: 'plum spirit', amountTyped: '300 ml', massUg: null, costHundredths: 120 },
  },
  seed: {
    ...{ vesselId: JUG, cultureId: MOTHER, fromVesselId: JAR, volumeUl: 300_000, what: '' },
    toStage: 'vinegar',
  },
  pitchYeast: { vesselId: JUG, cultureId: null, yeast: 'cider yeast', massUg: 5_000_000 },
  recordReading: {
    vesselId: JUG,
    values: {
      ...{ ...NOTHING_READ, gravitySg: 1.0123456789, gravityInstrument: 'refractometer' },
      ...{ gravityCalibrationCelsius: 20, temperatureCelsius: 19.5, ph: 3.4, phMethod: 'narrowStrip' },
      ...{
        acidityGramsPer100Ml: 5.2,
        acidityAs: 'acetic',
        acidityMethod: 'burette',
        acidityUncertainty: 0.1,
      },
      ...{ volumeUl: 4_300_000, freeSulfiteMgPerL: 30, alcoholPercentVolume: 5.5, taste: 'sharp' },
      detail: {
        ...{ titration: null, acidityBasis: 'w/v', fixedAcidGramsPer100Ml: 0.3, gravityUncertainty: 0.002 },
        ...{ phUncertainty: 0.1, phSampleFrom: 'brine', phEquilibriumShown: true, saltPercent: 2.5 },
        ...{ alcoholMethod: 'ebulliometer', alcoholUncertainty: 0.4, totalSulfiteMgPerL: 80 },
      },
    },
  },
  changeStage: { vesselId: JUG, stage: 'held', reason: 'a film on top' },
  transfer: {
    ...{ fromVesselId: JUG, toVesselId: JAR, volumeUl: 1_234_567, leesUl: 200_000, newBatch },
    toStage: 'settling',
  },
  split: {
    ...{ fromVesselId: JUG, leesUl: 100_000 },
    parts: [
      { toVesselId: JAR, volumeUl: 1_000_000, newBatch, toStage: 'maturing' },
      { toVesselId: VAT, volumeUl: 1_333_333, newBatch: null, toStage: null },
    ],
  },
  blend: {
    ...{ toVesselId: VAT, newBatch, toStage: 'settling' },
    parts: [
      { fromVesselId: JUG, volumeUl: 1_000_000 },
      { fromVesselId: JAR, volumeUl: 2_000_000 },
    ],
  },
  drawAndRefill: {
    ...{ vesselId: VAT, drawnUl: 1_500_000, toVesselId: JAR, newBatch, toStage: 'ready' },
    ...{ fromVesselId: JUG, refillUl: 1_400_000 },
  },
  drawOff: { vesselId: JUG, volumeUl: 250_000, purpose: 'for the kitchen' },
  bottle: { vesselId: JUG, bottles: 5, bottleUl: 750_000, lossUl: 100_000, note: 'cold' },
  discard: { vesselId: JUG, volumeUl: 250_000, reason: 'mouldy' },
  settleVolume: { vesselId: JUG, volumeUl: 4_100_000, cause: 'evaporation' },
  sample: { vesselId: JUG, volumeUl: 100_000, purpose: 'titration', note: 'twice' },
  filter: { vesselId: JUG, how: 'pads', lossUl: 80_000, note: 'slow' },
  cleanVessel: { vesselId: JUG, how: 'sanitised', restUntilMs: THEN + 5 * DAY, note: 'dry' },
  lendVessel: { vesselId: JUG, holder: 'the neighbour', note: 'full' },
  takeBottles: { lotId: LOT, bottles: 2, how: 'given', holder: 'the neighbour', note: 'labels on' },
  returnBottles: {
    ...{ lotId: LOT, bottles: 2, toVesselId: JAR, lossUl: 50_000, toStage: 'held', note: 'cloudy' },
  },
  reconcile: {
    ...{ vesselId: JUG, readingId: LOT, note: 'by the reading' },
    steps: [{ kind: 'sour', sugarUg: 1_000_000 }],
  },
  quarantine: {
    ...{ root: { kind: 'batch', batchId: BATCH }, vesselIds: [JUG], lotIds: [LOT], reason: 'a moth' },
  },
  releaseBottles: { lotId: LOT, reason: 'heated and clear' },
  tellFacts: { vesselId: JUG, facts: {} },
  heat: { vesselId: JUG, reachedCelsius: 65.5, minutes: 30, note: 'steel pot' },
  overrule: { vesselId: JUG, use: 'pickling', reason: 'for the cat' },
  note: { about: { kind: 'vessel', vesselId: JUG }, text: 'smells of pears' },
  addPhoto: {
    ...{ about: { kind: 'batch', batchId: BATCH }, checksum: 'a'.repeat(64), widthPx: 40, heightPx: 30 },
    caption: 'the first day',
  },
  editCaption: { photoId: LOT, caption: 'the second day' },
  tasteNote: {
    ...{ about: { kind: 'vessel', vesselId: JUG }, words: [], score: 4, text: 'round', by: 'a guest' },
  },
};
const linesOf = Object.entries(LINES).map(([kind, rest]) => ({ kind, act: { kind, ...rest } as Act }));

const lineOf = (act: Act, more: Partial<EntryRow> = {}): EntryRow =>
  entryOf(act, { happenedAtMs: THEN, ...more });
const given = (house: HouseUnits) => ({ house, currency: '', localTime: LOCAL_TIME });

function reader(fields: Readonly<Record<string, string>>, house: HouseUnits): FormReader {
  const text = { fields, kept: fields, house, localTime: LOCAL_TIME };
  return new FormReader({ ...text, nowMs: NOW_MS, correctsMs: THEN });
}

/** What a form makes of its fields, as its dialog calls it. */
function built(
  { request, fields }: Refilled,
  act: Act,
  house: HouseUnits,
): { act: ActDraft; read: FormReader } {
  const read = reader(fields, house);
  const made = buildAs(request, read, act);
  const own = Array.isArray(made)
    ? (made as Step[]).map((step) => step([])).find((a) => a.kind === act.kind)
    : made;
  return { act: own as ActDraft, read };
}

function buildAs(request: Refilled['request'], read: FormReader, act: Act): ActDraft | readonly Step[] {
  const calibration = { hydrometerCalibrationCelsius: 20 };
  const vesselId = 'vesselId' in request ? (request.vesselId as VesselId) : JUG;
  switch (request.kind) {
    case 'reading':
      return buildReading(read, calibration);
    case 'titrate':
      return buildTitration(read, vesselId);
    case 'addPlace':
      return places.buildAddPlace(read);
    case 'editPlace':
      return places.buildEditPlace(read, request.placeId);
    case 'addShelf':
      return places.buildAddShelf(read);
    case 'editShelf':
      return places.buildEditShelf(read, request.shelfId);
    case 'addVessel':
      return vessels.buildAddVessel(read, null);
    case 'editVessel':
      return vessels.buildEditVessel(read, vesselId);
    case 'moveVessel':
      return vessels.buildMoveVessel(read, vesselId, null);
    case 'retireVessel':
      return { kind: 'retireVessel', vesselId, reason: read.note('reason') };
    case 'changeClosure':
      return buildClosure(read, { vesselId, filled: true, before: {} });
    case 'addCulture':
      return batches.buildAddCulture(read);
    case 'editCulture':
      return batches.buildEditCulture(read, request.cultureId);
    case 'feedCulture':
      return batches.buildFeedCulture(read, request.cultureId);
    case 'startBatch':
      return batches.buildStartBatch(read, calibration);
    case 'editBatch':
      return batches.buildEditBatch(read, request.batchId);
    case 'addTo':
      return liquid.buildAddTo(read, vesselId);
    case 'seed':
      return batches.buildSeed(read);
    case 'pitchYeast':
      return batches.buildPitchYeast(read, vesselId);
    case 'changeStage':
      return liquid.buildChangeStage(read, vesselId);
    case 'transfer':
      return liquid.buildTransfer(read, { receiverHolds: false });
    case 'split':
      return buildSplit(read, () => false);
    case 'blend':
      return buildBlend(read, { receiverHolds: false });
    case 'drawAndRefill':
      return buildDrawAndRefill(read, { vesselId, heldUl: null, receiverHolds: false });
    case 'drawOff':
      return liquid.buildDrawOff(read, vesselId);
    case 'discard':
      return liquid.buildDiscard(read, vesselId);
    case 'bottle':
      return liquid.buildBottle(read, vesselId);
    case 'settleVolume':
      return liquid.buildSettle(read, vesselId, null);
    case 'sample':
      return upkeep.buildSample(read, vesselId);
    case 'filter':
      return upkeep.buildFilter(read, vesselId);
    case 'cleanVessel':
      return upkeep.buildClean(read, vesselId);
    case 'lendVessel':
      return upkeep.buildLend(read, vesselId, { isOut: true });
    case 'note':
      return batches.buildNote(read, request.about);
    case 'taste':
      return buildTasting(read, request.about);
    case 'editCaption':
      return { kind: 'editCaption', photoId: request.photoId, caption: read.line('caption', 240) };
    case 'correct':
      return buildPlain(read, act);
    default:
      throw new Error(`no form is refilled as ${request.kind}`);
  }
}

const correcting = (act: Act, { fields }: Refilled): Correcting => ({
  ...{ entryId: LOT, says: '', act, happenedAtMs: THEN, fields, names: {}, mayStay: false },
  taken: () => undefined,
});

function told(act: Act, refilled: Refilled, house: HouseUnits): { act: ActDraft; wrong: unknown[] } {
  const { act: made, read } = built(refilled, act, house);
  return { act: toldAnew(correcting(act, refilled), made, refilled.fields), wrong: read.problems };
}

const SMALL: readonly string[] = [
  ...['keepBatchFilter', 'editBatchFilter', 'dropBatchFilter', 'takeBottles', 'returnBottles', 'reconcile'],
  ...['quarantine', 'releaseBottles', 'tellFacts', 'heat', 'overrule', 'addPhoto'],
];

/** As the book keeps it: a field that is there but undefined is not. */
const plain = (value: unknown): unknown => JSON.parse(JSON.stringify(value));

describe.each([
  ['metric', METRIC_HOUSE],
  ['US', { volume: 'us', temperature: 'F', gravity: 'Bx' } as const],
])('in a %s house', (_, house) => {
  test.each(linesOf)('the form of $kind, filled in again, says the same', ({ kind, act }) => {
    const own = refillOwnForm(lineOf(act), given(house));
    expect(own === null).toBe(SMALL.includes(kind));
    const refilled = own ?? refillSmallForm(lineOf(act), given(house));
    const { act: said, wrong } = told(act, refilled, house);
    expect(wrong).toEqual([]);
    const was = plain(draftOf(act));
    // An amount that was only understood is written out.
    if (kind === 'startBatch')
      Object.assign((was as { ingredients: object[] }).ingredients[2] ?? {}, { amountTyped: '250.000001 g' });
    expect(plain(said)).toEqual(was);
    expect(refilled.fields['happenedAtMs']).toBe('2026-11-05 14:02');
  });

  test.each(linesOf)('the small form of $kind says the same', ({ act }) => {
    const refilled = refillSmallForm(lineOf(act), given(house));
    const { act: said, wrong } = told(act, refilled, house);
    expect(wrong).toEqual([]);
    expect(plain(said)).toEqual(plain(draftOf(act)));
  });
});

describe('what was typed', () => {
  const drawn = { kind: 'drawOff', vesselId: JUG, volumeUl: 946_353, purpose: '' } as const;

  test('is put back where it still reads as the same', () => {
    const typed = { volumeUl: '1 qt', happenedAtMs: 'yesterday 18:00' };
    const refilled = refillOwnForm(lineOf(drawn, { typed }), given(METRIC_HOUSE));
    expect(refilled?.fields).toMatchObject({ volumeUl: '1 qt', happenedAtMs: '2026-11-05 14:02' });
  });

  test('is not, where it reads otherwise by now', () => {
    const refilled = refillOwnForm(lineOf(drawn, { typed: { volumeUl: '2 qt' } }), given(METRIC_HOUSE));
    expect(refilled?.fields['volumeUl']).toBe('946.353 ml');
  });

  test('a chalked line stands whole, and nothing beside it', () => {
    const act = Act.parse({
      kind: 'recordReading',
      vesselId: JUG,
      values: {
        ...{ ...NOTHING_READ, gravitySg: 1.012, gravityInstrument: 'hydrometer' },
        ...{ gravityCalibrationCelsius: 20, temperatureCelsius: 19 },
      },
    });
    const line = lineOf(act, { typed: { quick: '1.012 19C' } });
    expect(refillOwnForm(line, given(METRIC_HOUSE))?.fields).toMatchObject({
      ...{ quick: '1.012 19C', gravitySg: '', temperatureCelsius: '' },
    });
    const other = lineOf(act, { typed: { quick: '1.021 19C' } });
    expect(refillOwnForm(other, given(METRIC_HOUSE))?.fields).toMatchObject({
      ...{ quick: '', gravitySg: '1.012 SG', temperatureCelsius: '19 C' },
    });
  });
});

describe('a titration', () => {
  const done: TitrationDone = {
    ...{ kit: 'burette', acid: 'acetic', sampleMl: 5, titrantMl: [8.3, 8.35], blankMl: 0.1 },
    normality: 0.1,
  };
  const worked = workOut(done);
  if (!worked.ok) throw new Error('cannot be worked out');
  const titration = {
    ...{ sampleMl: 5, titrantMl: [8.3, 8.35], blankMl: 0.1, normality: 0.1, baseNewlyOpened: true },
    ...{ baseCheckedAtMs: THEN - DAY, baseBoughtAtMs: null, endPoint: 'colour', darkSample: false },
    ...{ fizzySample: true, degassed: true },
  } as const;
  const acidity = {
    ...{ acidityGramsPer100Ml: worked.value.result.acidity, acidityAs: 'acetic', acidityMethod: 'burette' },
    acidityUncertainty: worked.value.promisesTooMuch ? null : worked.value.result.uncertainty,
    detail: { ...NOTHING_SAID, titration, acidityBasis: 'w/v' },
  } as const;
  const of = (values: object): Act =>
    Act.parse({ kind: 'recordReading', vesselId: JUG, values: { ...NOTHING_READ, ...values } });

  test('goes back to its own form, at the last step', () => {
    const act = of(acidity);
    const refilled = refillOwnForm(lineOf(act), given(METRIC_HOUSE));
    expect(refilled?.request).toEqual({ kind: 'titrate', vesselId: JUG });
    if (refilled === null) return;
    const { act: said, wrong } = told(act, refilled, METRIC_HOUSE);
    expect(wrong).toEqual([]);
    expect(said).toEqual(draftOf(act));
  });

  test('beside other values it stays tied to its acidity', () => {
    const act = of({
      ...acidity,
      gravitySg: 1.01,
      gravityInstrument: 'hydrometer',
      gravityCalibrationCelsius: 20,
    });
    const refilled = refillOwnForm(lineOf(act), given(METRIC_HOUSE));
    expect(refilled?.request).toEqual({ kind: 'reading' });
    if (refilled === null) return;
    expect(told(act, refilled, METRIC_HOUSE).act).toEqual(draftOf(act));
    const fields = { ...refilled.fields, acidityGramsPer100Ml: '4 %' };
    const other = toldAnew(
      correcting(act, refilled),
      built({ ...refilled, fields }, act, METRIC_HOUSE).act,
      fields,
    );
    expect(other).toMatchObject({ values: { acidityGramsPer100Ml: 4, detail: { titration: null } } });
  });
});

test('a line told anew before is filled in as it now reads', () => {
  const act = { kind: 'drawOff', vesselId: JUG, volumeUl: 250_000, purpose: '' } as const;
  const restated = {
    ...{ act: { ...act, volumeUl: 500_000 }, happenedAtMs: THEN + DAY, names: {} },
    ...{ correctedAtMs: NOW_MS, reason: '' },
  };
  const refilled = refillOwnForm(
    lineOf(act, { restated, typed: { volumeUl: '250 ml' } }),
    given(METRIC_HOUSE),
  );
  expect(refilled?.fields).toMatchObject({ volumeUl: '500 ml', happenedAtMs: '2026-11-06 14:02' });
});

test('the wrong vessel is put right beside a form that takes it for given', () => {
  for (const { kind, act } of linesOf) {
    const refilled =
      refillOwnForm(lineOf(act), given(METRIC_HOUSE)) ?? refillSmallForm(lineOf(act), given(METRIC_HOUSE));
    if (refilled.fields[CORRECTED_VESSEL] === undefined) continue;
    const fields = { ...refilled.fields, [CORRECTED_VESSEL]: JAR };
    const said = toldAnew(correcting(act, refilled), built(refilled, act, METRIC_HOUSE).act, fields);
    expect([kind, 'about' in said ? said.about : said]).toMatchObject([kind, { vesselId: JAR }]);
    expect(ActDraft.safeParse(said).success).toBe(true);
  }
});
