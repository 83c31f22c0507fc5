import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { answerOf, L, reckoned, reckoningOf, refusalOf, valueOf } from './reckon.ts';
import { near } from './reference-row.ts';

describe('alcohol from gravities', () => {
  it('uses the excise table of row GRV-UKABV-1040-1010', () => {
    const { expected, tolerance } = near('GRV-UKABV-1040-1010');
    const values = { originalGravity: 1.04, presentGravity: 1.01 };
    expect(Math.abs(valueOf('alcoholFromGravities', values, 'alcohol') - expected)).toBeLessThanOrEqual(
      tolerance,
    );
    expect(valueOf('alcoholFromGravities', values, 'gravityLost')).toBeCloseTo(30, 9);
  });

  it('sets Balling beside it, as row GRV-ABV-12-2.5', () => {
    const { expected, tolerance } = near('GRV-ABV-12-2.5');
    // 12 and 2.5 °P by row SUG-SGAPP-12 and by 2.5 × 0.00393 about.
    const values = { originalGravity: near('SUG-SGAPP-12').expected, presentGravity: 1.00976 };
    expect(
      Math.abs(valueOf('alcoholFromGravities', values, 'alcoholBalling') - expected),
    ).toBeLessThanOrEqual(tolerance);
  });

  it('knows it no better than ±0.5 % vol by an ordinary hydrometer, ±0.3 at best (policy table)', () => {
    const values = { originalGravity: 1.05, presentGravity: 1 };
    const ordinary = answerOf('alcoholFromGravities', values, 'alcohol').uncertainty ?? 0;
    const narrow =
      answerOf('alcoholFromGravities', { ...values, measuredBy: 'hydrometerNarrow' }, 'alcohol')
        .uncertainty ?? 0;
    expect(ordinary).toBeGreaterThanOrEqual(0.5);
    expect(narrow).toBeGreaterThanOrEqual(0.3);
    expect(narrow).toBeLessThan(ordinary);
  });

  it('offers no Balling for a dry drink, which stands below its scale', () => {
    const names = reckoned('alcoholFromGravities', {
      originalGravity: 1.05,
      presentGravity: 0.996,
    }).answers.map(({ name }) => name);
    expect(names).not.toContain('alcoholBalling');
  });

  it('refuses a gravity that rose, which is a vinegar or a slip', () => {
    expect(refusalOf('alcoholFromGravities', { originalGravity: 1.01, presentGravity: 1.02 })).toMatchObject({
      type: 'Impossible',
      reason: 'gravityRose',
    });
  });

  it('rises as the gravity falls', () => {
    const at = (presentGravity: number) =>
      valueOf('alcoholFromGravities', { originalGravity: 1.08, presentGravity }, 'alcohol');
    fc.assert(
      fc.property(fc.double({ min: 0.99, max: 1.08, noNaN: true }), (gravity) => {
        expect(at(gravity - 0.001)).toBeGreaterThan(at(gravity));
      }),
    );
  });
});

describe('extract and alcohol by Tabarié', () => {
  it('gives rows GRV-TAB-DR-0.992-12.0 and GRV-TAB-EX-0.992-12.0', () => {
    // 0.992 g/mL over water of 0.9982031, weighed in air: (992 − 1.2) ÷ (998.2031 − 1.2).
    const values = { gravity: (992 - 1.2) / (998.2031 - 1.2), alcoholPercentVol: 12 };
    const residue = near('GRV-TAB-DR-0.992-12.0');
    const extract = near('GRV-TAB-EX-0.992-12.0');
    expect(Math.abs(valueOf('tabarie', values, 'residueGravity') - residue.expected)).toBeLessThanOrEqual(
      residue.tolerance,
    );
    expect(
      Math.abs(valueOf('tabarie', values, 'extractGramsPerLitre') - extract.expected),
    ).toBeLessThanOrEqual(extract.tolerance);
  });

  it('goes the other way: the same two gravities give the 12 % back', () => {
    const values = {
      lookFor: 'alcohol',
      gravity: (992 - 1.2) / (998.2031 - 1.2),
      // The true gravity of the residue weighed in air: (1.00966 × 998.2031 − 1.2) ÷ (998.2031 − 1.2).
      residueGravity: (near('GRV-TAB-DR-0.992-12.0').expected * 998.2031 - 1.2) / (998.2031 - 1.2),
    };
    expect(valueOf('tabarie', values, 'alcohol')).toBeCloseTo(12, 1);
  });

  it('refuses readings that leave less than no extract, and a residue lighter than the drink', () => {
    expect(refusalOf('tabarie', { gravity: 0.98, alcoholPercentVol: 8 })).toMatchObject({
      reason: 'noExtractLeft',
    });
    expect(refusalOf('tabarie', { lookFor: 'alcohol', gravity: 1.01, residueGravity: 1.005 })).toMatchObject({
      reason: 'residueTooLight',
    });
  });
});

