import { describe, expect, it } from 'vitest';
import type { InfusedOil, Infusion, Place } from '#core/safety/facts-of-uses.ts';
import type { SafetyFacts } from '#core/safety/facts.ts';
import { acidity, CLEAN, DAY, event, NOW, ph, says, titrated, word } from './given.ts';

const at = (place: Place | null, testedProcess: boolean | null = null) => ({
  place,
  closedTight: null,
  testedProcess,
});

describe('[CAN-04] own recipes', () => {
  it.each([
    ['testedExactly', 'ok met'],
    ['testedSpicesAltered', 'caution condition'],
    ['own', 'do_not category'],
    [null, 'unknown_measure_first missing'],
  ] as const)('%s: %s', (recipe, expected) =>
    expect(says('CAN-04', 'can', { origin: 'bought', boughtLabelPercent: 5, recipe })).toBe(expected),
  );
  it('a good pH does not make an own recipe safe to can', () => {
    const bought = { origin: 'bought', boughtLabelPercent: 5, measurements: [ph(3.2)] } as const;
    expect(word('can', { ...bought, recipe: 'own' })).toBe('doNotUse');
    expect(word('can', { ...bought, recipe: 'testedExactly' })).toBe('meetsTheRule');
  });
});

describe('[CAN-05] home-made vinegar in the kitchen', () => {
  const of = (
    use: 'refrigeratePickle' | 'dressSalad',
    value: number | null,
    change: Partial<SafetyFacts> = {},
  ) =>
    says('CAN-05', use, {
      product: 'vinegar',
      measurements: value === null ? [] : [titrated(value)],
      ...change,
    });
  it.each([
    ['refrigeratePickle', 5.5, 'caution refrigerate_now'],
    ['refrigeratePickle', 5, 'unknown_measure_first straddles'],
    ['refrigeratePickle', 4.5, 'do_not wrong_side'],
    ['refrigeratePickle', 3, 'do_not wrong_side'],
    ['refrigeratePickle', null, 'unknown_measure_first missing'],
    ['dressSalad', 5.5, 'caution condition'],
    ['dressSalad', 4, 'caution condition'],
    ['dressSalad', null, 'unknown_measure_first missing'],
  ] as const)('%s at %s: %s', (use, value, expected) => expect(of(use, value)).toBe(expected));
  it('never on a warm shelf, never by a reckoning, and stale is not known', () => {
    expect(of('refrigeratePickle', 6, { storage: at('warmShelf') })).toBe('do_not category');
    const reckoned = [acidity(6, { provenance: 'calculated' })];
    expect(of('refrigeratePickle', null, { measurements: reckoned })).toBe(
      'unknown_measure_first calculated_only',
    );
    expect(of('refrigeratePickle', 6, { compositionEvents: [event('addWater', NOW)] })).toBe(
      'unknown_measure_first stale_event',
    );
  });
  it('does not speak of bought vinegar', () => {
    expect(of('dressSalad', 5, { origin: 'bought' })).toBeUndefined();
  });
});

describe('[CAN-06] acidified vegetables', () => {
  const of = (value: number | null, change: Partial<SafetyFacts> = {}) =>
    says('CAN-06', 'eat', {
      product: 'refrigeratorPickle',
      storage: at('refrigerator'),
      measurements: value === null ? [] : [ph(value)],
      ...change,
    });
  it.each([
    [4.4, 'ok met'],
    [4.6, 'unknown_measure_first straddles'],
    [4.8, 'do_not wrong_side'],
    [null, 'unknown_measure_first missing'],
  ] as const)('at %s: %s', (value, expected) => expect(of(value)).toBe(expected));
  it('counts 4.6 itself as acid enough', () => {
    expect(of(null, { measurements: [ph(4.5, { uncertainty: 0.1 })] })).toBe('ok met');
  });
  it('only cold, or by a tested process', () => {
    expect(of(4, { storage: at('warmShelf') })).toBe('do_not category');
    expect(of(4, { storage: at('warmShelf', true) })).toBe('ok met');
    expect(of(4, { storage: null })).toBe('unknown_measure_first missing');
  });
  it('of the brine alone, by coarse paper, or by an unchecked meter is not shown', () => {
    expect(of(null, { measurements: [ph(4, { sampleFrom: 'brine' })] })).toBe(
      'unknown_measure_first not_equilibrium',
    );
    const paper = ph(4.2, { method: 'phStripNarrow', uncertainty: null });
    expect(of(null, { measurements: [paper] })).toBe('unknown_measure_first method');
    expect(of(null, { measurements: [ph(4, { method: null })] })).toBe('unknown_measure_first uncalibrated');
  });
});

