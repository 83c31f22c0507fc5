import { describe, expect, it } from 'vitest';
import type { SecondFerment, Starter } from '#core/safety/facts-of-uses.ts';
import type { SafetyFacts } from '#core/safety/facts.ts';
import { CLEAN, DAY, event, fermentingSince, HOUR, NOW, other, ph, says, word } from './given.ts';

const tea = { product: 'kombucha' } as const;
const since = (days: number) => fermentingSince(NOW - days * DAY);
const alcohol = (value: number, change = {}) =>
  other('alcohol', value, { uncertainty: 0.1, method: 'alcoholLaboratory', ...change });

describe('[KOM-01] acid in a week', () => {
  const of = (value: number | null, days: number | null, change: Partial<SafetyFacts> = {}) =>
    says('KOM-01', 'drink', {
      ...tea,
      ferment: days === null ? null : since(days),
      measurements: value === null ? [] : [ph(value)],
      ...change,
    });
  it.each([
    [4, 3, 'ok met'],
    [4.05, 8, 'ok met'],
    [4.2, 3, 'unknown_measure_first not_yet'],
    [4.5, 6, 'unknown_measure_first not_yet'],
    [4.2, 8, 'unknown_measure_first straddles'],
    [4.5, 7, 'do_not deadline'],
    [4.5, 8, 'do_not deadline'],
    [null, 8, 'unknown_measure_first missing'],
    [4.5, null, 'unknown_measure_first missing'],
  ] as const)('pH %s on day %s: %s', (value, days, expected) => expect(of(value, days)).toBe(expected));
  it('that failed after a week is not rescued by a later reading, unless new tea went in', () => {
    const failed = [ph(4.6, { takenAtMs: NOW - 2 * DAY }), ph(3.5)];
    expect(of(null, 10, { measurements: failed })).toBe('do_not deadline');
    const refilled = [event('refill', NOW - 3 * DAY)];
    expect(of(null, 10, { measurements: failed, compositionEvents: refilled })).toBe('ok met');
    const early = [ph(4.6, { takenAtMs: NOW - 4 * DAY }), ph(3.5)];
    expect(of(null, 10, { measurements: early })).toBe('ok met');
  });
  it('stale is not known; a culture may go on', () => {
    expect(of(3, 8, { compositionEvents: [event('refill', NOW)] })).toBe('unknown_measure_first stale_event');
    expect(says('KOM-01', 'keepAsCulture', { ...tea, ferment: since(3), measurements: [ph(4.5)] })).toBe(
      'caution not_yet',
    );
  });
});

describe('[KOM-02] not too acid to drink', () => {
  const of = (value: number | null) =>
    says('KOM-02', 'drink', { ...tea, measurements: value === null ? [] : [ph(value)] });
  it.each([
    [2.7, 'ok met'],
    [2.5, 'unknown_measure_first straddles'],
    [2.3, 'do_not wrong_side'],
    [null, 'unknown_measure_first missing'],
  ] as const)('pH %s: %s', (value, expected) => expect(of(value)).toBe(expected));
});

const phOf = (value: number) => ({ value, uncertainty: 0.1, method: 'phMeterTwoBuffersToday' }) as const;

describe('[KOM-03] the starter', () => {
  const good: Starter = { percent: 10, mature: true, startPh: phOf(4.2) };
  const of = (change: Partial<Starter> | null) =>
    says('KOM-03', 'startKombucha', { starter: change && { ...good, ...change } });
  it.each([
    [{}, 'ok met'],
    [{ percent: 9 }, 'caution condition'],
    [{ percent: 5 }, 'caution condition'],
    [{ percent: 4.9 }, 'do_not wrong_side'],
    [{ startPh: phOf(4.8) }, 'caution condition'],
    [{ startPh: phOf(5.3) }, 'do_not wrong_side'],
    [{ mature: false }, 'do_not category'],
    [{ mature: null }, 'unknown_measure_first missing'],
    [{ percent: null }, 'unknown_measure_first missing'],
    [{ startPh: null }, 'unknown_measure_first missing'],
    [null, 'unknown_measure_first missing'],
  ] as const)('%j: %s', (change, expected) => expect(of(change)).toBe(expected));
});

describe('[KOM-04] alcohol on the label of kombucha', () => {
  const of = (value: number | null, change: Partial<SafetyFacts> = {}) =>
    says('KOM-04', 'giveAway', {
      ...tea,
      storage: { place: 'refrigerator', closedTight: true, testedProcess: null },
      measurements: value === null ? [] : [alcohol(value)],
      ...change,
    });
  it.each([
    [0.3, {}, 'ok met'],
    [0.5, {}, 'caution print_on_label'],
    [0.8, {}, 'caution print_on_label'],
    [1.5, {}, 'caution print_on_label'],
    [null, {}, 'unknown_measure_first missing'],
    [0.8, { calledAlcoholFree: true }, 'do_not category'],
    [0.5, { calledAlcoholFree: true }, 'do_not category'],
    [null, { calledAlcoholFree: true }, 'do_not category'],
    [0.3, { calledAlcoholFree: true }, 'ok met'],
    [0.3, { storage: null }, 'caution condition'],
  ] as const)('%s % vol %j: %s', (value, change, expected) => expect(of(value, change)).toBe(expected));
  it('a reckoning never says less than "contains alcohol"', () => {
    expect(of(null, { measurements: [alcohol(0.2, { provenance: 'calculated' })] })).toBe(
      'caution print_on_label',
    );
  });
});