describe('blend two', () => {
  const spirit = { firstVolumeUl: 50 * L, firstPercentVol: 100, secondVolumeUl: 50 * L };

  it('shrinks as OIML R 22 says: 50 L and 50 L give 96.46 L at 51.83 % vol (row MIX-VOL-100-50-0-50)', () => {
    const { expected, tolerance } = near('MIX-VOL-100-50-0-50');
    expect(Math.abs(valueOf('blendTwo', spirit, 'volumeAfter') / L - expected)).toBeLessThanOrEqual(
      tolerance,
    );
    expect(valueOf('blendTwo', spirit, 'contraction') / L).toBeCloseTo(100 - expected, 2);
    // The strength is that of the formulas of the reference pack, section 10.
    expect(valueOf('blendTwo', spirit, 'alcohol')).toBeCloseTo(51.83, 2);
    expect(reckoned('blendTwo', spirit).cautions).toContain('neverConcentrate');
  });

  it('keeps acid and sugar by hand: 10 L at 6 % and 60 g/L with 5 L of water give 4 % and 40 g/L', () => {
    const values = {
      firstVolumeUl: 10 * L,
      firstGramsPer100Ml: 6,
      firstSugarGramsPerLitre: 60,
      secondVolumeUl: 5 * L,
    };
    expect(valueOf('blendTwo', values, 'acidity')).toBeCloseTo(4, 9);
    expect(valueOf('blendTwo', values, 'sugarGramsPerLitre')).toBeCloseTo(40, 9);
  });

  it('loses no gram of alcohol, acid or sugar', () => {
    const part = fc.record({
      litres: fc.double({ min: 0.1, max: 500, noNaN: true }),
      alcohol: fc.double({ min: 0, max: 96, noNaN: true }),
      acid: fc.double({ min: 0, max: 15, noNaN: true }),
      sugar: fc.double({ min: 0, max: 400, noNaN: true }),
    });
    fc.assert(
      fc.property(part, part, (one, two) => {
        const values = {
          firstVolumeUl: one.litres * L,
          firstPercentVol: one.alcohol,
          firstGramsPer100Ml: one.acid,
          firstSugarGramsPerLitre: one.sugar,
          secondVolumeUl: two.litres * L,
          secondPercentVol: two.alcohol,
          secondGramsPer100Ml: two.acid,
          secondSugarGramsPerLitre: two.sugar,
        };
        const found = new Map(reckoned('blendTwo', values).answers.map(({ name, value }) => [name, value]));
        const after = (found.get('volumeAfter') ?? Number.NaN) / L;
        const kept = (name: string, before: number) => {
          const grams = (found.get(name) ?? Number.NaN) * after;
          expect(Math.abs(grams - before)).toBeLessThanOrEqual(1e-6 * Math.max(1, before));
        };
        kept('acidity', one.litres * one.acid + two.litres * two.acid);
        kept('sugarGramsPerLitre', one.litres * one.sugar + two.litres * two.sugar);
        kept('alcohol', one.litres * one.alcohol + two.litres * two.alcohol);
        const measured = one.litres + two.litres;
        expect(after + (found.get('contraction') ?? Number.NaN) / L).toBeCloseTo(measured, 6);
      }),
    );
  });

  it('does not depend on which is called the first', () => {
    const there = { firstVolumeUl: 3 * L, firstPercentVol: 14, secondVolumeUl: 7 * L, secondPercentVol: 40 };
    const back = { firstVolumeUl: 7 * L, firstPercentVol: 40, secondVolumeUl: 3 * L, secondPercentVol: 14 };
    expect(valueOf('blendTwo', there, 'alcohol')).toBeCloseTo(valueOf('blendTwo', back, 'alcohol'), 12);
  });

  it('has nothing to say of nothing', () => {
    expect(refusalOf('blendTwo', { firstVolumeUl: 0, secondVolumeUl: 0 })).toMatchObject({
      reason: 'nothingToBlend',
    });
  });
});

