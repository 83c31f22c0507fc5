import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { mustSucceed } from '#core/base/result.ts';
import {
  expectedYield,
  JUICE_PER_KILOGRAM,
  type LossStep,
  type PressedFruit,
} from '#core/must/expected-yield.ts';
import { alcoholByRefractometer } from '#core/must/fermented-refractometer.ts';
import { honeyMust, sweetenToAlcohol, sweetenToBrix } from '#core/must/sugar-addition.ts';
import { dryYeastGrams, NITROGEN_IN_PHOSPHATE, phosphateForNitrogen } from '#core/must/yeast.ts';
import { sucroseDensity } from '#core/quantities/sucrose-density.ts';

const density = (sucroseMassPercent: number) =>
  mustSucceed(sucroseDensity({ sucroseMassPercent, temperatureCelsius: 20 }));

describe('sugar to add', () => {
  it('for a °Brix keeps the mass of what dissolves', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 100, noNaN: true }),
        fc.double({ min: 0, max: 25, noNaN: true }),
        fc.double({ min: 0, max: 20, noNaN: true }),
        fc.constantFrom('sucrose' as const, 'honey' as const, 'glucose' as const),
        (volumeLitres, brix, more, sweetener) => {
          const targetBrix = brix + more;
          const added = mustSucceed(sweetenToBrix({ volumeLitres, brix, targetBrix, sweetener }));
          const solids = sweetener === 'honey' ? 0.824 : 1;
          const before = volumeLitres * density(brix);
          const after = added.volumeLitres * density(targetBrix);
          expect(after).toBeCloseTo(before + added.grams, 6);
          expect((after * targetBrix) / 100).toBeCloseTo((before * brix) / 100 + added.grams * solids, 6);
        },
      ),
    );
  });
  it('for an alcohol comes out at it', () => {
    const given = {
      volumeLitres: 20,
      brix: 11,
      fermentableGramsPerLitre: 97,
      targetPercentVol: 8,
      sweetener: 'sucrose',
    } as const;
    const added = mustSucceed(sweetenToAlcohol(given));
    const sugar = 20 * 97 + added.grams * 1.05263;
    expect(sugar / added.volumeLitres / 16.83).toBeCloseTo(8, 4);
    expect(added.brixAfter).toBeGreaterThan(11);
    const honey = mustSucceed(sweetenToAlcohol({ ...given, sweetener: 'honey' }));
    expect(honey.grams).toBeGreaterThan(added.grams);
  });
  it('is refused where the juice holds more already, or no sugar would be enough', () => {
    const given = {
      volumeLitres: 20,
      brix: 11,
      fermentableGramsPerLitre: 97,
      sweetener: 'sucrose',
    } as const;
    expect(sweetenToAlcohol({ ...given, targetPercentVol: 5 })).toMatchObject({
      ok: false,
      error: { type: 'OutOfRange', quantity: 'targetPercentVol' },
    });
    expect(sweetenToAlcohol({ ...given, targetPercentVol: 19 }).ok).toBe(false);
    expect(sweetenToBrix({ volumeLitres: 1, brix: 12, targetBrix: 11, sweetener: 'sucrose' }).ok).toBe(false);
    expect(sweetenToBrix({ volumeLitres: 1, brix: 12, targetBrix: 51, sweetener: 'sucrose' }).ok).toBe(false);
  });
  it('as honey and water makes the must that was asked for', () => {
    const { honeyGrams, waterLitres } = mustSucceed(honeyMust({ volumeLitres: 5, brix: 22 }));
    const added = mustSucceed(
      sweetenToBrix({ volumeLitres: waterLitres, brix: 0, targetBrix: 22, sweetener: 'honey' }),
    );
    expect(added.grams).toBeCloseTo(honeyGrams, 6);
    expect(added.volumeLitres).toBeCloseTo(5, 9);
    expect(honeyMust({ volumeLitres: 5, brix: 0 }).ok).toBe(false);
  });
});

