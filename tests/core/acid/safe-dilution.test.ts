import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { diluteToStrength } from '#core/acid/safe-dilution.ts';
import { mustSucceed } from '#core/base/result.ts';

const sure = { volumeUncertaintyLitres: 0, strengthUncertainty: 0 };

describe('a dilution', () => {
  it('with nothing uncertain is the plain mass balance', () => {
    const given = { ...sure, volumeLitres: 4, strength: 6.3, target: 5 };
    const { naiveWaterLitres, guaranteedWaterLitres, expectedAfter } = mustSucceed(diluteToStrength(given));
    expect(naiveWaterLitres).toBeCloseTo(1.04, 12);
    expect(guaranteedWaterLitres).toBeCloseTo(1.04, 12);
    expect(expectedAfter).toBeCloseTo(5, 12);
  });

  it('keeps the target even with strength and volume at their low ends', () => {
    const inputs = fc.record({
      volumeLitres: fc.double({ min: 0.5, max: 200, noNaN: true }),
      volumeUncertaintyLitres: fc.double({ min: 0, max: 0.4, noNaN: true }),
      strength: fc.double({ min: 4, max: 12, noNaN: true }),
      strengthUncertainty: fc.double({ min: 0, max: 1, noNaN: true }),
      target: fc.double({ min: 1, max: 8, noNaN: true }),
    });
    fc.assert(
      fc.property(
        inputs,
        fc.double({ min: -1, max: 1, noNaN: true }),
        fc.double({ min: -1, max: 1, noNaN: true }),
        (given, a, b) => {
          const diluted = diluteToStrength(given);
          if (!diluted.ok) {
            expect(diluted.error.type).toBe('TooWeakToDilute');
            expect(given.strength - given.strengthUncertainty).toBeLessThan(given.target);
            return;
          }
          const trueVolume = given.volumeLitres + a * given.volumeUncertaintyLitres;
          const trueStrength = given.strength + b * given.strengthUncertainty;
          const water = diluted.value.guaranteedWaterLitres;
          expect((trueStrength * trueVolume) / (trueVolume + water)).toBeGreaterThanOrEqual(
            given.target - 1e-9,
          );
          expect(water).toBeLessThanOrEqual(diluted.value.naiveWaterLitres + 1e-9);
        },
      ),
    );
  });

  it('is refused when even the vinegar itself is too weak at its low end', () => {
    const weak = { ...sure, volumeLitres: 4, strength: 5.1, strengthUncertainty: 0.2, target: 5 };
    expect(diluteToStrength(weak)).toMatchObject({
      ok: false,
      error: { type: 'TooWeakToDilute', target: 5 },
    });
    expect(diluteToStrength({ ...weak, strength: 25 })).toMatchObject({ error: { type: 'OutOfRange' } });
    expect(diluteToStrength({ ...weak, target: 0 })).toMatchObject({ error: { type: 'OutOfRange' } });
    expect(diluteToStrength({ ...weak, volumeLitres: Number.NaN })).toMatchObject({
      error: { type: 'OutOfRange' },
    });
  });
});
