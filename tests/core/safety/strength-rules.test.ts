import { describe, expect, it } from 'vitest';
import type { SafetyFacts } from '#core/safety/facts.ts';
import { acidity, CLEAN, DAY, event, HOUR, NOW, other, says, titrated, word } from './given.ts';

const vinegar = { product: 'vinegar', rawMaterial: 'juice' } as const;

describe('[VIN-03] wine vinegar in the EU', () => {
  const of = (value: number | null, change: Partial<SafetyFacts> = {}) =>
    says('VIN-03', 'labelAsVinegar', {
      jurisdiction: 'eu',
      alcoholicBase: 'wine',
      measurements: value === null ? [] : [titrated(value)],
      ...change,
    });
  it.each([
    [6.5, 'ok met'],
    [6, 'unknown_measure_first straddles'],
    [5.5, 'do_not wrong_side'],
    [null, 'unknown_measure_first missing'],
  ] as const)('at %s: %s', (value, expected) => expect(of(value)).toBe(expected));
  it('stale is not known; elsewhere and for other bases it says nothing', () => {
    expect(of(6.5, { compositionEvents: [event('blend', NOW)] })).toBe('unknown_measure_first stale_event');
    expect(of(6.5, { jurisdiction: 'us' })).toBeUndefined();
    expect(of(6.5, { alcoholicBase: 'other' })).toBeUndefined();
  });
});

describe('[VIN-04] alcohol left over', () => {
  const of = (
    value: number | null,
    base: 'wine' | 'fortifiedWine' | 'other' | null,
    jurisdiction: 'eu' | 'us' | null = 'eu',
  ) =>
    says('VIN-04', 'labelAsVinegar', {
      jurisdiction,
      alcoholicBase: base,
      measurements:
        value === null ? [] : [other('alcohol', value, { uncertainty: 0.1, method: 'alcoholLaboratory' })],
    });
  it.each([
    [0.3, 'other', 'ok met'],
    [0.5, 'other', 'unknown_measure_first straddles'],
    [0.8, 'other', 'do_not wrong_side'],
    [0.8, null, 'do_not wrong_side'],
    [1.3, 'wine', 'ok met'],
    [1.5, 'wine', 'unknown_measure_first straddles'],
    [2, 'wine', 'do_not wrong_side'],
    [2.8, 'fortifiedWine', 'ok met'],
    [3.3, 'fortifiedWine', 'do_not wrong_side'],
    [null, 'other', 'unknown_measure_first missing'],
  ] as const)('%s % vol of %s: %s', (value, base, expected) => expect(of(value, base)).toBe(expected));
  it('is no rule in the US, and cannot clear where no country is chosen', () => {
    expect(of(3, 'other', 'us')).toBeUndefined();
    expect(of(0.3, 'other', null)).toBe('unknown_measure_first missing');
  });
});

describe('[VIN-06] the name of a vinegar', () => {
  it.each([
    ['juice', 'ok met'],
    ['scrapAndSugarWater', 'caution condition'],
    ['aceticAcid', 'do_not category'],
    [null, 'unknown_measure_first missing'],
  ] as const)('from %s: %s', (rawMaterial, expected) =>
    expect(says('VIN-06', 'labelAsVinegar', { rawMaterial })).toBe(expected),
  );
  it('is a matter of the label, not of poison', () => {
    expect(word('labelAsVinegar', { rawMaterial: 'aceticAcid', measurements: [titrated(5)] })).toBe(
      'notShownSafeYet',
    );
  });
});

describe('[VIN-07] grain', () => {
  it('is ten times the per cent, and nothing without a number', () => {
    expect(says('VIN-07', 'labelAsVinegar', { grainClaim: { grain: 40 } })).toBe('ok met');
    expect(says('VIN-07', 'labelAsVinegar', { grainClaim: { grain: null } })).toBe(
      'unknown_measure_first unit_ambiguous',
    );
    expect(says('VIN-07', 'labelAsVinegar', { grainClaim: { grain: 0 } })).toBe(
      'unknown_measure_first unit_ambiguous',
    );
    expect(says('VIN-07', 'labelAsVinegar')).toBeUndefined();
  });
});

describe('[VIN-08] very strong acid', () => {
  it.each([
    [9, 'ok met'],
    [9.9, 'caution condition'],
    [12, 'caution condition'],
    [14.9, 'unknown_measure_first straddles'],
    [15.5, 'unknown_measure_first implausible'],
    [null, 'unknown_measure_first missing'],
  ] as const)('at %s: %s', (value, expected) =>
    expect(
      says('VIN-08', 'dressSalad', { ...vinegar, measurements: value === null ? [] : [titrated(value)] }),
    ).toBe(expected),
  );
});

