import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { answerOf, G, L, reckoned, reckoningOf, refusalOf, valueOf } from './reckon.ts';
import { near } from './reference-row.ts';

describe('titration', () => {
  it.each(['TA-VOL-16.7-0.1-2.0', 'TA-VOL-10.0-0.5-6.0', 'TA-VOL-8.33-0.1-1.0'])('gives row %s', (id) => {
    const { inputs, expected, tolerance } = near(id);
    const values = {
      baseMl: Number(inputs['V_mL']),
      normality: Number(inputs['N']),
      sampleMl: Number(inputs['sample_mL']),
    };
    expect(Math.abs(valueOf('titration', values, 'acidity') - expected)).toBeLessThanOrEqual(tolerance);
    expect(valueOf('titration', values, 'grain')).toBeCloseTo(10 * expected, 0);
  });

  const plain = { sampleMl: 5, normality: 0.1, baseMl: 40 };

  it('joins drop, pipette and hydroxide in quadrature (GUM), by hand 0.177 at 4.804 %', () => {
    // 40 × 0.1 × 60.052 ÷ 50 = 4.80416. Drop 0.05/40 = 0.125 %, pipette 0.1/5 = 2 %, hydroxide 3 %: 3.608 % = 0.1733.
    expect(valueOf('titration', plain, 'acidity')).toBeCloseTo(4.80416, 5);
    expect(answerOf('titration', plain, 'acidity').uncertainty).toBeCloseTo(
      4.80416 * Math.hypot(0.00125, 0.02, 0.03),
      5,
    );
  });

  it('takes off a blank, and means up to four readings', () => {
    const values = { ...plain, baseMlSecond: 40.2, baseMlThird: 39.8, baseMlFourth: 40.4, blankMl: 0.1 };
    // Mean 40.1, less 0.1: 40 mL.
    expect(valueOf('titration', values, 'acidity')).toBeCloseTo(4.80416, 5);
    expect(valueOf('titration', values, 'meanBaseMl')).toBeCloseTo(40.1, 9);
  });

  it('points at a reading that stands apart by Dixon’s test, and leaves it in', () => {
    const values = { ...plain, baseMlSecond: 40.05, baseMlThird: 40.02, baseMlFourth: 43 };
    expect(reckoned('titration', values).cautions).toEqual(
      expect.arrayContaining(['oneReadingStandsApart', 'readingsScatter']),
    );
    expect(valueOf('titration', values, 'meanBaseMl')).toBeCloseTo(40.7675, 6);
  });

  it('counts a sample that was made up with water as the undiluted one', () => {
    const diluted = { ...plain, baseMl: 4, dilutedTimes: 10 };
    expect(valueOf('titration', diluted, 'acidity')).toBeCloseTo(4.80416, 5);
  });

  it('counts another acid by its equivalent mass and shows the acetic beside it', () => {
    const values = { ...plain, acid: 'tartaric' };
    // 40 × 0.1 × 75.043 ÷ 50 = 6.00344.
    expect(valueOf('titration', values, 'acidityAsAcid')).toBeCloseTo(6.00344, 4);
    expect(valueOf('titration', values, 'acidity')).toBeCloseTo(4.80416, 4);
  });

  it('[MEAS-06] widens to ±15 % for hydroxide of half a year, and says what an unchecked one is worth', () => {
    const older = { ...plain, hydroxide: 'checkedWithinYear' };
    expect(answerOf('titration', older, 'acidity').uncertainty).toBeCloseTo(0.15 * 4.80416, 5);
    expect(reckoned('titration', older).cautions).toContain('hydroxideTooOld');
    expect(reckoned('titration', { ...plain, hydroxide: 'notChecked' }).cautions).toContain(
      'hydroxideNotChecked',
    );
  });

  it('[MEAS-06] warns of gas, of a dark sample by colour, and of the end point of wine', () => {
    const cautions = (more: object) => reckoned('titration', { ...plain, ...more }).cautions;
    expect(cautions({ sample: 'fizzy' })).toContain('shakeOutTheGas');
    expect(cautions({ sample: 'darkAndStill' })).toContain('colourHidesTheEndPoint');
    expect(cautions({ sample: 'darkAndStill', endPoint: 'meterTo8.2' })).not.toContain(
      'colourHidesTheEndPoint',
    );
    expect(cautions({ endPoint: 'meterTo7.0' })).toContain('wineEndPoint');
    expect(cautions({})).toEqual(['hydroxideBurnsEyes', 'fruitAcidCounts']);
  });

  it('refuses a blank above a reading, and more acid than any ferment makes', () => {
    expect(refusalOf('titration', { ...plain, blankMl: 41 })).toMatchObject({ reason: 'blankAboveReading' });
    expect(refusalOf('titration', { ...plain, normality: 1 })).toMatchObject({
      reason: 'acidityImplausible',
    });
  });

  it('rises with what was used, and falls with a larger sample', () => {
    fc.assert(
      fc.property(fc.double({ min: 1, max: 60, noNaN: true }), (ml) => {
        const at = (values: object) => valueOf('titration', { ...plain, ...values }, 'acidity');
        expect(at({ baseMl: ml + 0.5 })).toBeGreaterThan(at({ baseMl: ml }));
        expect(at({ baseMl: ml, sampleMl: 6 })).toBeLessThan(at({ baseMl: ml }));
      }),
    );
  });
});

