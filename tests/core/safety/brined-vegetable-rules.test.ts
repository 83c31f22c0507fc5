import { describe, expect, it } from 'vitest';
import type { Place, Submersion } from '#core/safety/facts-of-uses.ts';
import type { SafetyFacts } from '#core/safety/facts.ts';
import { evaluate } from '#core/safety/evaluate.ts';
import { CLEAN, DAY, event, facts, fermentingSince, gauged, HOUR, NOW, ph, says, word } from './given.ts';

const kraut = { product: 'brinedVegetables' } as const;
const since = (days: number, change = {}) => fermentingSince(NOW - days * DAY, change);

describe('[VEG-01] sour in time', () => {
  const of = (value: number | null, days: number | null, change: Partial<SafetyFacts> = {}) =>
    says('VEG-01', 'eat', {
      ...kraut,
      ferment: days === null ? null : since(days),
      measurements: value === null ? [] : [ph(value)],
      ...change,
    });
  it.each([
    [4.4, 3, 'ok met'],
    [4.5, 3, 'unknown_measure_first not_yet'],
    [4.6, 3, 'unknown_measure_first not_yet'],
    [5.2, 3, 'unknown_measure_first not_yet'],
    [4.4, 8, 'ok met'],
    [4.5, 8, 'do_not deadline'],
    [4.6, 7, 'do_not deadline'],
    [4.6, 6.9, 'unknown_measure_first not_yet'],
    [5.2, 8, 'do_not deadline'],
    [null, 8, 'unknown_measure_first missing'],
    [5.2, null, 'unknown_measure_first missing'],
    [4.0, null, 'ok met'],
  ] as const)('pH %s on day %s: %s', (value, days, expected) => expect(of(value, days)).toBe(expected));
  it('has a fortnight in a cool place that was measured', () => {
    const cool = { ferment: since(10, { meanCelsius: gauged(15, 1) }) };
    expect(of(5, 10, cool)).toBe('unknown_measure_first not_yet');
    expect(of(5, 10, { ferment: since(14, { meanCelsius: gauged(15, 1) }) })).toBe('do_not deadline');
    expect(of(5, 10, { ferment: since(10, { meanCelsius: gauged(17.5, 1) }) })).toBe('do_not deadline');
  });
  it('that missed its day is not rescued by a later reading', () => {
    const late = ph(5, { takenAtMs: NOW - 5 * DAY });
    const failed = { ...kraut, ferment: since(12.5), measurements: [late, ph(4)] };
    expect(says('VEG-01', 'eat', failed)).toBe('do_not deadline');
    expect(says('VEG-01', 'keep', failed)).toBe('do_not deadline');
    const day6 = { ...failed, measurements: [ph(5, { takenAtMs: NOW - 6 * DAY }), ph(4)] };
    expect(says('VEG-01', 'eat', day6)).toBe('ok met');
    // A coarse or guessed number of that day shows nothing either way.
    const strip = { ...failed, measurements: [{ ...late, method: 'phStripWide' as const }, ph(4)] };
    expect(says('VEG-01', 'eat', strip)).toBe('ok met');
    const kimchi = { product: 'kimchi', ferment: since(5), measurements: [late, ph(4)] } as const;
    expect(says('VEG-08', 'eat', kimchi)).toBe('ok met');
    const slow = { ...kimchi, measurements: [ph(5, { takenAtMs: NOW - 2.5 * DAY }), ph(4)] };
    expect(says('VEG-08', 'eat', slow)).toBe('do_not deadline');
  });
  it('that is not yet sour may go on fermenting', () => {
    const jar = { ...kraut, ferment: since(3), measurements: [ph(5)] };
    expect(says('VEG-01', 'keep', jar)).toBe('caution not_yet');
    expect(says('VEG-01', 'eat', jar)).toBe('unknown_measure_first not_yet');
  });
  it('stale, or of the brine alone, is not known', () => {
    expect(of(4, 8, { compositionEvents: [event('addSalt', NOW)] })).toBe(
      'unknown_measure_first stale_event',
    );
    expect(of(null, 8, { measurements: [ph(4, { sampleFrom: 'brine' })] })).toBe(
      'unknown_measure_first not_equilibrium',
    );
  });
});

describe('[VEG-02] stays sour', () => {
  const of = (...values: readonly (readonly [value: number, daysAgo: number])[]) =>
    says('VEG-02', 'keep', {
      ...kraut,
      ferment: since(40),
      measurements: values.map(([value, daysAgo]) => ph(value, { takenAtMs: NOW - daysAgo * DAY - HOUR })),
    });
  it('steady, a little up, up, and back over the limit', () => {
    expect(of([3.5, 10], [3.5, 1])).toBe('ok met');
    expect(of([3.5, 10], [3.6, 1])).toBe('caution condition');
    expect(of([3.5, 10], [3.7, 1])).toBe('do_not falling');
    expect(of([3.5, 10], [4.6, 0])).toBe('do_not wrong_side');
    expect(of([3.4, 30], [3.5, 10], [3.6, 1])).toBe('do_not falling');
  });
  it('without a reading this week is not known', () => {
    expect(of([3.5, 10])).toBe('unknown_measure_first stale_age');
    expect(of()).toBe('unknown_measure_first missing');
  });
});