describe('blend to a target', () => {
  it.each(['MIX-PEARSON-7.2-5.0-0.0', 'MIX-PEARSON-6.4-5.0-4.2'])('follows the square of row %s', (id) => {
    const { inputs, list } = near(id);
    const values = {
      volumeUl: 10 * L,
      firstGramsPer100Ml: Number(inputs['c1']),
      secondGramsPer100Ml: Number(inputs['c2']),
      targetGramsPer100Ml: Number(inputs['target']),
    };
    expect(valueOf('blendToTarget', values, 'secondVolume') / L).toBeCloseTo((10 * list[1]) / list[0], 6);
  });

  it('blends to a strength that blending two then shows', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 20, max: 90, noNaN: true }),
        fc.double({ min: 0, max: 10, noNaN: true }),
        fc.double({ min: 0.05, max: 0.95, noNaN: true }),
        (strong, weak, way) => {
          const target = weak + way * (strong - weak);
          const litres = valueOf(
            'blendToTarget',
            {
              aimFor: 'alcohol',
              volumeUl: 10 * L,
              firstPercentVol: strong,
              secondPercentVol: weak,
              targetPercentVol: target,
            },
            'secondVolume',
          );
          const blended = valueOf(
            'blendTwo',
            {
              firstVolumeUl: 10 * L,
              firstPercentVol: strong,
              secondVolumeUl: litres,
              secondPercentVol: weak,
            },
            'alcohol',
          );
          expect(blended).toBeCloseTo(target, 6);
        },
      ),
    );
  });

  it('refuses a target that no blend of the two reaches', () => {
    const values = { volumeUl: 10 * L, firstGramsPer100Ml: 6, secondGramsPer100Ml: 4 };
    for (const target of [3.9, 4, 6.1]) {
      expect(refusalOf('blendToTarget', { ...values, targetGramsPer100Ml: target })).toMatchObject({
        reason: 'targetOutsideBoth',
      });
    }
    expect(valueOf('blendToTarget', { ...values, targetGramsPer100Ml: 6 }, 'secondVolume')).toBe(0);
  });
});

describe('dilute a wine', () => {
  it('brings 10 L of 95 % vol to 10.87 with the 90 L of row MIX-VOL-95-10-0-90', () => {
    const { expected } = near('MIX-VOL-95-10-0-90');
    // 10 L × 95 % in 99.419 L is 9.5554 % by volume: the alcohol is kept.
    const target = (10 * 95) / expected;
    const values = { volumeUl: 10 * L, alcoholPercentVol: 95, targetPercentVol: target };
    expect(valueOf('diluteAlcohol', values, 'water') / L).toBeCloseTo(90, 1);
    expect(valueOf('diluteAlcohol', values, 'volumeAfter') / L).toBeCloseTo(expected, 2);
  });

  it('needs more water for a weaker wine', () => {
    const at = (targetPercentVol: number) =>
      valueOf('diluteAlcohol', { volumeUl: 10 * L, alcoholPercentVol: 14, targetPercentVol }, 'water');
    fc.assert(
      fc.property(fc.double({ min: 0.2, max: 13, noNaN: true }), (target) => {
        expect(at(target)).toBeGreaterThan(at(target + 0.1));
      }),
    );
  });

  it('refuses to strengthen with water', () => {
    expect(
      refusalOf('diluteAlcohol', { volumeUl: 10 * L, alcoholPercentVol: 8, targetPercentVol: 9 }),
    ).toMatchObject({ reason: 'targetAboveStrength' });
  });

  it('is carried out as water', () => {
    expect(reckoningOf('diluteAlcohol')).toMatchObject({ carriesOut: 'addWater', amountAnswer: 'water' });
  });
});

describe('units', () => {
  it('follows NIST SP 811: a US gallon, an imperial gallon, a pound, 68 °F', () => {
    expect(valueOf('convertUnits', { volumeUl: 3_785_411.784 }, 'usGallons')).toBeCloseTo(1, 12);
    expect(valueOf('convertUnits', { volumeUl: 4_546_090 }, 'imperialGallons')).toBeCloseTo(1, 12);
    expect(valueOf('convertUnits', { volumeUl: 4_546_090 }, 'usGallons')).toBeCloseTo(1.20095, 5);
    expect(valueOf('convertUnits', { convert: 'mass', massUg: 453_592_370 }, 'pounds')).toBeCloseTo(1, 12);
    expect(valueOf('convertUnits', { convert: 'mass', massUg: 453_592_370 }, 'ounces')).toBeCloseTo(16, 12);
    const warm = { convert: 'temperature', temperatureCelsius: 20 };
    expect(valueOf('convertUnits', warm, 'fahrenheit')).toBe(68);
    expect(valueOf('convertUnits', warm, 'kelvin')).toBe(293.15);
  });
});