describe('counted as another acid', () => {
  it.each(['ACID-tartaric-malic', 'ACID-tartaric-acetic', 'ACID-malic-acetic', 'ACID-AWRI'])(
    'gives row %s',
    (id) => {
      const { inputs, expected, tolerance } = near(id);
      const values = {
        acidityGramsPerLitre: 10,
        from: String(inputs['from']),
        to: String(inputs['to']),
        measuredBy: 'exact',
      };
      const answer = answerOf('convertAcid', values, 'acidityGramsPerLitre');
      expect(Math.abs(answer.value - 10 * expected)).toBeLessThanOrEqual(10 * tolerance);
      expect(answer.uncertainty).toBeNull();
    },
  );

  it('carries the error of the method along', () => {
    // ±7 % and at least ±0.3 g/100 mL: of 50 g/L 3.5 g/L, times 0.8002.
    const values = { acidityGramsPerLitre: 50, from: 'tartaric', to: 'acetic' };
    expect(answerOf('convertAcid', values, 'acidityGramsPerLitre').uncertainty).toBeCloseTo(3.5 * 0.8002, 3);
  });

  it('comes back to itself', () => {
    const acids = ['acetic', 'lactic', 'malic', 'tartaric', 'citric', 'sulfuric'];
    fc.assert(
      fc.property(
        fc.constantFrom(...acids),
        fc.constantFrom(...acids),
        fc.double({ min: 0.1, max: 100, noNaN: true }),
        (from, to, grams) => {
          const there = valueOf(
            'convertAcid',
            { acidityGramsPerLitre: grams, from, to },
            'acidityGramsPerLitre',
          );
          const back = { acidityGramsPerLitre: there, from: to, to: from };
          expect(valueOf('convertAcid', back, 'acidityGramsPerLitre')).toBeCloseTo(grams, 9);
        },
      ),
    );
  });
});

describe('dilute a vinegar', () => {
  const vinegar = { volumeUl: 4 * L, acidityGramsPer100Ml: 6.3 };

  it('shows the plain answer of row MIX-DIL-6.3-4.0 beside the safe one', () => {
    const { expected, tolerance } = near('MIX-DIL-6.3-4.0');
    expect(Math.abs(valueOf('diluteToStrength', vinegar, 'waterNaive') / L - expected)).toBeLessThanOrEqual(
      tolerance,
    );
    // By hand: 6.3 − 0.441 = 5.859; 4 − 0.12 = 3.88; 3.88 × (5.859 ÷ 5 − 1) = 0.666584 L.
    expect(valueOf('diluteToStrength', vinegar, 'waterGuaranteed') / L).toBeCloseTo(0.666584, 6);
    // 6.3 × 4 ÷ 4.666584 = 5.40010.
    expect(valueOf('diluteToStrength', vinegar, 'expectedAcidity')).toBeCloseTo(5.4001, 4);
  });

  it('[VIN-02, CAN-01] asks to measure again, and is never for canning', () => {
    expect(reckoned('diluteToStrength', vinegar).cautions).toEqual(
      expect.arrayContaining(['measureAgainAfterWater', 'neverForCanning', 'worksOutNotMeasured']),
    );
    expect(reckoningOf('diluteToStrength')).toMatchObject({
      carriesOut: 'addWater',
      amountAnswer: 'waterGuaranteed',
    });
  });

  it('keeps the target even when both readings are as wrong as they may be', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.5, max: 500, noNaN: true }),
        fc.double({ min: 4, max: 12, noNaN: true }),
        fc.double({ min: 3, max: 6, noNaN: true }),
        fc.double({ min: -1, max: 1, noNaN: true }),
        fc.double({ min: -1, max: 1, noNaN: true }),
        (litres, acidity, target, offVolume, offAcid) => {
          const values = {
            volumeUl: litres * L,
            acidityGramsPer100Ml: acidity,
            targetGramsPer100Ml: target,
          };
          const result = reckoningOf('diluteToStrength').reckon(values);
          fc.pre(result.ok);
          const water = valueOf('diluteToStrength', values, 'waterGuaranteed') / L;
          const truly = {
            litres: litres * (1 + 0.03 * offVolume),
            acidity: acidity + Math.max(0.3, 0.07 * acidity) * offAcid,
          };
          const after = (truly.litres * truly.acidity) / (truly.litres + water);
          expect(after).toBeGreaterThanOrEqual(target - 1e-9);
        },
      ),
      { numRuns: 2000 },
    );
  });

  it('gives less water for a higher target, and refuses when the low end does not reach it', () => {
    const at = (target: number) =>
      valueOf('diluteToStrength', { ...vinegar, targetGramsPer100Ml: target }, 'waterGuaranteed');
    expect(at(4)).toBeGreaterThan(at(4.5));
    expect(at(4.5)).toBeGreaterThan(at(5));
    expect(refusalOf('diluteToStrength', { ...vinegar, targetGramsPer100Ml: 6 })).toMatchObject({
      type: 'Impossible',
      reason: 'tooWeakToDilute',
      numbers: { target: 6 },
    });
  });
});

