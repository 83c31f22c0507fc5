import { describe, expect, test } from 'vitest';
import { STAGES } from '#core/ledger/stage.ts';
import { foreseeMust, sayForeseen } from '#renderer/acts/foresee-must.ts';
import { likelyNextStages, stageAtStart, stageChoices } from '#renderer/acts/next-stages.ts';
import { buildReadingValues, READING_FIELDS } from '#renderer/acts/build-reading.ts';
import { sayTitration } from '#renderer/acts/read-titration.ts';
import { sayKeptBack, sortedFor } from '#renderer/acts/culture-choice.ts';
import { sayLeaving } from '#renderer/acts/plan-words.ts';
import { sayPositions } from '#renderer/acts/shelf-positions.ts';
import { draftKey } from '#renderer/acts/act-request.ts';
import type { CultureRow } from '#core/contract/cultures.ts';
import type { VesselId } from '#core/ledger/ids.ts';
import { METRIC_HOUSE } from '#core/quantities/house-units.ts';
import { id, readerOf } from './form-text.ts';

const measured = (fields: Record<string, string>) =>
  buildReadingValues(readerOf({ ...READING_FIELDS, ...fields }), { hydrometerCalibrationCelsius: 20 });

describe('what a must may become', () => {
  test('names plan and theory, and never promises', () => {
    const foreseen = foreseeMust(measured({ gravitySg: '1.048', temperatureCelsius: '20' }), 'cider');
    expect(foreseen).not.toBeNull();
    if (foreseen === null) return;
    const [alcohol = '', vinegar = ''] = sayForeseen(foreseen).map((line) => line.replaceAll('\u00A0', ' '));
    expect(alcohol).toMatch(/^May become about 6\.\d ± 0\.\d % vol by plan; 6\.\d % in theory\.$/);
    expect(vinegar).toMatch(/at most about [56]\.\d g\/100 mL as acetic by plan; [67]\.\d in theory\.$/);
    expect(foreseen.alcoholTheoryPercent).toBeGreaterThan(foreseen.alcoholPlanPercent);
    expect(foreseen.acidityTheoryGramsPer100Ml).toBeGreaterThan(foreseen.acidityPlanHighGramsPer100Ml * 0.9);
  });

  test('says nothing where nothing can be said', () => {
    expect(foreseeMust(null, 'cider')).toBeNull();
    expect(foreseeMust(measured({ ph: '3.4' }), 'cider')).toBeNull();
    expect(foreseeMust(measured({ gravitySg: '1.048' }), null)).toBeNull();
    expect(foreseeMust(measured({ gravitySg: '1.048' }), 'brinedVegetables')).toBeNull();
    expect(foreseeMust(measured({ gravitySg: '0.998' }), 'cider')).toBeNull();
  });
});

describe('stages in a chooser', () => {
  test('the next on the path of its kind come first', () => {
    expect(likelyNextStages('waiting', 'cider')[0]).toBe('yeast');
    expect(likelyNextStages('waiting', 'brinedVegetables')[0]).toBe('held');
    expect(likelyNextStages('lactic', 'brinedVegetables')[0]).toBe('maturing');
    expect(likelyNextStages('settling', 'fruitVinegar')[0]).toBe('vinegar');
    expect(stageAtStart('kombucha')).toBe('waiting');
    expect(stageAtStart('brinedVegetables')).toBe('lactic');
  });

  test('every stage but the present one and Empty can be chosen, each once', () => {
    for (const stage of STAGES) {
      const { likely, other } = stageChoices(stage, 'fruitVinegar');
      const all = [...likely, ...other].toSorted();
      expect(all).toEqual(STAGES.filter((each) => each !== 'empty' && each !== stage).toSorted());
    }
  });
});

test('the working of a titration is shown with its numbers', () => {
  const read = readerOf({ titrationBaseMl: '8.3', titrationNormality: '0.1', titrationSampleMl: '1' });
  expect(sayTitration(read, 'acetic')).toBe('8.3 mL × 0.1 N × 60.05 ÷ (10 × 1 mL) = 4.98 g/100 mL as acetic');
  expect(sayTitration(readerOf({ titrationBaseMl: '8.3' }), 'acetic')).toBeNull();
});

describe('keeping some mother back', () => {
  const say = (heldUl: number, takenUl: number): string | null =>
    sayKeptBack({ heldUl, takenUl, house: METRIC_HOUSE });

  test('cautions when the jar would be emptied or nearly so', () => {
    expect(say(2_000_000, 2_000_000)).toMatch(/empties the jar/);
    expect(say(2_000_000, 1_900_000)).toMatch(/Only 100.ml stays/);
    expect(say(2_000_000, 300_000)).toBeNull();
    expect(say(2_000_000, 0)).toBeNull();
  });
});

test('cultures that fit are listed first', () => {
  const row = (name: string, sort: CultureRow['sort']) => ({ name, sort }) as CultureRow;
  const rows = [row('Ale yeast', 'yeast'), row('Old Bess', 'mother'), row('Ada', 'mother')];
  expect(sortedFor(rows, ['mother']).map(({ name }) => name)).toEqual(['Ada', 'Old Bess', 'Ale yeast']);
});

test('what leaves the vessels is named', () => {
  const outside = [
    { account: 'lees', deltaUl: 200_000 },
    { account: 'store', deltaUl: -1_000_000 },
    { account: 'air', deltaUl: 0 },
    { account: 'contraction', deltaUl: 35_000 },
  ] as const;
  const said = sayLeaving({ vessels: [], outside: [...outside], asAdded: [] }, METRIC_HOUSE);
  expect(said.map((line) => line.replaceAll('\u00A0', ' '))).toEqual([
    '200 ml left behind as lees',
    '1 L added from outside',
    '35 ml less, as alcohol and water fill less together than apart',
  ]);
});

test('free positions are told in runs', () => {
  expect(sayPositions([1, 3, 4, 5, 8])).toBe('1, 3 to 5, 8');
  expect(sayPositions([])).toBe('');
  expect(sayPositions([1, 3, 5, 7, 9, 11, 13, 15, 17])).toMatch(/15 and more$/);
});

test('each form has a draft of its own', () => {
  const jug = id(1) as VesselId;
  expect(draftKey({ kind: 'reading', vesselId: jug, prefill: '1.010' })).toBe(`reading:${jug}`);
  expect(draftKey({ kind: 'addPlace' })).toBe('addPlace');
  expect(draftKey({ kind: 'note', about: { kind: 'vessel', vesselId: jug } })).toContain(jug);
  expect(draftKey({ kind: 'drawOff', vesselId: jug })).not.toBe(draftKey({ kind: 'discard', vesselId: jug }));
});
