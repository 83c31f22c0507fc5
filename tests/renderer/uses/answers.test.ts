import { describe, expect, test } from 'vitest';
import { METRIC_HOUSE, US_HOUSE } from './houses.ts';
import type { ToldFacts } from '#core/ledger/told-facts.ts';
import { answerText, isAsked, toldFromForm } from '#renderer/uses/answers.ts';
import { FACT_PATHS, pathsOf } from '#renderer/uses/fact-questions.ts';
import type { FactPath } from '#renderer/words/fact-words.ts';
import { amiss, LOCAL_TIME, NOW_MS, readerOf } from '../acts/form-text.ts';

const given = { house: METRIC_HOUSE, localTime: LOCAL_TIME };
const tell = (fields: Record<string, string>, paths: readonly FactPath[], before: ToldFacts = {}) => {
  const read = readerOf(fields);
  return { facts: toldFromForm(read, { paths, before, atMs: NOW_MS }), amiss: amiss(read) };
};

/** Something told of every group, as a keeper might. */
const TOLD: ToldFacts = {
  recipient: 'child',
  containsHoney: true,
  concentrated: false,
  storage: { place: 'refrigerator', closedTight: true, testedProcess: null },
  salting: { saltGrams: 40.5, vegetableGrams: 1600, waterGrams: 0 },
  ferment: {
    ...{ startedAtMs: NOW_MS - 86_400_000, hoursAbove27Celsius: 2.5, inRefrigerator: false },
    meanCelsius: { value: 21.5, uncertainty: null, method: 'thermometer' },
  },
  submersion: {
    checkedAtMs: NOW_MS - 60_000,
    covered: false,
    exposedHours: 3,
    slimeColourOrMould: false,
  },
};

describe('answers', () => {
  test.each([
    ['metric', METRIC_HOUSE],
    ['US', US_HOUSE],
  ])('read back in %s units give what was told, so that nothing new is told', (_, house) => {
    const fields = Object.fromEntries(
      FACT_PATHS.map((path) => [path, answerText(path, TOLD, { ...given, house })]),
    );
    const read = readerOf(fields, { house });
    expect(toldFromForm(read, { paths: FACT_PATHS, before: TOLD, atMs: NOW_MS })).toEqual({});
    expect(amiss(read)).toEqual([]);
  });

  test('not known is the answer to whatever is left open', () => {
    expect(tell({}, FACT_PATHS)).toEqual({ facts: {}, amiss: [] });
    expect(tell({ 'storage.place': 'freezer' }, pathsOf('storage')).facts).toEqual({
      storage: { place: 'freezer', closedTight: null, testedProcess: null },
    });
  });

  test('a group keeps what is not asked again, and what is untold again is gone', () => {
    expect(tell({ 'storage.closedTight': 'no' }, ['storage.closedTight'], TOLD).facts).toEqual({
      storage: { place: 'refrigerator', closedTight: false, testedProcess: null },
    });
    expect(tell({ 'storage.place': '' }, ['storage.place'], TOLD).facts.storage?.place).toBeNull();
    const single = tell({ recipient: '' }, ['recipient'], TOLD);
    expect(single).toEqual({ facts: {}, amiss: ['recipient'] });
  });

  test('a question without a point has no answer', () => {
    expect(isAsked('sealing.makerRatingVolumes', {})).toBe(false);
    expect(isAsked('sealing.makerRatingVolumes', { 'sealing.bottle': 'makerRated' })).toBe(true);
    expect(isAsked('submersion.exposedHours', {}, TOLD)).toBe(true);
    const covered = { 'submersion.covered': 'yes', 'submersion.exposedHours': '3' };
    expect(tell(covered, pathsOf('submersion')).facts.submersion).toMatchObject({
      ...{ covered: true, exposedHours: null, slimeColourOrMould: null },
    });
  });

  test.each([
    ['ferment.hoursAbove27Celsius', '20,000 h'],
    ['ferment.meanCelsius', 'warm'],
    ['salting.saltGrams', '3 apples'],
    ['submersion.checkedAtMs', 'tomorrow'],
    ['starter.percent', '120 %'],
    ['sealing.primingGramsPerLitre', '6 oz'],
  ] as const)('%s does not take %s', (path, text) => {
    const result = tell({ [path]: text, 'sealing.bottle': 'light' }, [path]);
    expect(result.amiss).toEqual([path]);
  });

  test('a number that may be twenty or twenty thousand is asked about, never guessed', () => {
    const read = readerOf({ 'ferment.hoursAbove27Celsius': '20,000 h' });
    toldFromForm(read, { paths: ['ferment.hoursAbove27Celsius'], before: {}, atMs: NOW_MS });
    expect(read.problems[0]?.fixes.map(({ text }) => text).sort()).toEqual(['20.000 h', '20000 h']);
  });

  test.each([
    ['ferment.hoursAbove27Celsius', '2,5 hours', 2.5],
    ['starter.percent', '12 %', 12],
    ['secondFerment.daysWarm', '3 d', 3],
    ['heating.minutes', '30 min', 30],
    ['salting.saltGrams', '1 lb', 453.59237],
  ] as const)('%s takes %s', (path, text, value) => {
    const { facts, amiss: wrong } = tell({ [path]: text }, [path]);
    expect(wrong).toEqual([]);
    const [group = '', field = ''] = path.split('.');
    expect((facts as Record<string, Record<string, number>>)[group]?.[field]).toBeCloseTo(value, 5);
  });
});