describe('[VEG-02] a rise', () => {
  it('above a fine reading is not hidden by a coarse one that was lower', () => {
    const earlier = ph(4, { takenAtMs: NOW - 3 * DAY });
    const strip = ph(3.9, { takenAtMs: NOW - 2 * DAY, method: 'phStripNarrow', uncertainty: 0.3 });
    const of = (...before: ReturnType<typeof ph>[]) =>
      says('VEG-02', 'eat', { ...kraut, ferment: since(20), measurements: [...before, ph(4.2)] });
    expect(of(earlier)).toBe('do_not falling');
    expect(of(strip)).toBe('caution condition');
    expect(of(earlier, strip)).toBe('do_not falling');
  });
});

describe('[VEG-03] salt of the whole', () => {
  const of = (saltGrams: number | null, vegetableGrams: number | null = 980, waterGrams: number | null = 0) =>
    says('VEG-03', 'eat', { ...kraut, salting: { saltGrams, vegetableGrams, waterGrams } });
  it.each([
    [25, 'ok met'],
    [20, 'caution condition'],
    // A kitchen scale errs by 2 g: 18 g is 1.8 ± 0.2 %, 16 g 1.6 ± 0.2 %.
    [18, 'caution condition'],
    [16, 'unknown_measure_first straddles'],
    [14.92, 'unknown_measure_first straddles'],
    [12, 'do_not wrong_side'],
    [60, 'caution condition'],
    [120, 'unknown_measure_first implausible'],
    [0, 'do_not wrong_side'],
    [null, 'unknown_measure_first missing'],
  ] as const)('%s g to 980 g of cabbage: %s', (grams, expected) => expect(of(grams)).toBe(expected));
  it('needs all three weights', () => {
    expect(of(25, null)).toBe('unknown_measure_first missing');
    expect(of(25, 980, null)).toBe('unknown_measure_first missing');
    expect(of(0, 0, 0)).toBe('unknown_measure_first missing');
    // Salt and water alone are a brine, and say nothing of the jar.
    expect(of(30, 0, 970)).toBe('unknown_measure_first missing');
    expect(says('VEG-03', 'eat', kraut)).toBe('unknown_measure_first missing');
  });
  it('carries the errors of the scale', () => {
    const weighed = { ...kraut, salting: { saltGrams: 20, vegetableGrams: 800, waterGrams: 180 } };
    const salt = evaluate('eat', facts(weighed)).findings.find(({ ruleId }) => ruleId === 'VEG-03')?.numbers;
    // By hand, ±2 g, ±8 g and ±2 g in 1000 g: √((0.098·2)² + (0.002·8)² + (0.002·2)²) = 0.1967 %.
    expect(salt?.['value']).toBeCloseTo(2, 12);
    expect(salt?.['uncertainty']).toBeCloseTo(0.1967, 4);
  });
  it('counts the vegetables too: 50 g in a litre of water over a kilo is 2.4 %', () => {
    expect(of(50, 1000, 1000)).toBe('ok met');
  });
});

describe('[VEG-04] warmth', () => {
  const of = (celsius: number | null, hoursAbove27Celsius: number | null = 0) =>
    says('VEG-04', 'eat', {
      ...kraut,
      ferment: since(5, { meanCelsius: celsius === null ? null : gauged(celsius), hoursAbove27Celsius }),
    });
  it.each([
    [20, 'ok met'],
    [24, 'caution condition'],
    [26, 'caution condition'],
    [28, 'do_not category'],
    [12, 'caution condition'],
    [9, 'do_not category'],
    [null, 'unknown_measure_first missing'],
  ] as const)('%s °C: %s', (celsius, expected) => expect(of(celsius)).toBe(expected));
  it('a day above 27 °C spoils it, and a mean alone does not show that there was none', () => {
    expect(of(22, 25)).toBe('do_not category');
    expect(of(22, 24)).toBe('ok met');
    expect(of(22, null)).toBe('unknown_measure_first missing');
    expect(of(28, null)).toBe('do_not category');
  });
});

describe('[VEG-05] under the brine', () => {
  const looked: Submersion = {
    checkedAtMs: NOW - DAY,
    covered: true,
    exposedHours: null,
    slimeColourOrMould: null,
  };
  const of = (change: Partial<Submersion> | null, days = 5) =>
    says('VEG-05', 'eat', { ...kraut, ferment: since(days), submersion: change && { ...looked, ...change } });
  it.each([
    [{}, 'ok met'],
    [{ covered: false, exposedHours: 12 }, 'caution condition'],
    [{ covered: false, exposedHours: 24, slimeColourOrMould: true }, 'do_not category'],
    [{ covered: false, exposedHours: 30, slimeColourOrMould: false }, 'caution condition'],
    [{ covered: false, exposedHours: 30 }, 'unknown_measure_first missing'],
    [{ covered: false }, 'unknown_measure_first missing'],
    [{ covered: null }, 'unknown_measure_first missing'],
    [{ checkedAtMs: null }, 'unknown_measure_first missing'],
    [{ checkedAtMs: NOW - 5 * DAY }, 'unknown_measure_first stale_age'],
    [null, 'unknown_measure_first missing'],
  ] as const)('%j: %s', (change, expected) => expect(of(change)).toBe(expected));
  it('is looked at less often after a fortnight', () => {
    expect(of({ checkedAtMs: NOW - 5 * DAY }, 20)).toBe('ok met');
  });
});