describe('[KOM-05] who drinks it raw', () => {
  it.each([
    ['healthyAdult', 'ok met'],
    ['elder', 'caution print_on_label'],
    [null, 'caution print_on_label'],
    ['child', 'do_not category'],
    ['pregnant', 'do_not category'],
    ['weakImmunity', 'do_not category'],
    ['liverOrKidneyIllness', 'do_not category'],
    ['avoidsAlcohol', 'do_not category'],
    ['infant', 'do_not category'],
  ] as const)('%s: %s', (recipient, expected) => {
    expect(says('KOM-05', 'drink', { ...tea, recipient })).toBe(expected);
    expect(says('KOM-05', 'drink', { product: 'vinegar', recipient })).toBe(expected);
  });
});

describe('[KOM-06] a second ferment in the bottle', () => {
  const of = (bottle: 'unrated' | 'heavyBeer' | null, change: Partial<SecondFerment> = {}, cold = true) =>
    says('KOM-06', 'sealInBottle', {
      ...tea,
      sealing: {
        bottle,
        makerRatingVolumes: null,
        primingGramsPerLitre: 0,
        bubbling: null,
        warmedSinceFirstReading: null,
        riseCelsius: null,
        gushed: null,
        carbonated: null,
        headspaceAndSlow: null,
      },
      secondFerment: { sugarGramsPerLitre: 4, daysWarm: 3, ...change },
      storage: { place: cold ? 'refrigerator' : 'coolCellar', closedTight: true, testedProcess: null },
    });
  it('rated and chilled on time, late, unrated, and not known', () => {
    expect(of('heavyBeer')).toBe('ok met');
    expect(of('heavyBeer', { daysWarm: 4 })).toBe('caution condition');
    expect(of('heavyBeer', {}, false)).toBe('caution condition');
    expect(of('unrated')).toBe('do_not category');
    expect(of('heavyBeer', { sugarGramsPerLitre: null })).toBe('unknown_measure_first missing');
    expect(of(null)).toBe('unknown_measure_first missing');
  });
});

describe('[KEF-01] water kefir', () => {
  const of = (value: number | null, hours: number | null) =>
    says('KEF-01', 'drink', {
      product: 'waterKefir',
      ferment: hours === null ? null : fermentingSince(NOW - hours * HOUR),
      measurements: value === null ? [] : [ph(value)],
    });
  it.each([
    [4, 48, 'ok met'],
    [4.2, 48, 'caution condition'],
    [4.4, 48, 'caution condition'],
    [4.6, 48, 'unknown_measure_first not_yet'],
    [4.9, 48, 'unknown_measure_first not_yet'],
    [4.6, 72, 'unknown_measure_first straddles'],
    [4.9, 72, 'do_not wrong_side'],
    [null, 72, 'unknown_measure_first missing'],
    [4.9, null, 'unknown_measure_first missing'],
  ] as const)('pH %s after %s h: %s', (value, hours, expected) => expect(of(value, hours)).toBe(expected));
});

describe('[KEF-02] alcohol of water kefir', () => {
  const of = (value: number | null, change: Partial<SafetyFacts> = {}, hours = 40) =>
    says('KEF-02', 'giveAway', {
      product: 'waterKefir',
      ferment: fermentingSince(NOW - hours * HOUR),
      kefirBase: 'sugarWater',
      measurements: value === null ? [] : [alcohol(value)],
      ...change,
    });
  it('measured, of sugar water, of juice, and not known', () => {
    expect(of(0.3)).toBe('ok met');
    expect(of(0.5)).toBe('caution print_on_label');
    expect(of(1.5, { calledAlcoholFree: true })).toBe('do_not category');
    expect(of(null)).toBe('caution print_on_label');
    expect(of(null, {}, 60)).toBe('unknown_measure_first missing');
    expect(of(null, { kefirBase: 'juice' })).toBe('unknown_measure_first missing');
    expect(of(null, { kefirBase: 'juice', calledAlcoholFree: true })).toBe('do_not category');
    expect(of(null, { calledAlcoholFree: true }, 80)).toBe('do_not category');
  });
});

describe('a verdict for a glass of kombucha', () => {
  const glass = {
    ...tea,
    ferment: since(9),
    measurements: [ph(3.2)],
    recipient: 'healthyAdult',
    inspection: CLEAN,
  } as const;
  it('is met when all is known and never otherwise', () => {
    expect(word('drink', glass)).toBe('meetsTheRule');
    expect(word('drink', { ...glass, measurements: [] })).toBe('notKnown');
    expect(word('drink', { ...glass, inspection: null })).toBe('notKnown');
    expect(word('drink', { ...glass, measurements: [ph(4.1)], ferment: since(3) })).toBe('meetsTheRule');
    expect(word('drink', { ...glass, measurements: [ph(4.4)], ferment: since(3) })).toBe('notShownSafeYet');
    expect(word('drink', { ...glass, measurements: [ph(4.5)] })).toBe('doNotUse');
    expect(word('drink', { ...glass, recipient: 'pregnant' })).toBe('doNotUse');
    expect(word('drink', { ...glass, product: null })).toBe('notKnown');
  });
});
