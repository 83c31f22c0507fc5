import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { targetLabelFoot } from '#renderer/cellar-book/panel-chart.ts';
import { valueAxis, type ValueScale } from '#renderer/cellar-book/value-axis.ts';

const GRAVITY: ValueScale = { fromNothing: false, leastSpan: 0.01, stepsMost: 4, decimalsLeast: 3 };
const BRIX: ValueScale = { fromNothing: false, leastSpan: 2, stepsMost: 4, decimalsLeast: 0 };
const ACIDITY: ValueScale = { fromNothing: true, leastSpan: 2, stepsMost: 4, decimalsLeast: 0 };
const TEMPERATURE: ValueScale = { fromNothing: false, leastSpan: 6, stepsMost: 3, decimalsLeast: 0 };

describe('the value axis of a panel', () => {
  test('gravity has round marks around what was measured, with three decimals', () => {
    expect(valueAxis(GRAVITY, [1.054, 0.998])).toEqual({ min: 0.98, max: 1.06, step: 0.02, decimals: 3 });
  });

  test('Brix has none', () => {
    expect(valueAxis(BRIX, [21.6, 3])).toEqual({ min: 0, max: 25, step: 5, decimals: 0 });
  });

  test('acidity starts at nothing', () => {
    expect(valueAxis(ACIDITY, [4.1, 0.9, 4])).toEqual({ min: 0, max: 6, step: 2, decimals: 0 });
  });

  test('a steady value is not drawn as a mountain', () => {
    const { min, max } = valueAxis(TEMPERATURE, [18, 18.1]);
    expect(max - min).toBeGreaterThanOrEqual(6);
  });

  test('no values at all still give an axis', () => {
    expect(valueAxis(GRAVITY, [])).toEqual({ min: 0, max: 1, step: 1, decimals: 0 });
  });

  test('whatever was measured lies on the axis, with few enough marks', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(GRAVITY, BRIX, ACIDITY, TEMPERATURE),
        fc.array(fc.double({ min: 0.001, max: 140, noNaN: true }), { minLength: 1, maxLength: 30 }),
        (scale, values) => {
          const { min, max, step } = valueAxis(scale, values);
          expect(Math.min(...values)).toBeGreaterThanOrEqual(min - 1e-9);
          expect(Math.max(...values)).toBeLessThanOrEqual(max + 1e-9);
          expect((max - min) / step).toBeLessThanOrEqual(6.001);
        },
      ),
    );
  });
});

test('the words of a target stand above its rule, and beneath it where that would reach into the title', () => {
  expect(targetLabelFoot(80, 36, 12)).toBe(73);
  expect(targetLabelFoot(37, 36, 12)).toBe(54);
});
