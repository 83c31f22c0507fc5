import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { mustSucceed } from '#core/base/result.ts';
import { ETHANOL_KG_PER_M3, densityFromPercentVol, massFractionFromPercentVol } from '#core/must/alcohol.ts';
import {
  blend,
  litresToReachStrength,
  pearsonParts,
  waterMassToReach,
  waterToStrength,
} from '#core/must/blend.ts';

const part = fc.record({
  volumeLitres: fc.double({ min: 0.01, max: 500, noNaN: true }),
  alcoholPercentVol: fc.double({ min: 0, max: 96, noNaN: true }),
  acidityGramsPer100Ml: fc.double({ min: 0, max: 12, noNaN: true }),
  sugarGramsPerLitre: fc.double({ min: 0, max: 300, noNaN: true }),
});
const plain = (volumeLitres: number, alcoholPercentVol: number) => ({
  volumeLitres,
  alcoholPercentVol,
  acidityGramsPer100Ml: 0,
  sugarGramsPerLitre: 0,
});
const kilograms = ({
  volumeLitres,
  alcoholPercentVol,
}: {
  volumeLitres: number;
  alcoholPercentVol: number;
}) =>
  (volumeLitres * mustSucceed(densityFromPercentVol({ alcoholPercentVol, temperatureCelsius: 20 }))) / 1000;

describe('a blend', () => {
  it('of 50 L of pure alcohol and 50 L of water is 96.46 L at 51.83 % vol', () => {
    const mixed = mustSucceed(blend([plain(50, 100), plain(50, 0)]));
    expect(mixed.volumeLitres).toBeCloseTo(96.46, 2);
    expect(mixed.alcoholPercentVol).toBeCloseTo(51.83, 2);
    expect(mixed.contractionLitres).toBeCloseTo(3.54, 2);
  });

  it.each([
    [14, 1, 0, 1, 7],
    [95, 10, 0, 90, 9.56],
  ])('%d %% vol, %d L, with %d %% vol, %d L: %d', (s1, v1, s2, v2, expected) => {
    const mixed = mustSucceed(blend([plain(v1, s1), plain(v2, s2)]));
    expect(mixed.alcoholPercentVol).toBeCloseTo(expected, 2);
  });

  it('by plain volumes is right to 0.01 below 15 % vol, and not for a spirit', () => {
    const mixed = mustSucceed(blend([plain(3, 14), plain(2, 5)]));
    expect(Math.abs(mixed.alcoholPercentVol - (3 * 14 + 2 * 5) / 5)).toBeLessThan(0.01);
    const spirit = mustSucceed(blend([plain(10, 95), plain(85, 0)]));
    expect(Math.abs(spirit.alcoholPercentVol - 10)).toBeGreaterThan(0.05);
  });

  it('keeps mass, alcohol, acid and sugar', () => {
    fc.assert(
      fc.property(fc.array(part, { minLength: 1, maxLength: 5 }), (parts) => {
        const mixed = mustSucceed(blend(parts));
        const mass = parts.reduce((sum, p) => sum + kilograms(p), 0);
        expect(Math.abs(kilograms(mixed) - mass) / mass).toBeLessThan(1e-6);
        const pure = parts.reduce((sum, p) => sum + p.volumeLitres * p.alcoholPercentVol, 0);
        expect(Math.abs(mixed.volumeLitres * mixed.alcoholPercentVol - pure)).toBeLessThan(
          1e-5 * pure + 1e-9,
        );
        const acid = parts.reduce((sum, p) => sum + p.volumeLitres * p.acidityGramsPer100Ml, 0);
        expect(mixed.volumeLitres * mixed.acidityGramsPer100Ml).toBeCloseTo(acid, 6);
        const sugar = parts.reduce((sum, p) => sum + p.volumeLitres * p.sugarGramsPerLitre, 0);
        expect(Math.abs(mixed.volumeLitres * mixed.sugarGramsPerLitre - sugar)).toBeLessThan(
          1e-9 * sugar + 1e-9,
        );
        const strengths = parts.map((p) => p.alcoholPercentVol);
        expect(mixed.alcoholPercentVol).toBeGreaterThanOrEqual(Math.min(...strengths) - 1e-6);
        expect(mixed.alcoholPercentVol).toBeLessThanOrEqual(Math.max(...strengths) + 1e-6);
      }),
    );
  });

  it('does not depend on the order or the grouping', () => {
    fc.assert(
      fc.property(part, part, part, (a, b, c) => {
        const all = mustSucceed(blend([a, b, c]));
        const turned = mustSucceed(blend([c, a, b]));
        const grouped = mustSucceed(blend([mustSucceed(blend([a, b])), c]));
        expect(turned.alcoholPercentVol).toBeCloseTo(all.alcoholPercentVol, 8);
        expect(grouped.alcoholPercentVol).toBeCloseTo(all.alcoholPercentVol, 4);
        expect(grouped.volumeLitres).toBeCloseTo(all.volumeLitres, 2);
      }),
    );
  });

  it('of nothing, or of what no liquid is, is refused', () => {
    for (const wrong of [
      blend([]),
      blend([plain(0, 5)]),
      blend([plain(-1, 5)]),
      blend([plain(1, 101)]),
      blend([plain(1, Number.NaN)]),
    ]) {
      expect(wrong).toMatchObject({ ok: false, error: { type: 'OutOfRange' } });
    }
  });
});

