import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compareWithLimit } from '#core/safety/limit.ts';

const lower = { side: 'lower', value: 4, inclusive: true } as const;
const upper = { side: 'upper', value: 4.6, inclusive: true } as const;

describe('[MEAS-01] a guard band', () => {
  it.each([
    [4.5, 'clear'],
    [4.25, 'clear'],
    [4.2, 'straddles'],
    [4, 'straddles'],
    [3.8, 'straddles'],
    [3.7, 'fails'],
  ] as const)('lower 4.0 inclusive: %d ± 0.25 %s', (value, expected) =>
    expect(compareWithLimit({ value, uncertainty: 0.25 }, lower)).toBe(expected),
  );

  it.each([
    [4.25, 'clear'],
    [4.3, 'clear'],
    [4.5, 'straddles'],
    [4.6, 'straddles'],
    [5, 'fails'],
  ] as const)('upper 4.6 inclusive: %d ± 0.25 %s', (value, expected) =>
    expect(compareWithLimit({ value, uncertainty: 0.25 }, upper)).toBe(expected),
  );

  it('counts the edge itself only where the rule includes it', () => {
    const touching = { value: 4.5, uncertainty: 0.5 };
    expect(compareWithLimit(touching, { side: 'lower', value: 4, inclusive: true })).toBe('clear');
    expect(compareWithLimit(touching, { side: 'lower', value: 4, inclusive: false })).toBe('straddles');
    expect(compareWithLimit(touching, { side: 'upper', value: 5, inclusive: true })).toBe('clear');
    expect(compareWithLimit(touching, { side: 'upper', value: 5, inclusive: false })).toBe('straddles');
    expect(compareWithLimit(touching, { side: 'lower', value: 5, inclusive: true })).toBe('straddles');
    expect(compareWithLimit(touching, { side: 'lower', value: 5, inclusive: false })).toBe('fails');
    expect(compareWithLimit(touching, { side: 'upper', value: 4, inclusive: true })).toBe('straddles');
    expect(compareWithLimit(touching, { side: 'upper', value: 4, inclusive: false })).toBe('fails');
  });

  it('never clears exactly at the limit, nor with an error of nothing, less, or no number', () => {
    const limits = fc.record({
      side: fc.constantFrom('lower' as const, 'upper' as const),
      value: fc.double({ min: 0, max: 100, noNaN: true }),
      inclusive: fc.boolean(),
    });
    fc.assert(
      fc.property(limits, fc.double({ min: 1e-6, max: 50, noNaN: true }), (limit, uncertainty) => {
        expect(compareWithLimit({ value: limit.value, uncertainty }, limit)).toBe('straddles');
      }),
    );
    fc.assert(
      fc.property(
        limits,
        fc.double(),
        fc.constantFrom(0, -0, -1, Number.NaN, Infinity, -Infinity),
        (limit, value, uncertainty) => {
          expect(compareWithLimit({ value, uncertainty }, limit)).toBe('straddles');
        },
      ),
    );
    fc.assert(
      fc.property(limits, fc.constantFrom(Number.NaN, Infinity, -Infinity), (limit, value) => {
        expect(compareWithLimit({ value, uncertainty: 0.1 }, limit)).toBe('straddles');
      }),
    );
  });

  it('never calls clear what a larger error still calls failing', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 15, noNaN: true }),
        fc.double({ min: 0.01, max: 5, noNaN: true }),
        fc.double({ min: 0, max: 5, noNaN: true }),
        (value, uncertainty, more) => {
          const narrow = compareWithLimit({ value, uncertainty }, lower);
          const wide = compareWithLimit({ value, uncertainty: uncertainty + more }, lower);
          if (narrow !== wide) expect(wide).toBe('straddles');
        },
      ),
    );
  });
});
