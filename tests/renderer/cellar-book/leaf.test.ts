import { describe, expect, test, vi } from 'vitest';
import { Leaf } from '#core/contract/book.ts';
import type { Verdict } from '#core/contract/verdict.ts';
import { HOUSE_RULES_AT_FIRST } from '#core/contract/house-rules.ts';
import { acidityTarget } from '#renderer/cellar-book/acidity-target.ts';
import { sayBatchAge, sayStanding } from '#renderer/words/leaf-words.ts';
import { paperFootRules, quoted } from '#renderer/paper/paper-foot.ts';
import { DAY, idOf } from './sample-readings.ts';

vi.mock('#renderer/backend/call.ts', () => ({ client: {}, backend: {} }));
const { ancestorsOf, newestFirst } = await import('#renderer/cellar-book/leaf-state.svelte.ts');

const START = Date.UTC(2026, 9, 22, 9);
const STANDING = {
  ...{
    vesselId: idOf(1),
    number: 3,
    vesselName: '',
    silhouette: 'jar',
    capacityUl: 2_000_000,
    mouth: 'wide',
  },
  ...{ material: 'glass', closure: 'cloth', shelfId: null, spot: 'A2', position: 2, stage: 'vinegar' },
  ...{
    volumeUl: 1_700_000,
    onLees: false,
    batchId: idOf(9),
    batchCode: 'AV-26-003',
    batchName: 'Apple vinegar 3',
  },
  ...{ ferment: 'fruitVinegar', startedAtMs: START, sinceMs: START, stageSinceMs: START, headline: null },
  ...{ cultureName: null, pull: null, fedAtMs: null, due: null, closureConcern: null },
  ...{ holder: '', cleanedAtMs: null, cleanedHow: null, restUntilMs: null },
};
const leafWith = (more: object): Leaf =>
  Leaf.parse({
    ...{ batchId: idOf(9), code: 'AV-26-003', name: 'Apple vinegar 3', ferment: 'fruitVinegar', note: '' },
    ...{
      startedAtMs: START,
      startedUl: 1_400_000,
      ingredients: [],
      standing: [STANDING],
      spans: [],
      readings: [],
    },
    ...{
      verdicts: [],
      due: [],
      foresight: null,
      origins: [],
      culture: null,
      keepsCultureId: null,
      kin: [],
      lots: [],
    },
    ...{
      cost: { lines: [], soFar: { parts: 0, priced: 0, of: 0 }, standing: null, lots: [], followed: true },
      repeats: null,
      repeatedBy: [],
    },
    ...more,
  });
const plain = (text: string): string => text.replaceAll('\u00A0', ' ');

describe('the head of a leaf', () => {
  test('code, beginning and where it stands', () => {
    expect(plain(sayStanding(leafWith({}), HOUSE_RULES_AT_FIRST))).toBe(
      'AV-26-003 · started 2026-10-22 · in 2 L jar on A2, 1.7 L of 2 L · cloth, air gets in',
    );
    expect(sayBatchAge(leafWith({}), START + 34 * DAY)).toBe('day 34');
  });

  test('several vessels are counted; none is said', () => {
    const two = leafWith({ standing: [STANDING, { ...STANDING, vesselId: idOf(2), volumeUl: 300_000 }] });
    expect(plain(sayStanding(two, HOUSE_RULES_AT_FIRST))).toContain('2 L in 2 vessels');
    const none = leafWith({ standing: [] });
    expect(sayStanding(none, HOUSE_RULES_AT_FIRST)).toContain('stands in no vessel now');
    expect(sayBatchAge(none, START + DAY)).toBe('');
  });
});

describe('the line of a leaf', () => {
  test('each batch it came from speaks until its liquid became the next one', () => {
    const span = (batch: number, day: number): object => ({
      ...{ entryId: idOf(100 + day), batchId: idOf(batch), vesselId: idOf(1) },
      ...{ stage: 'yeast', fromMs: START + day * DAY },
    });
    const leaf = leafWith({ spans: [span(5, -40), span(5, -30), span(6, -20), span(9, 0)] });
    expect(ancestorsOf(leaf)).toEqual([
      { batchId: idOf(5), untilMs: START - 20 * DAY },
      { batchId: idOf(6), untilMs: START },
    ]);
  });

  test('days run newest first by when they happened, not by when they were written', () => {
    const entry = (sequence: number, happenedAtMs: number) => ({ sequence, happenedAtMs }) as never;
    const order = newestFirst([entry(3, 10), entry(1, 30), entry(2, 30)]);
    expect(order.map(({ sequence }) => sequence)).toEqual([2, 1, 3]);
  });
});

describe('the target across the acidity panel', () => {
  const verdict = (use: string, ruleId: string, limit: number | null): Verdict => ({
    ...{ use, word: 'notKnown', measureNext: null, mayBeOverruled: true, keptApart: false, overruled: null },
    findings: [
      {
        ...{ ruleId, verdict: 'unknown_measure_first', reason: 'missing', sayKey: `${ruleId}.missing` },
        ...{ numbers: { limit }, sourceIds: [] },
      },
    ],
  });

  test('is the limit of the labelling rule that speaks', () => {
    expect(acidityTarget([verdict('can', 'CAN-02', 5), verdict('labelAsVinegar', 'VIN-01', 4)])).toEqual({
      ...{ measure: 'acidity', value: 4, label: 'Target 4.0 %, rule VIN-01', shortLabel: 'Target 4.0 %' },
    });
  });

  test('is not drawn when no rule names a number', () => {
    expect(acidityTarget([])).toBeNull();
    expect(acidityTarget([verdict('labelAsVinegar', 'VIN-01', null)])).toBeNull();
  });
});

describe('the foot of a printed page', () => {
  test('holds nothing but the text, whatever a code contains', () => {
    expect(quoted('a"; } body { display: none')).toBe('"a\\22 \\3b  \\7d  body \\7b  display\\3a  none"');
    expect(paperFootRules('AV-26-003', START)).toContain('AV-26-003 \\b7  printed 2026-10-22');
  });
});