describe('a dilution of alcohol', () => {
  it('reaches the strength with its contraction', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 100, noNaN: true }),
        fc.double({ min: 6, max: 96, noNaN: true }),
        fc.double({ min: 0.1, max: 1, noNaN: true }),
        (volumeLitres, alcoholPercentVol, share) => {
          const targetPercentVol = alcoholPercentVol * share;
          const water = mustSucceed(waterToStrength({ volumeLitres, alcoholPercentVol, targetPercentVol }));
          const mixed = mustSucceed(blend([plain(volumeLitres, alcoholPercentVol), plain(water, 0)]));
          expect(mixed.alcoholPercentVol).toBeCloseTo(targetPercentVol, 5);
        },
      ),
    );
    const above = { volumeLitres: 1, alcoholPercentVol: 5, targetPercentVol: 6 };
    expect(waterToStrength(above)).toMatchObject({ error: { quantity: 'targetPercentVol' } });
  });
  it('with any liquid reaches a strength between the two', () => {
    const given = { firstLitres: 10, firstPercentVol: 6, secondPercentVol: 14, targetPercentVol: 9 };
    const litres = mustSucceed(litresToReachStrength(given));
    const mixed = mustSucceed(blend([plain(10, 6), plain(litres, 14)]));
    expect(mixed.alcoholPercentVol).toBeCloseTo(9, 6);
    expect(litresToReachStrength({ ...given, targetPercentVol: 6 })).toEqual({ ok: true, value: 0 });
    expect(litresToReachStrength({ ...given, targetPercentVol: 15 }).ok).toBe(false);
    expect(litresToReachStrength({ ...given, targetPercentVol: 14 }).ok).toBe(false);
  });
  it('by mass follows the balance of the solute', () => {
    expect(waterMassToReach({ amount: 1, mass: 10, targetPerMass: 0.2 }).ok).toBe(false);
    expect(mustSucceed(waterMassToReach({ amount: 2, mass: 10, targetPerMass: 0.1 }))).toBeCloseTo(10, 12);
  });
});

describe('Pearson’s square', () => {
  it('mixes to the target', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 15, noNaN: true }),
        fc.double({ min: 0, max: 15, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (first, second, share) => {
          fc.pre(Math.abs(first - second) > 1e-6);
          const target = Math.min(
            Math.max(first, second),
            Math.max(Math.min(first, second), first + (second - first) * share),
          );
          const parts = mustSucceed(pearsonParts({ first, second, target }));
          const mixed = (parts.first * first + parts.second * second) / (parts.first + parts.second);
          expect(mixed).toBeCloseTo(target, 8);
        },
      ),
    );
  });
  it('refuses a target outside', () => {
    expect(pearsonParts({ first: 4, second: 6, target: 7 }).ok).toBe(false);
    expect(pearsonParts({ first: 4, second: 6, target: Number.NaN }).ok).toBe(false);
  });
});

it('one per cent by volume is 7.8924 g of alcohol in a litre of any strength', () => {
  fc.assert(
    fc.property(fc.double({ min: 0.1, max: 99, noNaN: true }), (alcoholPercentVol) => {
      const density = mustSucceed(densityFromPercentVol({ alcoholPercentVol, temperatureCelsius: 20 }));
      const grams = density * mustSucceed(massFractionFromPercentVol(alcoholPercentVol));
      expect(grams).toBeCloseTo((alcoholPercentVol * ETHANOL_KG_PER_M3) / 100, 5);
    }),
  );
});