describe('[INF-01] herbs and fruit in vinegar', () => {
  const sound: Infusion = {
    herbsSanitised: true,
    vinegarHeated: true,
    strained: true,
    garlicOrVegetableLeftIn: false,
    madeAtMs: NOW - 30 * DAY,
  };
  const of = (strength: number | null, place: Place | null, change: Partial<Infusion> = {}) =>
    says('INF-01', 'dressSalad', {
      product: 'infusedVinegar',
      origin: 'bought',
      boughtLabelPercent: strength,
      storage: at(place),
      infusion: { ...sound, ...change },
    });
  it.each([
    [5, 'refrigerator', {}, 'ok met'],
    [5, 'coolCellar', {}, 'ok met'],
    [4.5, 'refrigerator', {}, 'caution condition'],
    [4.5, 'coolCellar', {}, 'do_not category'],
    [3.9, 'refrigerator', {}, 'do_not wrong_side'],
    [null, 'refrigerator', {}, 'unknown_measure_first missing'],
    [5, null, {}, 'unknown_measure_first missing'],
    [5, 'refrigerator', { herbsSanitised: null }, 'unknown_measure_first missing'],
    [5, 'refrigerator', { herbsSanitised: false }, 'caution condition'],
    [5, 'warmShelf', {}, 'do_not category'],
    [3.5, 'warmShelf', { garlicOrVegetableLeftIn: true }, 'do_not category'],
    [5, 'coolCellar', { garlicOrVegetableLeftIn: true }, 'do_not category'],
    [5, 'coolCellar', { madeAtMs: NOW - 100 * DAY }, 'do_not deadline'],
    [5, 'coolCellar', { madeAtMs: NOW - 90 * DAY }, 'ok met'],
    [5, 'coolCellar', { madeAtMs: NOW - 90.1 * DAY }, 'do_not deadline'],
    [5, 'refrigerator', { madeAtMs: NOW - 100 * DAY }, 'ok met'],
    [5, 'refrigerator', { madeAtMs: NOW - 200 * DAY }, 'caution condition'],
    [5, 'refrigerator', { madeAtMs: NOW - 300 * DAY }, 'do_not deadline'],
    [5, 'refrigerator', { madeAtMs: null }, 'unknown_measure_first missing'],
  ] as const)('%s % in %s %j: %s', (strength, place, change, expected) =>
    expect(of(strength, place, change)).toBe(expected),
  );
  it('a label speaks only of what was not cut with water', () => {
    const cut = (addedWater: boolean | null) =>
      says('INF-01', 'dressSalad', {
        ...{ product: 'infusedVinegar', origin: 'bought', boughtLabelPercent: 6, addedWater },
        ...{ storage: at('refrigerator'), infusion: sound },
      });
    expect(cut(false)).toBe('ok met');
    expect(cut(true)).toBe('unknown_measure_first missing');
    expect(cut(null)).toBe('unknown_measure_first missing');
  });
  it('of home-made vinegar takes the low end of its measurement', () => {
    const own = (value: number) =>
      says('INF-01', 'dressSalad', {
        product: 'infusedVinegar',
        measurements: [titrated(value)],
        storage: at('refrigerator'),
        infusion: sound,
      });
    expect(own(5.5)).toBe('ok met');
    expect(own(5.1)).toBe('caution condition');
    expect(own(4.1)).toBe('do_not wrong_side');
  });
});

describe('[INF-02] garlic and herbs in oil', () => {
  const of = (place: Place | null, days: number | null, acidified: InfusedOil['acidified'] = 'none') =>
    says('INF-02', 'eat', {
      product: 'infusedOil',
      storage: at(place),
      infusedOil: { madeAtMs: days === null ? null : NOW - days * DAY, acidified },
    });
  it.each([
    ['refrigerator', 2, 'none', 'caution condition'],
    ['refrigerator', 4, 'none', 'caution condition'],
    ['refrigerator', 4.01, 'none', 'do_not deadline'],
    ['refrigerator', 5, 'none', 'do_not deadline'],
    ['freezer', 90, 'none', 'caution condition'],
    ['warmShelf', 0, 'none', 'do_not category'],
    ['coolCellar', 0, 'none', 'do_not category'],
    ['refrigerator', 1, 'vinegar', 'do_not category'],
    ['warmShelf', 10, 'testedCitric', 'ok met'],
    ['refrigerator', null, 'none', 'unknown_measure_first missing'],
    [null, 1, 'none', 'unknown_measure_first missing'],
    ['refrigerator', 1, null, 'unknown_measure_first missing'],
  ] as const)('%s, %s days, %s: %s', (place, days, acidified, expected) =>
    expect(of(place, days, acidified)).toBe(expected),
  );
});

describe('a verdict for the kitchen', () => {
  it('dresses a salad with home-made vinegar that was looked at, and says why not otherwise', () => {
    const known = { product: 'vinegar', inspection: CLEAN, recipient: 'healthyAdult' } as const;
    expect(word('dressSalad', { ...known, measurements: [titrated(5)] })).toBe('meetsTheRule');
    expect(word('dressSalad', { ...known, inspection: null, measurements: [titrated(5)] })).toBe('notKnown');
    expect(word('dressSalad', known)).toBe('notKnown');
    const fuzzy = { ...CLEAN, growth: 'fuzzyOrColoured' as const };
    expect(word('dressSalad', { ...known, inspection: fuzzy, measurements: [titrated(6)] })).toBe('doNotUse');
  });
});
