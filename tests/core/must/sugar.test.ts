import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { mustSucceed } from '#core/base/result.ts';
import { FERMENTABLE_SHARE, fermentableSugar, type SugarSource } from '#core/must/must-sugar.ts';
import { potentialAlcohol } from '#core/must/potential-alcohol.ts';
import {
  brixFromRefractiveIndex,
  fortifiedAlcohol,
  refractiveIndex,
  refractometerCorrection,
} from '#core/must/refractometer.ts';
import {
  brixFromSucroseGramsPerLitre,
  extractGramsPerLitre,
  invertSugarFromSucrose,
  sucroseGramsPerLitre,
} from '#core/must/sugar-solution.ts';

const brix60 = fc.double({ min: 0, max: 60, noNaN: true });
const sources = Object.keys(FERMENTABLE_SHARE) as SugarSource[];

describe('sugar in a litre', () => {
  it('goes there and back', () => {
    fc.assert(
      fc.property(brix60, (brix) => {
        const grams = mustSucceed(sucroseGramsPerLitre({ brix, temperatureCelsius: 20 }));
        expect(mustSucceed(brixFromSucroseGramsPerLitre(grams))).toBeCloseTo(brix, 8);
      }),
    );
  });
  it('that yeast can use is never more than the sucrose of the same °Brix, or the hexose that makes', () => {
    fc.assert(
      fc.property(brix60, fc.constantFrom(...sources), (brix, of) => {
        const sucrose = mustSucceed(sucroseGramsPerLitre({ brix, temperatureCelsius: 20 }));
        const sugar = mustSucceed(fermentableSugar({ brix, of }));
        expect(sugar.lowGramsPerLitre).toBeGreaterThanOrEqual(0);
        expect(sugar.lowGramsPerLitre).toBeLessThanOrEqual(sugar.midGramsPerLitre);
        expect(sugar.midGramsPerLitre).toBeLessThanOrEqual(sugar.highGramsPerLitre);
        // Row STO-INV-SUC: 1 g of sucrose becomes 1.0526 g of invert sugar.
        const most = of === 'sugarWater' ? sucrose * 1.05264 : sucrose;
        expect(sugar.highGramsPerLitre).toBeLessThanOrEqual(most + 1e-9);
      }),
    );
  });
  it('that yeast can use grows with the °Brix, also over the ends of the grape table', () => {
    for (const of of sources) {
      const mids = Array.from(
        { length: 601 },
        (_, i) => mustSucceed(fermentableSugar({ brix: i / 10, of })).midGramsPerLitre,
      );
      expect(
        mids.every((mid, i) => i === 0 || mid > (mids[i - 1] ?? NaN)),
        of,
      ).toBe(true);
    }
  });
  it('of grape follows the OIV table inside its range', () => {
    const at12 = mustSucceed(fermentableSugar({ brix: 12, of: 'grape' }));
    expect(Math.abs(at12.midGramsPerLitre - 103.5)).toBeLessThan(0.1);
    expect(mustSucceed(fermentableSugar({ brix: 5, of: 'grape' })).source).toContain('ends of');
  });
  it('is refused outside the published ranges', () => {
    for (const wrong of [
      sucroseGramsPerLitre({ brix: 61, temperatureCelsius: 20 }),
      brixFromSucroseGramsPerLitre(-1),
      brixFromSucroseGramsPerLitre(2000),
      extractGramsPerLitre(0.99),
      extractGramsPerLitre(1.4),
      invertSugarFromSucrose(-1),
      fermentableSugar({ brix: 70, of: 'apple' }),
    ]) {
      expect(wrong).toMatchObject({ ok: false, error: { type: 'OutOfRange' } });
    }
  });
});

describe('potential alcohol', () => {
  it('names theory and plan, and carries the error of the sugar', () => {
    const exact = mustSucceed(
      potentialAlcohol({ sugarGramsPerLitre: 168.3, sugarUncertaintyGramsPerLitre: 0 }),
    );
    expect(exact.planPercentVol).toBeCloseTo(10, 12);
    expect(exact.theoryPercentVol).toBeCloseTo(10.906, 3);
    expect(exact.planUncertaintyPercentVol).toBeCloseTo(0.4, 12);
    const loose = mustSucceed(
      potentialAlcohol({ sugarGramsPerLitre: 168.3, sugarUncertaintyGramsPerLitre: 16.83 }),
    );
    expect(loose.planUncertaintyPercentVol).toBeCloseTo(Math.hypot(1, 0.4), 12);
  });
  it('of the plan never exceeds the theory', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 400, noNaN: true }), (sugarGramsPerLitre) => {
        const both = mustSucceed(potentialAlcohol({ sugarGramsPerLitre, sugarUncertaintyGramsPerLitre: 0 }));
        expect(both.planPercentVol).toBeLessThanOrEqual(both.theoryPercentVol);
      }),
    );
  });
  it('is refused for less than no sugar', () => {
    expect(potentialAlcohol({ sugarGramsPerLitre: -1, sugarUncertaintyGramsPerLitre: 0 }).ok).toBe(false);
    expect(potentialAlcohol({ sugarGramsPerLitre: 10, sugarUncertaintyGramsPerLitre: -1 }).ok).toBe(false);
  });
});

describe('a refractometer', () => {
  it('goes from index to °Brix and back', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 30, noNaN: true }), (brix) => {
        expect(mustSucceed(brixFromRefractiveIndex(mustSucceed(refractiveIndex(brix))))).toBeCloseTo(brix, 8);
      }),
    );
  });
  it('needs no correction at 20 °C and more the further away', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 10, max: 30, noNaN: true }),
        fc.double({ min: 6, max: 29, noNaN: true }),
        (readingPercent, celsius) => {
          const at = (temperatureCelsius: number) =>
            mustSucceed(refractometerCorrection({ readingPercent, temperatureCelsius }));
          expect(at(20)).toBeCloseTo(0, 12);
          expect(at(celsius + 1)).toBeGreaterThan(at(celsius));
        },
      ),
    );
  });
  it('is refused outside its tables', () => {
    for (const wrong of [
      refractiveIndex(31),
      refractiveIndex(-1),
      brixFromRefractiveIndex(1.3),
      brixFromRefractiveIndex(1.4),
      refractometerCorrection({ readingPercent: 9, temperatureCelsius: 20 }),
      refractometerCorrection({ readingPercent: 12, temperatureCelsius: 5 }),
      refractometerCorrection({ readingPercent: 12, temperatureCelsius: Number.NaN }),
      fortifiedAlcohol({ apparentBrix: 5, apparentBaume: 3 }),
    ]) {
      expect(wrong).toMatchObject({ ok: false, error: { type: 'OutOfRange' } });
    }
  });
});
