import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { mustSucceed } from '#core/base/result.ts';
import { saltForBrine, saltPercentOfTotal } from '#core/brine/brine-strength.ts';
import { equilibriumSalt, saltForTotal } from '#core/brine/equilibrium-salt.ts';

const grams = fc.double({ min: 1, max: 50_000, noNaN: true });

describe('salt by weight of the whole', () => {
  it('goes from the percentage to the salt and back', () => {
    fc.assert(
      fc.property(
        grams,
        grams,
        fc.double({ min: 0, max: 15, noNaN: true }),
        (vegetableGrams, waterGrams, percent) => {
          const saltGrams = mustSucceed(
            saltForTotal({ vegetableGrams, waterGrams, percentOfTotal: percent }),
          );
          expect(mustSucceed(saltPercentOfTotal({ saltGrams, waterGrams, vegetableGrams }))).toBeCloseTo(
            percent,
            9,
          );
        },
      ),
    );
  });
  it('for a brine is its own percentage', () => {
    const saltGrams = mustSucceed(saltForBrine({ waterGrams: 950, saltPercent: 5 }));
    expect(saltGrams).toBeCloseTo(50, 12);
    expect(mustSucceed(saltPercentOfTotal({ saltGrams, waterGrams: 950, vegetableGrams: 0 }))).toBeCloseTo(
      5,
      12,
    );
  });
  it('poured over vegetables ends weaker than it began', () => {
    fc.assert(
      fc.property(
        grams,
        grams,
        fc.double({ min: 0.1, max: 26, noNaN: true }),
        (brineGrams, vegetableGrams, brinePercent) => {
          const rest = mustSucceed(
            equilibriumSalt({ brineGrams, brinePercent, vegetableGrams, vegetableWaterShare: 0.95 }),
          );
          expect(rest.percentOfTotal).toBeLessThanOrEqual(rest.percentOfLiquid);
          expect(rest.percentOfLiquid).toBeLessThanOrEqual(brinePercent);
        },
      ),
    );
  });
  it('is refused for what no jar holds', () => {
    for (const wrong of [
      saltPercentOfTotal({ saltGrams: 0, waterGrams: 0, vegetableGrams: 0 }),
      saltPercentOfTotal({ saltGrams: -1, waterGrams: 1, vegetableGrams: 1 }),
      saltForBrine({ waterGrams: 1, saltPercent: 27 }),
      saltForTotal({ vegetableGrams: 1, waterGrams: 1, percentOfTotal: 16 }),
      equilibriumSalt({ brineGrams: 0, brinePercent: 5, vegetableGrams: 1, vegetableWaterShare: 0.9 }),
      equilibriumSalt({ brineGrams: 1, brinePercent: 5, vegetableGrams: 1, vegetableWaterShare: 2 }),
    ]) {
      expect(wrong).toMatchObject({ ok: false, error: { type: 'OutOfRange' } });
    }
  });
});