describe('vinegar to expect', () => {
  it('is theory 1.0288 for each per cent (row STO-ACE-VOL) and a plan of 75 to 90 % of it', () => {
    const { expected } = near('STO-ACE-VOL');
    const values = { alcoholPercentVol: 6 };
    expect(valueOf('foreseeVinegar', values, 'acidityAtMost')).toBeCloseTo(6 * expected, 3);
    // Low 5.5 × 1.0288 × 0.75 = 4.2438; high 6.5 × 1.0288 × 0.90 = 6.0185.
    const { range } = answerOf('foreseeVinegar', values, 'plannedAcidity');
    expect(range?.low).toBeCloseTo(4.2438, 3);
    expect(range?.high).toBeCloseTo(6.0185, 3);
  });

  it('says when the low end falls short of 4 % (FDA CPG 525.825), and that it clears nothing', () => {
    const short = reckoned('foreseeVinegar', { alcoholPercentVol: 5 }).cautions;
    expect(short).toEqual(expect.arrayContaining(['mayFallShortOfVinegar', 'worksOutNotMeasured']));
    expect(reckoned('foreseeVinegar', { alcoholPercentVol: 7 }).cautions).not.toContain(
      'mayFallShortOfVinegar',
    );
  });
});

describe('is anything lost', () => {
  it('adds alcohol and acid (row GK-DEF) and gives the yield of row GK-YIELD', () => {
    const values = { startPercentVol: 8, startGramsPer100Ml: 1, nowPercentVol: 4, nowGramsPer100Ml: 4.55 };
    expect(valueOf('gkCheck', values, 'totalAtStart')).toBe(near('GK-DEF').expected);
    expect(valueOf('gkCheck', values, 'totalNow')).toBeCloseTo(8.55, 9);
    expect(valueOf('gkCheck', values, 'concentrationYield')).toBeCloseTo(100 * near('GK-YIELD').expected, 6);
    // Acid made 3.55 of 4 × 1.0288 = 4.1152: 86.3 %.
    expect(valueOf('gkCheck', values, 'acidYield')).toBeCloseTo(86.27, 1);
  });

  it('warns when the mother burns acid, when hardly any alcohol is left, and of an impossible reading', () => {
    const start = { startPercentVol: 8, startGramsPer100Ml: 1 };
    const cautions = (nowPercentVol: number, nowGramsPer100Ml: number) =>
      reckoned('gkCheck', { ...start, nowPercentVol, nowGramsPer100Ml }).cautions;
    expect(cautions(4, 4.7)).not.toContain('totalConcentrationFell');
    expect(cautions(0.3, 5)).toEqual(expect.arrayContaining(['totalConcentrationFell', 'alcoholNearlyGone']));
    expect(cautions(7.9, 4)).toContain('moreAcidThanPossible');
    expect(
      reckoned('gkCheck', {
        startPercentVol: 2,
        startGramsPer100Ml: 6,
        nowPercentVol: 2,
        nowGramsPer100Ml: 4,
      }).cautions,
    ).toContain('acidityFell');
  });
});

describe('air for the mother', () => {
  it('gives row ACF-O2-L: a litre of 6 % takes 32.9 g, 23 L of oxygen, 110 L of air', () => {
    const { expected, tolerance } = near('ACF-O2-L');
    const values = { volumeUl: L, alcoholPercentVol: 6 };
    expect(Math.abs(valueOf('acetificationOxygen', values, 'oxygenGrams') - expected)).toBeLessThanOrEqual(
      tolerance,
    );
    expect(valueOf('acetificationOxygen', values, 'oxygenLitres')).toBeCloseTo(23.0, 1);
    expect(valueOf('acetificationOxygen', values, 'airLitres')).toBeCloseTo(110, 0);
  });
});

