import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { MEASURES } from '#renderer/cellar-book/reading-panels.ts';
import { valueAxis } from '#renderer/cellar-book/value-axis.ts';

describe('the value axis of a panel', () => {
  test('gravity has round marks around what was measured, with three decimals', () => {
    expect(valueAxis('gravity', [1.054, 0.998])).toEqual({ min: 0.98, max: 1.06, step: 0.02, decimals: 3 });
  });

  test('acidity starts at nothing', () => {
    expect(valueAxis('acidity', [4.1, 0.9, 4])).toEqual({ min: 0, max: 6, step: 2, decimals: 0 });
  });

  test('a steady value is not drawn as a mountain', () => {
    const { min, max } = valueAxis('temperature', [18, 18.1]);
    expect(max - min).toBeGreaterThanOrEqual(6);
  });

  test('no values at all still give an axis', () => {
    expect(valueAxis('ph', [])).toEqual({ min: 0, max: 1, step: 1, decimals: 0 });
  });

  test('whatever was measured lies on the axis, with few enough marks', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...MEASURES),
        fc.array(fc.double({ min: 0.001, max: 140, noNaN: true }), { minLength: 1, maxLength: 30 }),
        (measure, values) => {
          const { min, max, step } = valueAxis(measure, values);
          expect(Math.min(...values)).toBeGreaterThanOrEqual(min - 1e-9);
          expect(Math.max(...values)).toBeLessThanOrEqual(max + 1e-9);
          expect((max - min) / step).toBeLessThanOrEqual(6.001);
        },
      ),
    );
  });
});
