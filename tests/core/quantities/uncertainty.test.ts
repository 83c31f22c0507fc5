import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  defaultUncertainty,
  effectiveUncertainty,
  METHOD_ERRORS,
  smallestUncertainty,
  type Method,
} from '#core/quantities/uncertainty.ts';

const methods = Object.keys(METHOD_ERRORS) as Method[];

describe('the error of a method', () => {
  it.each([
    ['taSyringeKit', 3, 0.3],
    ['taSyringeKit', 6, 0.42],
    ['jugOrMark', 20, 0.6],
    ['roomCarbonDioxide', 5000, 325],
    ['kitchenScale', 100, 2],
    ['kitchenScale', 1000, 10],
    ['hydrometer', 1.05, 0.002],
  ] as const)('%s at %d: %d', (method, value, expected) =>
    expect(defaultUncertainty(method, value)).toBeCloseTo(expected, 12),
  );

  it('is never below its floor, nor the keeper’s own', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...methods),
        fc.double({ min: 0, max: 1000, noNaN: true }),
        fc.option(fc.double()),
        (method, value, givenUncertainty) => {
          const effective = effectiveUncertainty({ value, givenUncertainty, method });
          expect(effective?.uncertainty).toBeGreaterThanOrEqual(smallestUncertainty(method, value));
          if (effective?.from === 'keeper') expect(effective.uncertainty).toBe(givenUncertainty);
        },
      ),
    );
  });

  it('is unknown without a method and an error', () => {
    for (const givenUncertainty of [null, 0, -1, Number.NaN, Infinity]) {
      expect(effectiveUncertainty({ value: 5, givenUncertainty, method: null })).toBeNull();
    }
  });
});