describe('pH of plain acid', () => {
  it.each([
    ['PH-ACE-0.1', 0.1],
    ['PH-ACE-0.5', 0.5],
    ['PH-ACE-1.0', 1],
  ])('gives row %s', (id, moles) => {
    const { expected, tolerance } = near(id);
    const values = { acidityGramsPer100Ml: moles * 6.0052 };
    expect(Math.abs(valueOf('phOfAcetic', values, 'pureAcidPh') - expected)).toBeLessThanOrEqual(tolerance);
    expect(valueOf('phOfAcetic', values, 'molesPerLitre')).toBeCloseTo(moles, 4);
  });

  it('[MEAS-11] falls by a third of a pH while the acid rises fivefold, so it tells no strength', () => {
    const at = (grams: number) => valueOf('phOfAcetic', { acidityGramsPer100Ml: grams }, 'pureAcidPh');
    // 1 % is pH 2.77 and 5 % pH 2.42, by the formulas of the reference pack.
    expect(at(1)).toBeCloseTo(2.77, 2);
    expect(at(5)).toBeCloseTo(2.42, 2);
    expect(reckoned('phOfAcetic', { acidityGramsPer100Ml: 5 }).cautions).toContain('phIsNotStrength');
  });
});

describe('pH beside acidity', () => {
  it('finds the bound base of a textbook titration: half neutralised at pH = pKa (Henderson–Hasselbalch)', () => {
    // 0.1 mol/L at pH 4.756: 50 mmol/L bound; capacity of row PH-BUF-0.1-4.756.
    const values = { acidityGramsPer100Ml: 0.60052, pH: 4.756 };
    expect(valueOf('bufferCheck', values, 'boundBase')).toBeCloseTo(50, 0);
    expect(valueOf('bufferCheck', values, 'bufferCapacity')).toBeCloseTo(
      1000 * near('PH-BUF-0.1-4.756').expected,
      0,
    );
  });

  it('refuses a pH lower than the acid can give, and takes one within the error for no base', () => {
    expect(refusalOf('bufferCheck', { acidityGramsPer100Ml: 5, pH: 2 })).toMatchObject({
      reason: 'moreAcidThanSaid',
    });
    expect(valueOf('bufferCheck', { acidityGramsPer100Ml: 5, pH: 2.4 }, 'boundBase')).toBe(0);
  });
});

describe('sulfite', () => {
  it.each(['SO2-FRAC-3.0', 'SO2-FRAC-3.4', 'SO2-FRAC-3.6'])('gives the active share of row %s', (id) => {
    const { inputs, expected, tolerance } = near(id);
    const values = { freeMgPerLitre: 30, pH: Number(inputs['pH']) };
    expect(Math.abs(valueOf('molecularSulfite', values, 'molecularShare') - expected)).toBeLessThanOrEqual(
      tolerance,
    );
    expect(valueOf('molecularSulfite', values, 'molecularSulfite')).toBeCloseTo((30 * expected) / 100, 2);
  });

  it.each(['SO2-NEED08-3.4', 'SO2-NEED08-3.6'])('gives the free sulfite of row %s', (id) => {
    const { inputs, expected, tolerance } = near(id);
    const values = { freeMgPerLitre: 0, pH: Number(inputs['pH']), volumeUl: 10 * L };
    expect(Math.abs(valueOf('sulfiteToAdd', values, 'freeWanted') - expected)).toBeLessThanOrEqual(tolerance);
  });

  it('weighs out as row SO2-DOSE: 0.868 g for 50 mg/L in 10 L, and 1 g of an old powder', () => {
    const { expected } = near('SO2-DOSE');
    // pH 3.6 wants 50.1 mg/L by row SO2-NEED08-3.6.
    const wanted = near('SO2-NEED08-3.6').expected;
    const values = { volumeUl: 10 * L, pH: 3.6, freeMgPerLitre: wanted - 50 };
    const grams = answerOf('sulfiteToAdd', values, 'metabisulfite');
    expect(grams.value / G).toBeCloseTo(expected, 2);
    expect((grams.range?.high ?? 0) / G).toBeCloseTo(1, 2);
    expect(valueOf('sulfiteToAdd', { ...values, powder: 'stoodOpen' }, 'metabisulfite') / G).toBeCloseTo(
      1,
      2,
    );
  });

  it('refuses where the pH is so high that no sulfite would do: 0.8 × (1 + 10^(4.9 − 1.81)) is 985 mg/L', () => {
    const error = refusalOf('sulfiteToAdd', { volumeUl: 10 * L, pH: 4.9, freeMgPerLitre: 0 });
    expect(error).toMatchObject({ reason: 'tooMuchSulfite' });
    if (error.type === 'Impossible') expect(error.numbers['wanted']).toBeCloseTo(985, 0);
  });

  it('[WIN-01, WIN-02] warns of the gas, of asthma, of the label, and of what it does to a mother', () => {
    const values = { volumeUl: 10 * L, pH: 3.4, freeMgPerLitre: 5 };
    expect(reckoned('sulfiteToAdd', values).cautions).toEqual(
      expect.arrayContaining(['sulfiteGas', 'declareSulfite', 'sulfiteStopsVinegar', 'someSulfiteBinds']),
    );
    // Du Toit et al. 2005 (memory): 0.05 to 0.6 mg/L molecular by strain; 20 mg/L free protects wine.
    expect(reckoned('molecularSulfite', { freeMgPerLitre: 25, pH: 4 }).cautions).toContain(
      'sulfiteMayHinderVinegar',
    );
    expect(reckoned('molecularSulfite', { freeMgPerLitre: 30, pH: 3.4 }).cautions).toContain(
      'sulfiteStopsVinegar',
    );
    expect(refusalOf('sulfiteToAdd', { ...values, freeMgPerLitre: 60 })).toMatchObject({
      reason: 'enoughSulfite',
    });
  });
});

