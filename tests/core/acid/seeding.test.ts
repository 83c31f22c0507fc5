import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { acetificationProgress, type Standing } from '#core/acid/acetification-progress.ts';
import { mashOf, seedToAcidity } from '#core/acid/seeding.ts';
import { mustSucceed } from '#core/base/result.ts';

const base = { alcoholPercentVol: 7, acidityGramsPer100Ml: 0.3 };
const seed = { alcoholPercentVol: 0.2, acidityGramsPer100Ml: 5 };

describe('a seed', () => {
  it('brings the mash to the acidity that was asked for', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.5, max: 200, noNaN: true }),
        fc.double({ min: 0, max: 0.9, noNaN: true }),
        fc.double({ min: 4.5, max: 8, noNaN: true }),
        fc.double({ min: 1, max: 2, noNaN: true }),
        (baseLitres, baseAcid, seedAcid, startAcidity) => {
          const plan = mustSucceed(
            seedToAcidity({
              baseLitres,
              base: { ...base, acidityGramsPer100Ml: baseAcid },
              seed: { ...seed, acidityGramsPer100Ml: seedAcid },
              startAcidity,
            }),
          );
          // The seed is found by adding volumes; weak alcohol and water swell a little when they meet.
          expect(plan.acidityGramsPer100Ml).toBeGreaterThan(startAcidity * 0.999);
          expect(plan.acidityGramsPer100Ml).toBeLessThan(startAcidity * 1.001);
          expect(plan.alcoholPercentVol).toBeLessThan(7);
        },
      ),
    );
  });
  it('is said to be too much, too little, or for a mash outside the advice', () => {
    const mash = (baseStrength: number, seedLitres: number) =>
      mustSucceed(
        mashOf({ baseLitres: 10, base: { ...base, alcoholPercentVol: baseStrength }, seedLitres, seed }),
      ).notes;
    expect(mash(7, 2)).toEqual([]);
    expect(mash(7, 3)).toEqual(['moreSeedThanUsual']);
    expect(mash(7, 0.5)).toEqual(['lessSeedThanUsual']);
    expect(mash(12, 2)).toEqual(['alcoholAboveAdvice']);
    expect(mash(4, 2)).toEqual(['alcoholBelowAdvice']);
    expect(mash(7, 0)).toEqual(['baseIsAcidEnough']);
  });
  it('is none where the base is acid enough', () => {
    const sour = { ...base, acidityGramsPer100Ml: 1.5 };
    expect(
      mustSucceed(seedToAcidity({ baseLitres: 10, base: sour, seed, startAcidity: 1.2 })).seedLitres,
    ).toBe(0);
  });
  it('weaker than the start it should give is refused', () => {
    const weak = { ...seed, acidityGramsPer100Ml: 1 };
    expect(seedToAcidity({ baseLitres: 10, base, seed: weak, startAcidity: 1.2 })).toEqual({
      ok: false,
      error: { type: 'SeedTooWeak', seed: 1, wanted: 1.2 },
    });
    expect(seedToAcidity({ baseLitres: 0, base, seed, startAcidity: 1 }).ok).toBe(false);
    expect(seedToAcidity({ baseLitres: 1, base, seed, startAcidity: 9 }).ok).toBe(false);
  });
});

describe('an acetification under way', () => {
  const standing = (alcohol: number, acid: number): Standing => ({
    alcoholPercentVol: { value: alcohol, uncertainty: 0.3 },
    acidityGramsPer100Ml: { value: acid, uncertainty: 0.2 },
  });
  const notes = (start: Standing, now: Standing) => mustSucceed(acetificationProgress(start, now)).notes;
  it('that loses nothing keeps its GK', () => {
    const progress = mustSucceed(acetificationProgress(standing(8, 1), standing(4, 5)));
    expect(progress.concentrationYield.value).toBe(1);
    expect(progress.acidYield).toBeCloseTo(4 / (4 * 1.0288), 3);
    expect(progress.notes).toEqual([]);
  });
  it('that loses much says so', () => {
    expect(notes(standing(8, 1), standing(2, 5))).toEqual(['totalConcentrationFell']);
  });
  it('that burns its acid says so', () => {
    expect(notes(standing(0.2, 5.5), standing(0.1, 4.8))).toEqual([
      'totalConcentrationFell',
      'acidityFell',
      'alcoholNearlyGone',
    ]);
  });
  it('that claims more acid than the alcohol could make says so', () => {
    expect(notes(standing(5, 0.5), standing(1, 7))).toEqual(['moreAcidThanPossible']);
    expect(notes(standing(5, 0.5), standing(1, 5.2))).toEqual([]);
  });
  it('has no acid yield before alcohol has been used, and needs something to begin with', () => {
    expect(mustSucceed(acetificationProgress(standing(8, 1), standing(7.8, 1.1))).acidYield).toBeNull();
    expect(acetificationProgress(standing(0, 0), standing(0, 0)).ok).toBe(false);
    expect(acetificationProgress(standing(30, 0), standing(0, 0)).ok).toBe(false);
  });
});
