import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { COST_HUNDREDTHS_MAX, parseCost } from '#core/quantities/parse-cost.ts';
import { scaleAmount } from '#core/quantities/scale-amount.ts';

const cost = (text: string, currency = 'kr') => {
  const read = parseCost(text, currency);
  return read.ok ? read.value : read.error.type;
};

describe('a cost as people write it', () => {
  it.each([
    ['4.50', 450],
    ['4,5', 450],
    ['12', 1200],
    ['0', 0],
    ['0,05', 5],
    ['.50', 50],
    ['kr 12', 1200],
    ['12,40 kr', 1240],
    ['12.40KR', 1240],
    ['€4.50', 450],
    ['4,50 €', 450],
    ['EUR 3', 300],
    ["1'234.50", 123_450],
    ['1 234,50', 123_450],
    ['1,234.50', 123_450],
    ['2 1/2', 250],
  ])('%s', (text, hundredths) => {
    expect(cost(text)).toBe(hundredths);
  });

  it.each([
    ['much', 'NotACost'],
    ['4 kg of sugar', 'NotACost'],
    ['', 'NotACost'],
    ['-3', 'Negative'],
    ['4.505', 'FinerThanHundredths'],
    ['1/3', 'FinerThanHundredths'],
    ['10000000.01', 'TooMuch'],
  ])('%s is not taken: %s', (text, type) => {
    expect(cost(text)).toBe(type);
  });

  it('asks where it can be read in two ways', () => {
    expect(parseCost('1,250', '')).toEqual({
      ok: false,
      error: { type: 'TwoWays', plain: ['1.250', '1250'] },
    });
  });

  it('reads back what it would write, to the hundredth, up to the most there can be', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: COST_HUNDREDTHS_MAX }), (hundredths) => {
        const text = `${Math.floor(hundredths / 100)}.${String(hundredths % 100).padStart(2, '0')}`;
        expect(cost(text)).toBe(hundredths);
        expect(cost(`${text} kr`)).toBe(hundredths);
      }),
    );
  });
});

describe('an amount times a factor', () => {
  it.each([
    ['3 kg', 1.5, '4.5 kg'],
    ['1 1/2 cups', 2, '3 cups'],
    ['½ tsp', 3, '1.5 tsp'],
    ['2,5 kg', 2, '5 kg'],
    ['500 g', 1 / 3, '167 g'],
    ['6 apples', 2, '12 apples'],
    ['1 kg', 0.001234, '0.00123 kg'],
    ['750 g', 20, '15000 g'],
    ['3', 2, '6'],
  ])('%s by %d', (amount, factor, scaled) => {
    expect(scaleAmount(amount, factor)).toBe(scaled);
  });

  it.each(['a handful', 'some', '', '1,250 g'])('%s stays as it is', (amount) => {
    expect(scaleAmount(amount, 2)).toBeNull();
  });
});
