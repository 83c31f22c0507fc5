import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { mustSucceed } from '#core/base/result.ts';
import {
  alcoholByMass,
  alcoholByVolume,
  alcoholFromGravities,
  dealcoholisedGravity,
  exciseFactor,
  originalExtractFrom,
  realExtract,
  totalDryExtract,
} from '#core/must/attenuation.ts';

const attenuations = fc
  .tuple(fc.double({ min: 0, max: 40, noNaN: true }), fc.double({ min: 0, max: 1, noNaN: true }))
  .map(([originalExtract, left]) => ({ originalExtract, apparentExtract: originalExtract * left }));

describe('attenuation', () => {
  it('closes Balling’s balance: the original extract comes back', () => {
    fc.assert(
      fc.property(attenuations, (given) => {
        const alcoholMassPercent = mustSucceed(alcoholByMass(given));
        fc.pre(alcoholMassPercent <= 16);
        const extract = mustSucceed(realExtract(given));
        const original = mustSucceed(originalExtractFrom({ alcoholMassPercent, realExtract: extract }));
        expect(original).toBeCloseTo(given.originalExtract, 1);
      }),
    );
  });
  it('is none where nothing has fermented', () => {
    const still = { originalExtract: 12, apparentExtract: 12 };
    expect(mustSucceed(alcoholByMass(still))).toBeCloseTo(0, 12);
    expect(mustSucceed(alcoholByVolume(still))).toBeCloseTo(0, 12);
  });
  it('is refused when the extract has risen or is off the scale', () => {
    for (const wrong of [
      realExtract({ originalExtract: 10, apparentExtract: 11 }),
      alcoholByMass({ originalExtract: 41, apparentExtract: 0 }),
      alcoholByVolume({ originalExtract: 12, apparentExtract: -1 }),
      originalExtractFrom({ alcoholMassPercent: 17, realExtract: 3 }),
    ]) {
      expect(wrong).toMatchObject({ ok: false, error: { type: 'OutOfRange' } });
    }
  });
});

describe('the excise factor', () => {
  it.each([
    [6.9, 0.125],
    [6.94, 0.125],
    [6.95, 0.126],
    [7, 0.126],
    [10.4, 0.126],
    [10.5, 0.127],
    [17.25, 0.128],
    [100.7, 0.135],
  ])('rounds a drop of %d points to one decimal first: %d', (drop, factor) =>
    expect(exciseFactor(drop)).toEqual({ ok: true, value: factor }),
  );
  it.each([-1, 100.8, Number.NaN])('refuses %d', (drop) => expect(exciseFactor(drop).ok).toBe(false));
  it('gives an alcohol that grows with the drop', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 1000 }), (tenths) => {
        const at = (points: number) =>
          mustSucceed(alcoholFromGravities({ originalGravity: 1 + points / 1000, presentGravity: 1 }));
        expect(at((tenths + 1) / 10)).toBeGreaterThan(at(tenths / 10));
      }),
    );
  });
  it('serves a dry cider below 1.000, and refuses a gravity that has risen', () => {
    const dry = alcoholFromGravities({ originalGravity: 1.048, presentGravity: 0.998 });
    expect(mustSucceed(dry)).toBeCloseTo(50 * 0.131, 12);
    // A rise under a tenth of a point is the stem's own noise: no alcohol, and never less than none.
    const noise = alcoholFromGravities({ originalGravity: 1.05, presentGravity: 1.05004 });
    expect(mustSucceed(noise)).toBe(0);
    expect(alcoholFromGravities({ originalGravity: 1, presentGravity: 1.01 }).ok).toBe(false);
  });
});

describe('Tabarié', () => {
  it('gives no extract for plain alcohol and water, and is refused below it', () => {
    const light = { densityGramsPerMl: 0.97, alcoholPercentVol: 12 };
    expect(mustSucceed(dealcoholisedGravity(light))).toBeLessThan(1);
    expect(totalDryExtract(light)).toMatchObject({ ok: false, error: { quantity: 'trueGravity' } });
    expect(dealcoholisedGravity({ densityGramsPerMl: 2, alcoholPercentVol: 12 }).ok).toBe(false);
    expect(dealcoholisedGravity({ densityGramsPerMl: 1, alcoholPercentVol: 112 }).ok).toBe(false);
  });
});