describe('yeast and its food', () => {
  it('by the advised range', () => {
    expect(dryYeastGrams(20)).toEqual({ ok: true, value: { low: 4, high: 6 } });
    expect(dryYeastGrams(-1).ok).toBe(false);
  });
  it('brings the nitrogen that is short, and says when it is too much salt', () => {
    expect(NITROGEN_IN_PHOSPHATE).toBeCloseTo(0.212, 3);
    const dose = mustSucceed(
      phosphateForNitrogen({ volumeLitres: 10, nitrogenMgPerLitre: 50, targetMgPerLitre: 140 }),
    );
    expect(dose.nitrogenShortMgPerLitre).toBe(90);
    expect(dose.phosphateGrams * NITROGEN_IN_PHOSPHATE).toBeCloseTo(0.9, 12);
    expect(dose.aboveMaximum).toBe(false);
    const rich = phosphateForNitrogen({ volumeLitres: 10, nitrogenMgPerLitre: 0, targetMgPerLitre: 250 });
    expect(mustSucceed(rich).aboveMaximum).toBe(true);
    const enough = phosphateForNitrogen({ volumeLitres: 10, nitrogenMgPerLitre: 200, targetMgPerLitre: 140 });
    expect(mustSucceed(enough).phosphateGrams).toBe(0);
    expect(phosphateForNitrogen({ volumeLitres: 10, nitrogenMgPerLitre: 0, targetMgPerLitre: 500 }).ok).toBe(
      false,
    );
  });
});

describe('from fruit to shelf', () => {
  const steps: readonly LossStep[] = ['grossLees', 'racking', 'acetification', 'filtering'];
  it('loses at every step and never gains', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...(Object.keys(JUICE_PER_KILOGRAM) as PressedFruit[])),
        fc.double({ min: 0, max: 500, noNaN: true }),
        fc.subarray([...steps]),
        (fruit, kilograms, chosen) => {
          const plan = mustSucceed(expectedYield({ fruit, kilograms, steps: chosen, bottleMl: 750 }));
          let before = plan.juiceLitres;
          expect(before.high).toBeLessThanOrEqual(kilograms);
          for (const { litres } of plan.afterSteps) {
            expect(litres.low).toBeLessThanOrEqual(before.low);
            expect(litres.high).toBeLessThanOrEqual(before.high);
            expect(litres.low).toBeLessThanOrEqual(litres.mid);
            expect(litres.mid).toBeLessThanOrEqual(litres.high);
            before = litres;
          }
          expect(plan.litres).toEqual(before);
          expect(plan.bottles.low * 0.75).toBeLessThanOrEqual(plan.litres.low);
        },
      ),
    );
  });
  it('is refused for less than nothing', () => {
    expect(expectedYield({ fruit: 'apple', kilograms: -1, steps: [], bottleMl: 750 }).ok).toBe(false);
    expect(expectedYield({ fruit: 'apple', kilograms: 1, steps: [], bottleMl: 0 }).ok).toBe(false);
  });
});

describe('a refractometer after fermentation', () => {
  it('is an estimate that is never closer than 1 % vol', () => {
    const estimate = mustSucceed(alcoholByRefractometer({ originalBrix: 12, presentBrix: 5 }));
    expect(estimate.alcoholPercentVol).toBeGreaterThan(4.5);
    expect(estimate.alcoholPercentVol).toBeLessThan(7);
    expect(estimate.uncertaintyPercentVol).toBeGreaterThanOrEqual(1);
    expect(estimate.warning).toBe('refractometerAfterFermentation');
  });
  it('is none where nothing has changed', () => {
    const still = alcoholByRefractometer({ originalBrix: 12, presentBrix: 12 });
    expect(mustSucceed(still).alcoholPercentVol).toBe(0);
  });
  it('is refused where the reading rose or leaves less than no extract', () => {
    expect(alcoholByRefractometer({ originalBrix: 12, presentBrix: 13 }).ok).toBe(false);
    expect(alcoholByRefractometer({ originalBrix: 20, presentBrix: 0 }).ok).toBe(false);
    expect(alcoholByRefractometer({ originalBrix: 4, presentBrix: 2 }).ok).toBe(false);
  });
});