describe('[VEG-06] texture and smell', () => {
  it.each([
    ['sound', 'ok met'],
    ['cloudyBrine', 'caution condition'],
    ['slimySoftPinkOrFoul', 'do_not category'],
    [null, 'unknown_measure_first missing'],
  ] as const)('%s: %s', (texture, expected) =>
    expect(says('VEG-06', 'eat', { ...kraut, inspection: { ...CLEAN, texture } })).toBe(expected),
  );
});

describe('[VEG-07] keeping finished ferments', () => {
  const of = (place: Place | null, testedProcess: boolean | null = null) =>
    says('VEG-07', 'keep', { ...kraut, storage: { place, closedTight: true, testedProcess } });
  it('cold, cool, warm and not known', () => {
    expect(of('refrigerator')).toBe('ok met');
    expect(of('coolCellar')).toBe('caution condition');
    expect(of('warmShelf')).toBe('do_not category');
    expect(of('warmShelf', true)).toBe('ok met');
    expect(of(null)).toBe('unknown_measure_first missing');
  });
});

describe('[VEG-08] kimchi', () => {
  const of = (value: number | null, hours: number, inRefrigerator = false) =>
    says('VEG-08', 'eat', {
      product: 'kimchi',
      ferment: fermentingSince(NOW - hours * HOUR, { inRefrigerator }),
      measurements: value === null ? [] : [ph(value)],
    });
  it.each([
    [4.4, 24, false, 'ok met'],
    [4.6, 24, false, 'unknown_measure_first not_yet'],
    [5, 47, false, 'unknown_measure_first not_yet'],
    [4.6, 48, false, 'do_not deadline'],
    [5, 50, false, 'do_not deadline'],
    [5, 50, true, 'unknown_measure_first not_yet'],
    [5, 96, true, 'do_not deadline'],
    [null, 24, false, 'unknown_measure_first missing'],
  ] as const)('pH %s after %d h, cold %s: %s', (value, hours, cold, expected) =>
    expect(of(value, hours, cold)).toBe(expected),
  );
});

describe('[VEG-09] young ferments and people at risk', () => {
  const of = (days: number | null, recipient: SafetyFacts['recipient'] = null, value = 3.6) =>
    says('VEG-09', 'giveAway', {
      product: 'kimchi',
      recipient,
      ferment: days === null ? null : since(days),
      measurements: [ph(value)],
    });
  it.each([
    [15, null, 'ok met'],
    [15, 'elder', 'ok met'],
    [13, null, 'caution print_on_label'],
    [13, 'healthyAdult', 'caution print_on_label'],
    [13, 'elder', 'do_not category'],
    [13, 'infant', 'do_not category'],
    [null, 'elder', 'unknown_measure_first missing'],
  ] as const)('%s days for %s: %s', (days, recipient, expected) =>
    expect(of(days, recipient)).toBe(expected),
  );
  it('is not met by time alone', () => expect(of(20, null, 4.8)).toBe('caution print_on_label'));
});

describe('a verdict for a jar of kraut', () => {
  const jar = {
    ...kraut,
    ferment: since(30, { meanCelsius: gauged(19), hoursAbove27Celsius: 0 }),
    salting: { saltGrams: 25, vegetableGrams: 980, waterGrams: 0 },
    submersion: { checkedAtMs: NOW - DAY, covered: true, exposedHours: null, slimeColourOrMould: null },
    inspection: CLEAN,
    measurements: [ph(3.5)],
  } as const;
  it('is met when all is known, and falls with each thing that is not', () => {
    expect(word('eat', jar)).toBe('meetsTheRule');
    expect(word('eat', { ...jar, measurements: [] })).toBe('notKnown');
    expect(word('eat', { ...jar, salting: null })).toBe('notKnown');
    expect(word('eat', { ...jar, inspection: null })).toBe('notKnown');
    expect(word('eat', { ...jar, submersion: null })).toBe('notKnown');
    expect(word('eat', { ...jar, ferment: null })).toBe('notKnown');
    expect(word('eat', { ...jar, measurements: [ph(4.6)] })).toBe('doNotUse');
    expect(
      word('eat', { ...jar, measurements: [ph(3.2)], inspection: { ...CLEAN, growth: 'fuzzyOrColoured' } }),
    ).toBe('doNotUse');
  });
});