describe('[VIN-09] vinegar in store', () => {
  const of = (
    value: number | null,
    place: 'refrigerator' | 'warmShelf' | null,
    closedTight: boolean | null = true,
  ) =>
    says('VIN-09', 'keep', {
      ...vinegar,
      storage: { place, closedTight, testedProcess: null },
      measurements: value === null ? [] : [titrated(value)],
    });
  it.each([
    [4.5, null, 'ok met'],
    [4, 'refrigerator', 'caution condition'],
    [3.5, 'refrigerator', 'caution condition'],
    [3, 'refrigerator', 'unknown_measure_first straddles'],
    [2.5, 'warmShelf', 'do_not category'],
    [2.5, 'refrigerator', 'caution condition'],
    [2.5, null, 'unknown_measure_first missing'],
    [null, 'refrigerator', 'unknown_measure_first missing'],
  ] as const)('%s % in %s: %s', (value, place, expected) => expect(of(value, place)).toBe(expected));
  it('weak and warm is allowed only open, and a reckoning clears nothing', () => {
    expect(of(2.5, 'warmShelf', false)).toBe('caution condition');
    expect(of(2.5, 'warmShelf', null)).toBe('do_not category');
    const measurements = [acidity(5, { provenance: 'calculated' })];
    expect(says('VIN-09', 'keep', { ...vinegar, measurements })).toBe(
      'unknown_measure_first calculated_only',
    );
  });
  it('stale is not known', () => {
    const measurements = [titrated(5, { takenAtMs: NOW - 200 * DAY })];
    expect(says('VIN-09', 'keep', { ...vinegar, measurements })).toBe('unknown_measure_first stale_age');
  });
});

describe('[VIN-10] vinegar eels', () => {
  it.each([
    ['absent', 'giveAway', 'ok met'],
    ['present', 'giveAway', 'do_not category'],
    ['present', 'keepAsCulture', 'caution condition'],
    [null, 'giveAway', 'unknown_measure_first missing'],
    [null, 'keepAsCulture', 'unknown_measure_first missing'],
  ] as const)('%s for %s: %s', (eels, use, expected) =>
    expect(says('VIN-10', use, { ...vinegar, inspection: { ...CLEAN, eels } })).toBe(expected),
  );
});

describe('[VIN-11] finished vinegar left on an open mother', () => {
  const open = { ...vinegar, openToAir: true, liveCulture: true, bottledFull: false } as const;
  const of = (change: Partial<SafetyFacts>) => says('VIN-11', 'labelAsVinegar', { ...open, ...change });
  it('steady is met, falling forbids the label, a month asks again', () => {
    const steady = [titrated(5, { takenAtMs: NOW - 5 * DAY }), titrated(4.9)];
    expect(of({ alcoholSpentAtMs: NOW - 10 * DAY, measurements: steady })).toBe('ok met');
    expect(of({ alcoholSpentAtMs: NOW - 31 * DAY, measurements: steady })).toBe('caution ageing');
    const falling = [titrated(5.4, { takenAtMs: NOW - 5 * DAY }), titrated(4.9)];
    expect(of({ alcoholSpentAtMs: NOW - 10 * DAY, measurements: falling })).toBe('do_not falling');
  });
  it('a slow fall is seen against any reading since the last change, not only the one before', () => {
    const slow = [5.4, 5.2, 5, 4.8].map((value, i) => titrated(value, { takenAtMs: NOW - (4 - i) * DAY }));
    expect(of({ alcoholSpentAtMs: NOW - 10 * DAY, measurements: slow })).toBe('do_not falling');
    const watered = { compositionEvents: [event('addWater', NOW - 1.5 * DAY)] };
    expect(of({ alcoholSpentAtMs: NOW - 10 * DAY, measurements: slow, ...watered })).toBe('ok met');
  });
  it('what is not known to be shut or dead counts as open and alive', () => {
    const falling = [titrated(5.4, { takenAtMs: NOW - 5 * DAY }), titrated(4.9)];
    const known = { alcoholSpentAtMs: NOW - 10 * DAY, measurements: falling };
    expect(of({ ...known, openToAir: null, liveCulture: null })).toBe('do_not falling');
    expect(of({ ...known, openToAir: null, liveCulture: false })).toBeUndefined();
  });
  it('not measured since the alcohol was gone is not known', () => {
    const old = [titrated(5, { takenAtMs: NOW - 12 * DAY })];
    expect(of({ alcoholSpentAtMs: NOW - 10 * DAY, measurements: old })).toBe('unknown_measure_first missing');
    expect(of({ alcoholSpentAtMs: NOW + HOUR, measurements: old })).toBe('unknown_measure_first missing');
  });
  it('says nothing of a vinegar that is closed up', () => {
    expect(of({ openToAir: false, alcoholSpentAtMs: NOW - 10 * DAY })).toBeUndefined();
    expect(of({})).toBeUndefined();
  });
});
