import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { largestRemainder, muldiv } from '#core/ledger/allocate.ts';

describe('muldiv', () => {
  // Rounding half to even is that of IEEE 754-2019, 4.3.1; the values were worked out with exact fractions by hand.
  it.each([
    [1_000_001, 1, 2, 500_000],
    [3, 1, 2, 2],
    [5, 1, 2, 2],
    [2_633_466_172, 713_321, 4_999_999, 375_701_420],
    [999_999_999_999, 333_333_333, 1_000_000_000, 333_333_333_000],
    [1, 1, 3, 0],
    [2, 1, 3, 1],
    [-3, 1, 2, -2],
  ])('%d × %d / %d = %d', (a, b, c, result) => {
    expect(muldiv(a, b, c)).toBe(result);
  });

  it('refuses what is not a safe integer, and a divisor that is not positive', () => {
    expect(() => muldiv(0.5, 1, 1)).toThrow(RangeError);
    expect(() => muldiv(1, 1, 0)).toThrow(RangeError);
    expect(() => muldiv(Number.MAX_SAFE_INTEGER, 2, 1)).toThrow(RangeError);
  });
});

describe('largestRemainder', () => {
  // Hamilton's method of apportionment, ties to the lower index.
  it.each([
    [10, [1, 1, 1], [4, 3, 3]],
    [100, [3, 3, 1], [43, 43, 14]],
    [1_000_003, [7, 11, 13, 17], [145_834, 229_167, 270_834, 354_168]],
    [1, [5, 5], [1, 0]],
    [0, [1, 2], [0, 0]],
  ])('%d by %j', (total, weights, parts) => {
    expect(largestRemainder(total, weights)).toEqual(parts);
  });

  it('parts always sum to the whole, and none is off by a whole unit', () => {
    const weights = fc
      .array(fc.nat(1e9), { minLength: 1, maxLength: 12 })
      .filter((w) => w.some((x) => x > 0));
    fc.assert(
      fc.property(fc.nat(1e12), weights, (total, w) => {
        const parts = largestRemainder(total, w);
        expect(parts.reduce((a, b) => a + b, 0)).toBe(total);
        const sum = w.reduce((a, b) => a + b, 0);
        parts.forEach((part, i) => {
          expect(Math.abs(part - (total * (w[i] ?? 0)) / sum)).toBeLessThan(1 + 1e-3);
        });
      }),
    );
  });

  it('refuses weights that are all zero or negative', () => {
    expect(() => largestRemainder(5, [0, 0])).toThrow(RangeError);
    expect(() => largestRemainder(5, [-1, 2])).toThrow(RangeError);
  });
});