describe('seed a base', () => {
  const base = { baseVolumeUl: 10 * L, basePercentVol: 7, baseGramsPer100Ml: 0.3 };

  it('gives rows MIX-SEED-7.0-5.0 and MIX-SEEDALC-7.0-5.0 for 2.5 L of 5 % vinegar', () => {
    const acid = near('MIX-SEED-7.0-5.0');
    const alcohol = near('MIX-SEEDALC-7.0-5.0');
    const values = {
      ...base,
      lookFor: 'whatItGives',
      seedGramsPer100Ml: 5,
      seedPercentVol: 0.2,
      seedVolumeUl: 2.5 * L,
    };
    expect(Math.abs(valueOf('seedMother', values, 'acidity') - acid.expected)).toBeLessThanOrEqual(
      acid.tolerance,
    );
    expect(Math.abs(valueOf('seedMother', values, 'alcohol') - alcohol.expected)).toBeLessThanOrEqual(
      alcohol.tolerance,
    );
  });

  it('finds the seed that gives the start wanted, by hand 2.5 L for 1.24 %', () => {
    const values = { ...base, seedGramsPer100Ml: 5, seedPercentVol: 0.2, startGramsPer100Ml: 1.24 };
    // 10 × (1.24 − 0.3) ÷ (5 − 1.24) = 2.5 L.
    expect(valueOf('seedMother', values, 'seedVolume') / L).toBeCloseTo(2.5, 9);
    expect(valueOf('seedMother', values, 'seedShare')).toBeCloseTo(25, 9);
    expect(reckoned('seedMother', values).cautions).toContain('seedMustBeAlive');
    expect(reckoningOf('seedMother')).toMatchObject({ carriesOut: 'seed', amountAnswer: 'seedVolume' });
  });

  it('warns of a mash outside the advised strength, and refuses a seed that is too weak', () => {
    expect(
      reckoned('seedMother', { baseVolumeUl: 10 * L, basePercentVol: 14, seedGramsPer100Ml: 6 }).cautions,
    ).toContain('alcoholAboveAdvice');
    expect(
      reckoned('seedMother', { baseVolumeUl: 10 * L, basePercentVol: 5, seedGramsPer100Ml: 6 }).cautions,
    ).toContain('alcoholBelowAdvice');
    expect(refusalOf('seedMother', { ...base, seedGramsPer100Ml: 1.2 })).toMatchObject({
      reason: 'seedTooWeak',
    });
    expect(
      reckoned('seedMother', { ...base, baseGramsPer100Ml: 2, seedGramsPer100Ml: 6 }).cautions,
    ).toContain('baseIsAcidEnough');
  });

  it('needs less of a stronger seed', () => {
    const at = (seedGramsPer100Ml: number) =>
      valueOf('seedMother', { ...base, seedGramsPer100Ml }, 'seedVolume');
    fc.assert(
      fc.property(fc.double({ min: 3, max: 14, noNaN: true }), (acid) => {
        expect(at(acid + 0.5)).toBeLessThan(at(acid));
      }),
    );
  });
});
