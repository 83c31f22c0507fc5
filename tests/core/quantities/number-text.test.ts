import fc from 'fast-check';
import { expect, it, test } from 'vitest';
import { plainTyping, readNumber } from '#core/quantities/number-text.ts';
import { rationalOfDecimal, roundToWhole, rational, toNumber } from '#core/quantities/rational.ts';

test.each([
  ['1.5', [1.5]],
  ['1,5', [1.5]],
  ['1,500', [1.5, 1500]],
  ['0,500', [0.5]],
  ['1,500,000', [1_500_000]],
  ['1.500.000', [1_500_000]],
  ['1 500', [1500]],
  ["1'500", [1500]],
  ['1,500.25', [1500.25]],
  ['1.500,25', [1500.25]],
  ['1 1/2', [1.5]],
  ['1½', [1.5]],
  ['⅓', [1 / 3]],
  ['.5', [0.5]],
  ['5.', [5]],
  ['-3', [-3]],
  ['\u22123', [-3]],
  ['+3', [3]],
])('%s', (text, values) => {
  expect(readNumber(plainTyping(text))?.readings.map(({ value }) => toNumber(value))).toEqual(values);
});

test.each(['', 'x', '1.2.3', '1,23,456', '1/0', '..', '-'])('%s is no number', (text) => {
  expect(readNumber(plainTyping(text))).toBeNull();
});

it('keeps a decimal exactly', () => {
  fc.assert(
    fc.property(
      fc.bigInt({ min: -(10n ** 30n), max: 10n ** 30n }),
      fc.integer({ min: 0, max: 20 }),
      (digits, decimals) => {
        const negative = digits < 0n;
        const padded = String(negative ? -digits : digits).padStart(decimals + 1, '0');
        const at = padded.length - decimals;
        const text = `${negative ? '-' : ''}${padded.slice(0, at)}${decimals ? `.${padded.slice(at)}` : ''}`;
        const value = rationalOfDecimal(text);
        expect(value.numerator * 10n ** BigInt(decimals)).toBe(digits * value.denominator);
        expect(toNumber(value)).toBe(Number(text));
      },
    ),
  );
});

it('rounds halves away from zero', () => {
  expect(roundToWhole(rational(1n, 2n))).toBe(1n);
  expect(roundToWhole(rational(-1n, 2n))).toBe(-1n);
  expect(roundToWhole(rational(49n, 100n))).toBe(0n);
  expect(() => rational(1n, 0n)).toThrow();
});
