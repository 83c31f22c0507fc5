import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { mustSucceed } from '#core/base/result.ts';
import {
  alcoholDensity,
  densityFromPercentVol,
  gramsPerLitreFromPercentVol,
  massFractionFromPercentVol,
  percentVolFromDensityAt20,
  percentVolFromGramsPerLitre,
  percentVolFromMassFraction,
} from '#core/must/alcohol.ts';

const fraction = fc.double({ min: 0, max: 1, noNaN: true });
const warmth = fc.double({ min: -20, max: 40, noNaN: true });
const strength = fc.double({ min: 0, max: 100, noNaN: true });

describe('the strength of alcohol and water', () => {
  it('goes there and back by mass, by volume and by grams in a litre', () => {
    fc.assert(
      fc.property(strength, (percentVol) => {
        const p = mustSucceed(massFractionFromPercentVol(percentVol));
        // The formula gives 99.9999 % vol for pure ethanol; the last ten-thousandth is held to it.
        expect(Math.abs(mustSucceed(percentVolFromMassFraction(p)) - percentVol)).toBeLessThan(2e-4);
        const grams = mustSucceed(gramsPerLitreFromPercentVol(percentVol));
        expect(mustSucceed(percentVolFromGramsPerLitre(grams))).toBeCloseTo(percentVol, 9);
      }),
    );
    fc.assert(
      fc.property(fc.double({ min: 0.5, max: 99, noNaN: true }), (alcoholPercentVol) => {
        const density = mustSucceed(densityFromPercentVol({ alcoholPercentVol, temperatureCelsius: 20 }));
        expect(mustSucceed(percentVolFromDensityAt20(density))).toBeCloseTo(alcoholPercentVol, 6);
      }),
    );
  });

  it('rises with the mass fraction', () => {
    fc.assert(
      fc.property(fraction, fraction, (a, b) => {
        fc.pre(Math.abs(a - b) > 1e-6);
        const [less, more] = [Math.min(a, b), Math.max(a, b)];
        fc.pre(more < 0.999);
        expect(mustSucceed(percentVolFromMassFraction(more))).toBeGreaterThan(
          mustSucceed(percentVolFromMassFraction(less)),
        );
      }),
    );
  });

  it('is lighter the more alcohol there is', () => {
    fc.assert(
      fc.property(fraction, fraction, (a, b) => {
        fc.pre(Math.abs(a - b) > 1e-6);
        const of = (p: number) =>
          mustSucceed(alcoholDensity({ ethanolMassFraction: p, temperatureCelsius: 20 }));
        expect(of(Math.max(a, b))).toBeLessThan(of(Math.min(a, b)));
      }),
    );
  });

  it('gives pure ethanol its defining density, which a wrong coefficient does not', () => {
    const pure = alcoholDensity({ ethanolMassFraction: 1, temperatureCelsius: 20 });
    expect(mustSucceed(pure)).toBeCloseTo(789.239, 3);
  });

  it('is finite inside its range and refused outside', () => {
    fc.assert(
      fc.property(fraction, warmth, (ethanolMassFraction, temperatureCelsius) => {
        const density = mustSucceed(alcoholDensity({ ethanolMassFraction, temperatureCelsius }));
        expect(density).toBeGreaterThan(700);
        expect(density).toBeLessThan(1050);
      }),
    );
    const wrong = [
      alcoholDensity({ ethanolMassFraction: 1.01, temperatureCelsius: 20 }),
      alcoholDensity({ ethanolMassFraction: 0.1, temperatureCelsius: 41 }),
      alcoholDensity({ ethanolMassFraction: Number.NaN, temperatureCelsius: 20 }),
      massFractionFromPercentVol(-1),
      massFractionFromPercentVol(100.1),
      percentVolFromMassFraction(2),
      percentVolFromDensityAt20(700),
      percentVolFromDensityAt20(1001),
      percentVolFromGramsPerLitre(800),
      gramsPerLitreFromPercentVol(Infinity),
      densityFromPercentVol({ alcoholPercentVol: 101, temperatureCelsius: 20 }),
    ];
    for (const result of wrong) expect(result).toMatchObject({ ok: false, error: { type: 'OutOfRange' } });
  });
});
