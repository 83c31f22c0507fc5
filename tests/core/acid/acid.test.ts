import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  aceticFromAlcohol,
  alcoholLeftByTotalConcentration,
  concentrationYield,
  oxygenGramsPerLitre,
  totalConcentration,
} from '#core/acid/acetification.ts';
import { acidityFactor, convertAcidity, EQUIVALENT_MASS } from '#core/acid/acid-equivalents.ts';
import { foreseeVinegar } from '#core/acid/foresee-vinegar.ts';
import {
  baseStrengthFromPhthalate,
  fixedAcidityOfVinegar,
  titratableAcidity,
  titratableAcidityByMass,
  molarityByTitration,
} from '#core/acid/titration.ts';
import { mustSucceed } from '#core/base/result.ts';
import type { Acid } from '#core/quantities/understood.ts';

const acids = Object.keys(EQUIVALENT_MASS) as Acid[];

describe('acidity counted as another acid', () => {
  it('goes there and back', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 150, noNaN: true }),
        fc.constantFrom(...acids),
        fc.constantFrom(...acids),
        (acidity, from, to) => {
          const there = mustSucceed(convertAcidity({ acidity, from, to }));
          expect(mustSucceed(convertAcidity({ acidity: there, from: to, to: from }))).toBeCloseTo(acidity, 9);
          expect(acidityFactor({ from, to }) * acidityFactor({ from: to, to: from })).toBeCloseTo(1, 12);
        },
      ),
    );
  });
  it('refuses less than none', () => {
    expect(convertAcidity({ acidity: -1, from: 'acetic', to: 'malic' }).ok).toBe(false);
  });
});

describe('a titration', () => {
  it('is the same whichever acid it is counted as, once converted', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 100, noNaN: true }),
        fc.constantFrom(0.1, 0.2, 0.5, 1),
        fc.double({ min: 1, max: 25, noNaN: true }),
        fc.constantFrom(...acids),
        (baseMl, normality, sampleMl, acid) => {
          const asAcetic = mustSucceed(titratableAcidity({ baseMl, normality, sampleMl, acid: 'acetic' }));
          const asAcid = mustSucceed(titratableAcidity({ baseMl, normality, sampleMl, acid }));
          expect(asAcid * acidityFactor({ from: acid, to: 'acetic' })).toBeCloseTo(asAcetic, 9);
          expect(titratableAcidityByMass({ baseMl, normality, sampleGrams: sampleMl, acid })).toEqual({
            ok: true,
            value: asAcid,
          });
        },
      ),
    );
  });
  it('with twice the normality needs half the base', () => {
    const one = titratableAcidity({ baseMl: 16, normality: 0.1, sampleMl: 2, acid: 'acetic' });
    const other = titratableAcidity({ baseMl: 8, normality: 0.2, sampleMl: 2, acid: 'acetic' });
    expect(mustSucceed(one)).toBeCloseTo(mustSucceed(other), 12);
  });
  it('is refused without a sample, a strength or a number', () => {
    const good = { baseMl: 10, normality: 0.1, sampleMl: 5, acid: 'acetic' } as const;
    for (const wrong of [
      titratableAcidity({ ...good, sampleMl: 0 }),
      titratableAcidity({ ...good, normality: 0 }),
      titratableAcidity({ ...good, baseMl: -1 }),
      titratableAcidity({ ...good, baseMl: Number.NaN }),
      titratableAcidityByMass({ ...good, sampleGrams: 0 }),
      molarityByTitration({ ...good, sampleMl: Infinity }),
      baseStrengthFromPhthalate({ phthalateGrams: 1, baseMl: 0 }),
      baseStrengthFromPhthalate({ phthalateGrams: 1, baseMl: 10, purity: 0.1 }),
      fixedAcidityOfVinegar(-1),
    ]) {
      expect(wrong).toMatchObject({ ok: false, error: { type: 'OutOfRange' } });
    }
  });
});

describe('acetification', () => {
  it('plans for less than theory, in order', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 20, noNaN: true }), (strength) => {
        const { theory, planLow, planMid, planHigh } = mustSucceed(aceticFromAlcohol(strength));
        expect(planLow).toBeLessThanOrEqual(planMid);
        expect(planMid).toBeLessThanOrEqual(planHigh);
        expect(planHigh).toBeLessThanOrEqual(theory);
      }),
    );
  });
  it('keeps GK when nothing is lost', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 15, noNaN: true }),
        fc.double({ min: 0, max: 3, noNaN: true }),
        (alcoholPercentVol, acidityGramsPer100Ml) => {
          const gk = mustSucceed(totalConcentration({ alcoholPercentVol, acidityGramsPer100Ml }));
          const left = alcoholLeftByTotalConcentration({ totalConcentration: gk, acidityGramsPer100Ml });
          expect(mustSucceed(left)).toBeCloseTo(alcoholPercentVol, 9);
        },
      ),
    );
    const spent = alcoholLeftByTotalConcentration({ totalConcentration: 5, acidityGramsPer100Ml: 6 });
    expect(spent).toEqual({ ok: true, value: 0 });
  });
  it('is refused outside its range', () => {
    for (const wrong of [
      aceticFromAlcohol(21),
      aceticFromAlcohol(-1),
      totalConcentration({ alcoholPercentVol: 5, acidityGramsPer100Ml: 21 }),
      alcoholLeftByTotalConcentration({ totalConcentration: 41, acidityGramsPer100Ml: 1 }),
      concentrationYield({ vinegar: 5, mash: 0 }),
      oxygenGramsPerLitre(Number.NaN),
    ]) {
      expect(wrong).toMatchObject({ ok: false, error: { type: 'OutOfRange' } });
    }
  });
});

describe('the vinegar to come', () => {
  const base = {
    alcoholPercentVol: 6,
    alcoholUncertainty: 0.5,
    acidityGramsPer100Ml: 0.4,
    acidityUncertainty: 0.1,
  };
  it('is foreseen from alcohol and the acid there is', () => {
    const seen = mustSucceed(foreseeVinegar(base));
    expect(seen.theory).toBeCloseTo(0.4 + 6 * 1.0288, 3);
    expect(seen.planMid).toBeCloseTo(0.4 + 6 * 1.0288 * 0.825, 3);
    expect(seen.planLow).toBeLessThan(seen.planMid);
    expect(seen.planHigh).toBeGreaterThan(seen.planMid);
  });
  it('widens with what is not known', () => {
    const loose = mustSucceed(foreseeVinegar({ ...base, alcoholUncertainty: 2 }));
    const close = mustSucceed(foreseeVinegar({ ...base, alcoholUncertainty: 0 }));
    expect(loose.planLow).toBeLessThan(close.planLow);
    expect(loose.planHigh).toBeGreaterThan(close.planHigh);
  });
  it('is never below nothing', () => {
    const weak = foreseeVinegar({
      alcoholPercentVol: 0.2,
      alcoholUncertainty: 1,
      acidityGramsPer100Ml: 0,
      acidityUncertainty: 0.3,
    });
    expect(mustSucceed(weak).planLow).toBe(0);
  });
  it('is refused for what no ferment gives', () => {
    expect(foreseeVinegar({ ...base, alcoholPercentVol: 25 }).ok).toBe(false);
    expect(foreseeVinegar({ ...base, acidityGramsPer100Ml: -1 }).ok).toBe(false);
  });
});
