import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { formatQuantity, formatWithUncertainty, shownText } from '#core/quantities/format-quantity.ts';
import { METRIC_HOUSE, type HouseUnits } from '#core/quantities/house-units.ts';
import { parseQuantity } from '#core/quantities/parse-quantity.ts';
import { roundedText } from '#core/quantities/round.ts';

const US_HOUSE: HouseUnits = { volume: 'us', temperature: 'F', gravity: 'Bx' };
const show = (kind: Parameters<typeof formatQuantity>[0]['kind'], value: number, house = METRIC_HOUSE) =>
  shownText(formatQuantity({ kind, value, house })).replaceAll('\u00A0', ' ');

describe('rounding away from the safe side', () => {
  test.each([
    [3.96, 1, 'lower', '3.9'],
    [4.599, 2, 'upper', '4.60'],
    [4.6, 2, 'lower', '4.60'],
    [4.6, 2, 'upper', '4.60'],
    [4.0, 1, 'lower', '4.0'],
    [4.001, 1, 'upper', '4.1'],
    [4.049, 1, 'none', '4.0'],
    [4.05, 1, 'none', '4.1'],
    [1.005, 2, 'none', '1.01'],
    [-0.25, 1, 'none', '−0.3'],
    [-0.25, 1, 'lower', '−0.3'],
    [-0.25, 1, 'upper', '−0.2'],
    [-0.04, 1, 'none', '0.0'],
    [0.1 + 0.2, 1, 'upper', '0.3'],
    [1e-30, 3, 'none', '0.000'],
    [1e-30, 3, 'upper', '0.001'],
    [1e21, 0, 'none', '1000000000000000000000'],
    [0, 2, 'none', '0.00'],
    [Number.NaN, 2, 'none', '?'],
    [Infinity, 2, 'upper', '?'],
  ] as const)('%d to %d decimals, %s: %s', (value, decimals, side, expected) =>
    expect(roundedText(value, decimals, side)).toBe(expected),
  );

  it('never flatters', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -1e6, max: 1e6, noNaN: true }),
        fc.integer({ min: 0, max: 4 }),
        (value, decimals) => {
          const asNumber = (side: 'lower' | 'upper' | 'none') =>
            Number(roundedText(value, decimals, side).replace('−', '-'));
          const noise = Math.abs(value) * 1e-11;
          expect(asNumber('lower')).toBeLessThanOrEqual(value + noise);
          expect(asNumber('upper')).toBeGreaterThanOrEqual(value - noise);
          expect(Math.abs(asNumber('none') - value)).toBeLessThanOrEqual(
            0.5 * 10 ** -decimals + noise + 1e-12,
          );
        },
      ),
    );
  });
});

describe('a quantity shown', () => {
  test.each([
    ['gravity', 1.048, '1.048'],
    ['gravity', 1, '1.000'],
    ['acidity', 5.2, '5.2 %'],
    ['pH', 3.4, 'pH 3.40'],
    ['volume', 1_500_000, '1.5 L'],
    ['volume', 25_000_000, '25 L'],
    ['volume', 500_000, '500 ml'],
    ['volume', 2_500, '2.5 ml'],
    ['temperature', 21, '21.0 °C'],
    ['mass', 2_000_000_000, '2 kg'],
    ['mass', 12_345_000, '12.3 g'],
    ['freeSulfite', 30, '30 mg/L'],
    ['alcohol', 6.25, '6.3 % vol'],
    ['salt', 2.5, '2.5 %'],
  ] as const)('%s %d: %s', (kind, value, expected) => expect(show(kind, value)).toBe(expected));

  test.each([
    ['gravity', 1.0484, '12.0 °Bx'],
    ['gravity', 0.996, '0.996'],
    ['volume', 3_785_412, '1 gal'],
    ['volume', 1_892_706, '2 qt'],
    ['volume', 354_882, '12 fl oz'],
    ['temperature', 20, '68.0 °F'],
    ['mass', 680_388_555, '1.5 lb'],
    ['mass', 56_699_046, '2 oz'],
  ] as const)('in a US house %s %d: %s', (kind, value, expected) =>
    expect(show(kind, value, US_HOUSE)).toBe(expected),
  );

  it('with its error, which is rounded up', () => {
    const shown = (value: number, uncertainty: number, unit: string, side?: 'lower' | 'upper') =>
      formatWithUncertainty({ value, uncertainty, unit, ...(side ? { side } : {}) }).replaceAll(
        '\u00A0',
        ' ',
      );
    expect(shown(4.1, 0.2, '%')).toBe('4.1 ± 0.2 %');
    expect(shown(4.16, 0.21, '%', 'lower')).toBe('4.1 ± 0.3 %');
    expect(shown(4.123, 0.15, '%')).toBe('4.12 ± 0.15 %');
    expect(shown(1.0483, 0.002, 'SG')).toBe('1.048 ± 0.002');
    expect(shown(123.4, 12, 'g/L')).toBe('123 ± 12 g/L');
    expect(shown(1234, 340, 'ml')).toBe('1234 ± 340 ml');
    expect(shown(5, 0, '%')).toBe('5.000 %');
    expect(shown(5, Number.NaN, '%')).toBe('5.000 %');
  });

  it('reads back as nearly the same volume', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1000, max: 9_000_000_000 }),
        fc.constantFrom(METRIC_HOUSE, US_HOUSE),
        (volume, house) => {
          const parsed = parseQuantity('volume', show('volume', volume, house), house);
          if (!parsed.ok) throw new Error(JSON.stringify(parsed.error));
          expect(Math.abs(parsed.value.value - volume) / volume).toBeLessThan(0.05);
        },
      ),
    );
  });
});
