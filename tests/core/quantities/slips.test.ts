import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { slipsAgainst } from '#core/quantities/slips.ts';

const whys = (kind: Parameters<typeof slipsAgainst>[0]['kind'], value: number, previous: number | null) =>
  slipsAgainst({ kind, value, previous }).map(({ why }) => why);

describe('[MEAS-09] slips against the reading before', () => {
  it.each([
    ['acidity', 0.52, 5.1, ['factorTen']],
    ['acidity', 5.2, 0.5, ['factorTen']],
    ['acidity', 5.3, 5.1, []],
    ['gravity', 0.998, 1.13, ['fellTooFar']],
    ['gravity', 1.0, 1.13, []],
    ['gravity', 1.0, 1.05, []],
    ['temperature', 68, 20, ['fahrenheitAsCelsius']],
    ['temperature', 20, 67, ['celsiusAsFahrenheit']],
    ['temperature', 22, 19, []],
    ['volume', 4_546_090, 3_785_412, ['imperialAsUs']],
    ['volume', 3_785_412, 4_546_090, ['usAsImperial']],
    ['volume', 5_000, 5_000_000, ['thousand']],
    ['volume', 5_000_000_000, 5_000_000, ['thousand']],
    ['volume', 4_000_000, 5_000_000, []],
    ['mass', 2_000_000_000, 190_000_000, ['factorTen']],
    ['pH', 3, 3.4, []],
  ] as const)('%s %d after %d: %j', (kind, value, previous, expected) =>
    expect(whys(kind, value, previous)).toEqual(expected),
  );
  it('says nothing where nothing came before', () => {
    expect(whys('acidity', 5, null)).toEqual([]);
    expect(whys('acidity', Number.NaN, 5)).toEqual([]);
  });
  it('never offers a number that is not plausible', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('acidity' as const, 'temperature' as const, 'alcohol' as const, 'salt' as const),
        fc.double({ min: -5, max: 100, noNaN: true }),
        fc.double({ min: -5, max: 100, noNaN: true }),
        (kind, value, previous) => {
          for (const { instead } of slipsAgainst({ kind, value, previous })) {
            if (instead !== null)
              expect(Math.abs(instead - previous)).toBeLessThanOrEqual(Math.max(6, previous));
          }
        },
      ),
    );
  });
});
