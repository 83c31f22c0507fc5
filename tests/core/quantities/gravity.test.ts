import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  apparentGravityFromTrue,
  brixToGravity,
  brixToGravityNbs,
  gravityToBrix,
  gravityToBrixNbs,
  gravityToPlatoAsbc,
  gravityToPoints,
  pointsToGravity,
  trueGravityFromApparent,
} from '#core/quantities/gravity.ts';
import { sucroseDensity, sucroseMassPercentFromDensity } from '#core/quantities/sucrose-density.ts';
import { waterDensity, waterDensityBettin, waterDensityKell } from '#core/quantities/water-density.ts';
import { mustSucceed } from '#core/base/result.ts';

const percent = fc.double({ min: 0, max: 60, noNaN: true });
const warmth = fc.double({ min: 0, max: 80, noNaN: true });

describe('the sucrose scale', () => {
  it('goes there and back', () => {
    fc.assert(
      fc.property(percent, (brix) => {
        expect(mustSucceed(gravityToBrix(mustSucceed(brixToGravity(brix))))).toBeCloseTo(brix, 8);
      }),
    );
    fc.assert(
      fc.property(percent, warmth, (sucroseMassPercent, temperatureCelsius) => {
        const densityKgPerM3 = mustSucceed(sucroseDensity({ sucroseMassPercent, temperatureCelsius }));
        const back = sucroseMassPercentFromDensity({ densityKgPerM3, temperatureCelsius });
        expect(mustSucceed(back)).toBeCloseTo(sucroseMassPercent, 8);
      }),
    );
    fc.assert(
      fc.property(fc.double({ min: 0, max: 40, noNaN: true }), (brix) => {
        expect(mustSucceed(gravityToBrixNbs(mustSucceed(brixToGravityNbs(brix))))).toBeCloseTo(brix, 6);
      }),
    );
    fc.assert(
      fc.property(fc.double({ min: 0.95, max: 1.3, noNaN: true }), (gravity) => {
        expect(apparentGravityFromTrue(trueGravityFromApparent(gravity))).toBeCloseTo(gravity, 12);
        expect(pointsToGravity(gravityToPoints(gravity))).toBeCloseTo(gravity, 12);
      }),
    );
  });

  it('rises with sugar', () => {
    fc.assert(
      fc.property(percent, percent, warmth, (a, b, temperatureCelsius) => {
        fc.pre(Math.abs(a - b) > 1e-6);
        const of = (sucroseMassPercent: number) =>
          mustSucceed(sucroseDensity({ sucroseMassPercent, temperatureCelsius }));
        expect(of(Math.max(a, b))).toBeGreaterThan(of(Math.min(a, b)));
      }),
    );
  });

  it('is 1 and 0 for water', () => {
    expect(brixToGravity(0)).toEqual({ ok: true, value: 1 });
    expect(gravityToBrix(1)).toEqual({ ok: true, value: 0 });
    expect(gravityToBrixNbs(1)).toEqual({ ok: true, value: 0 });
    expect(gravityToPlatoAsbc(1)).toEqual({ ok: true, value: 0 });
  });

  it('agrees with the older scales as far as they are said to', () => {
    for (let brix = 1; brix <= 30; brix += 1) {
      const gravity = mustSucceed(brixToGravity(brix));
      expect(Math.abs(mustSucceed(gravityToBrixNbs(gravity)) - brix)).toBeLessThan(0.025);
      if (brix <= 20) expect(Math.abs(mustSucceed(gravityToPlatoAsbc(gravity)) - brix)).toBeLessThan(0.02);
    }
  });

  it('is not continued past its ends', () => {
    for (const brix of [-0.001, 60.001, Number.NaN, Infinity]) {
      expect(brixToGravity(brix)).toMatchObject({
        ok: false,
        error: { type: 'OutOfRange', quantity: 'sucroseMassPercent', low: 0, high: 60 },
      });
    }
    for (const gravity of [0.999, 1.3, Number.NaN]) {
      expect(gravityToBrix(gravity)).toMatchObject({
        ok: false,
        error: { type: 'OutOfRange', quantity: 'specificGravity', value: gravity, low: 1 },
      });
    }
    expect(gravityToBrixNbs(1.2).ok).toBe(false);
    expect(gravityToPlatoAsbc(1.1).ok).toBe(false);
    expect(brixToGravityNbs(41).ok).toBe(false);
    expect(sucroseDensity({ sucroseMassPercent: 10, temperatureCelsius: 81 }).ok).toBe(false);
  });
});

describe('the density of water', () => {
  it('differs between the published formulas by less than 0.008 kg/m³', () => {
    for (let t = 0; t <= 40; t += 1) {
      const tanaka = mustSucceed(waterDensity(t));
      expect(Math.abs(mustSucceed(waterDensityKell(t)) - tanaka)).toBeLessThan(0.008);
      expect(Math.abs(waterDensityBettin(t) - tanaka)).toBeLessThan(0.008);
    }
  });
  it('is refused outside the range of each formula', () => {
    expect(waterDensity(-0.1).ok).toBe(false);
    expect(waterDensity(40.1).ok).toBe(false);
    expect(waterDensityKell(151).ok).toBe(false);
  });
});
