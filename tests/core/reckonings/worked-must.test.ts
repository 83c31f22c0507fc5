import { describe, expect, it } from 'vitest';
import { answerOf, G, KG, L, reckoned, refusalOf, valueOf } from './reckon.ts';
import { near } from './reference-row.ts';

describe('correct a hydrometer', () => {
  it.each(['HYD-SG-1.05-25', 'HYD-SG-1.05-15'])('gives the true gravity of row %s', (id) => {
    const { inputs, expected, tolerance } = near(id);
    const values = { reading: Number(inputs['reading']), temperatureCelsius: Number(inputs['t_C']) };
    expect(Math.abs(valueOf('correctHydrometer', values, 'gravity') - expected)).toBeLessThanOrEqual(
      tolerance,
    );
  });

  it('reads a 60 °F hydrometer in water at 20 °C as water (row HYD-WATER-20-15.6)', () => {
    const { expected } = near('HYD-WATER-20-15.6');
    const values = { reading: expected, temperatureCelsius: 20, calibration: '60F' };
    expect(valueOf('correctHydrometer', values, 'gravity')).toBeCloseTo(1, 4);
  });

  it('leaves a reading alone at the temperature the stem is made for, by definition', () => {
    const values = { reading: 1.048, temperatureCelsius: 20 };
    expect(valueOf('correctHydrometer', values, 'correction')).toBeCloseTo(0, 9);
  });

  it('asks for a sample nearer to 20 °C when a ferment of unknown strength is far from it', () => {
    const values = { reading: 1.01, temperatureCelsius: 28, liquid: 'fermenting' };
    expect(reckoned('correctHydrometer', values).cautions).toContain('bringSampleToTwentyDegrees');
    const close = { ...values, temperatureCelsius: 21 };
    expect(reckoned('correctHydrometer', close).cautions).not.toContain('bringSampleToTwentyDegrees');
    expect(answerOf('correctHydrometer', values, 'gravity').uncertainty ?? 0).toBeGreaterThan(
      answerOf('correctHydrometer', close, 'gravity').uncertainty ?? 0,
    );
  });

  it('takes the error of the method when the keeper gives one too small (rule MEAS-02)', () => {
    const values = { reading: 1.05, temperatureCelsius: 20, readingUncertainty: 0.0001 };
    expect(answerOf('correctHydrometer', values, 'gravity').uncertainty ?? 0).toBeGreaterThan(0.0019);
    expect(reckoned('correctHydrometer', values).cautions).toContain('errorTakenFromMethod');
  });
});

describe('sugar scales', () => {
  it.each(['SUG-SGAPP-11', 'SUG-SGAPP-20'])('turns °Brix into the gravity of row %s', (id) => {
    const { inputs, expected, tolerance } = near(id);
    const grams = near(id.replace('SGAPP', 'GL'));
    const fromGrams = { startFrom: 'gramsPerLitre', sugarGramsPerLitre: grams.expected };
    expect(Math.abs(valueOf('convertSugar', fromGrams, 'gravity') - expected)).toBeLessThanOrEqual(tolerance);
    expect(valueOf('convertSugar', fromGrams, 'brix')).toBeCloseTo(Number(inputs['brix']), 2);
    const back = valueOf('convertSugar', { gravity: expected }, 'sugarGramsPerLitre');
    // A gravity of five decimals tells grams to 0.03.
    expect(Math.abs(back - grams.expected)).toBeLessThan(0.05);
  });

  it('gives the °Plato of row SUG-PLASBC-1.0480', () => {
    const { expected, tolerance } = near('SUG-PLASBC-1.0480');
    expect(Math.abs(valueOf('convertSugar', { gravity: 1.048 }, 'plato') - expected)).toBeLessThanOrEqual(
      tolerance,
    );
  });

  it('does not extend °Plato beyond its table', () => {
    const names = reckoned('convertSugar', { gravity: 1.12 }).answers.map(({ name }) => name);
    expect(names).not.toContain('plato');
  });

  it('says that below the weight of water gravity tells no sugar', () => {
    expect(refusalOf('convertSugar', { gravity: 0.996 })).toEqual({
      type: 'Impossible',
      reason: 'noSugarBelowWater',
      numbers: { gravity: 0.996 },
    });
  });
});

describe('refractometer', () => {
  it.each(['REF-TC-10-10', 'REF-TC-15-20', 'REF-TC-25-15'])('corrects for warmth as row %s', (id) => {
    const { inputs, expected, tolerance } = near(id);
    const values = {
      readingBrix: Number(inputs['reading_pct']),
      temperatureCelsius: Number(inputs['t_C']),
      instrument: 'doesNotCorrect',
    };
    expect(Math.abs(valueOf('refractometer', values, 'correction') - expected)).toBeLessThanOrEqual(
      tolerance,
    );
    expect(valueOf('refractometer', values, 'brix')).toBeCloseTo(
      values.readingBrix + valueOf('refractometer', values, 'correction'),
      9,
    );
  });

  it('does not correct an instrument that corrects itself', () => {
    expect(valueOf('refractometer', { readingBrix: 12 }, 'brix')).toBe(12);
    expect(valueOf('refractometer', { readingBrix: 12 }, 'gravity')).toBeCloseTo(1.04839, 4);
  });

  it('is flagged after fermentation, with the published spread of 7.18 g/L as ±1.8 % vol and more', () => {
    const values = { readWhen: 'afterYeast', originalBrix: 12, presentBrix: 6 };
    const alcohol = answerOf('refractometer', values, 'alcohol');
    // Bavčar and Košmerl 2002: standard deviation 7.18 g/L; twice that over 7.8924 g/L a per cent is 1.82.
    expect(alcohol.uncertainty ?? 0).toBeGreaterThan((2 * 7.18) / 7.8924);
    expect(reckoned('refractometer', values).cautions).toContain('refractometerAfterYeast');
  });

  it('asks for the temperature only of an instrument that does not correct, before yeast', () => {
    const values = { readWhen: 'afterYeast', originalBrix: 12, presentBrix: 6, instrument: 'doesNotCorrect' };
    expect(reckoned('refractometer', values).answers.length).toBeGreaterThan(0);
    expect(refusalOf('refractometer', { readingBrix: 12, instrument: 'doesNotCorrect' })).toEqual({
      type: 'Missing',
      fields: ['temperatureCelsius'],
    });
  });
});

describe('alcohol to expect', () => {
  it('plans with 16.83 g/L for grape, as rows MUST-GL-22.0 and MUST-PA-22.0', () => {
    const sugar = near('MUST-GL-22.0');
    const planned = near('MUST-PA-22.0');
    const values = { gravity: near('SUG-SGAPP-22').expected, fruit: 'grape' };
    expect(valueOf('potentialAlcohol', values, 'sugarGramsPerLitre')).toBeCloseTo(sugar.expected, 0);
    // A gravity of five decimals moves it by less than 0.01 % vol.
    expect(Math.abs(valueOf('potentialAlcohol', values, 'planAlcohol') - planned.expected)).toBeLessThan(
      0.03,
    );
  });

  it('takes fermented sugar water at theory: 216.2 g/L of sucrose (row SUG-GL-20) is 14.75 % vol', () => {
    const values = { gravity: near('SUG-SGAPP-20').expected, fruit: 'sugarWater' };
    // Sucrose gives 0.5384 of its weight in ethanol (row STO of formulas 3): 216.2 × 0.5384 ÷ 7.8924 = 14.75, and the middle of
    // 0.99–1.00 of it 14.67. The older 216.2 ÷ 15.43 = 14.0 forgets the water that sucrose takes up.
    expect(valueOf('potentialAlcohol', values, 'theoryAlcohol')).toBeCloseTo(14.67, 1);
    expect(answerOf('potentialAlcohol', values, 'planAlcohol').range?.high).toBeCloseTo(
      (216.2 * 1.0526) / 16.83,
      1,
    );
    expect(answerOf('potentialAlcohol', values, 'theoryAlcohol').limit).toBe('upper');
  });

  it('gives apple a range, because a tenth and more of its °Brix is not sugar (USDA SR Legacy 09016)', () => {
    const sugar = answerOf('potentialAlcohol', { gravity: 1.048 }, 'sugarGramsPerLitre');
    // 9.62 of 11.30 g carbohydrate is 0.85; at 12 °Bx (125.57 g/L, row SUG-GL-12) that is 107 g/L.
    expect(sugar.range?.low ?? 0).toBeLessThan(107);
    expect(sugar.range?.high ?? 0).toBeGreaterThan(107);
  });
});

describe('sugar and honey to add', () => {
  it('lifts a juice as a mass balance by hand: 10 L of 10 °Bx to 20 °Bx takes 1297.7 g', () => {
    // Mass 10 L × 1.03812 kg/L (row SUG-RHO20-10) = 10 381.2 g; × (20 − 10) ÷ (100 − 20) = 1297.65 g.
    const values = {
      volumeUl: 10 * L,
      gravity: near('SUG-SGAPP-10').expected,
      targetGravity: near('SUG-SGAPP-20').expected,
    };
    expect(valueOf('sugarToAdd', values, 'sweetener') / G).toBeCloseTo(1297.65, -1);
    // (10 381.2 + 1297.65) g ÷ 1.08098 kg/L (row SUG-RHO20-20) = 10.804 L.
    expect(valueOf('sugarToAdd', values, 'volumeAfter') / L).toBeCloseTo(10.804, 2);
    expect(valueOf('sugarToAdd', values, 'gravityAfter')).toBeCloseTo(1.08302, 4);
  });

  it('takes 1.31 times the weight in honey for the same, as 82.4 % of it counts (USDA SR Legacy 19296)', () => {
    // 10 381.2 × 10 ÷ (82.4 − 20) = 1663.7 g.
    const values = {
      volumeUl: 10 * L,
      gravity: near('SUG-SGAPP-10').expected,
      targetGravity: near('SUG-SGAPP-20').expected,
    };
    expect(valueOf('honeyToAdd', values, 'sweetener') / G).toBeCloseTo(1663.7, -1);
    expect(reckoned('honeyToAdd', values).cautions).toContain('honeyNotForInfants');
    expect(reckoned('sugarToAdd', values).cautions).not.toContain('honeyNotForInfants');
  });

  it('fills up the alcohol of water and sugar at 16.83 g/L of invert sugar for each per cent', () => {
    // In water of SG 1.000: litres after × 16.83 × 10 = grams × 1.0526 (row STO-INV-SUC).
    const values = {
      volumeUl: 10 * L,
      gravity: 1,
      aimFor: 'alcohol',
      targetPercentVol: 10,
      fruit: 'sugarWater',
    };
    const grams = valueOf('sugarToAdd', values, 'sweetener') / G;
    const litres = valueOf('sugarToAdd', values, 'volumeAfter') / L;
    expect((grams * 1.0526) / litres / 16.83).toBeCloseTo(10, 2);
  });

  it('refuses what is sweet or strong enough already, and what 50 °Bx cannot give', () => {
    const juice = { volumeUl: 10 * L, gravity: 1.09 };
    expect(refusalOf('sugarToAdd', { ...juice, targetGravity: 1.06 })).toMatchObject({
      reason: 'alreadySweeter',
    });
    expect(refusalOf('sugarToAdd', { ...juice, aimFor: 'alcohol', targetPercentVol: 4 })).toMatchObject({
      reason: 'alreadyStrongEnough',
    });
    expect(
      refusalOf('honeyToAdd', { volumeUl: 10 * L, gravity: 1, aimFor: 'alcohol', targetPercentVol: 18.5 }),
    ).toMatchObject({ type: 'Outside', field: 'targetPercentVol' });
  });

  it('tells a heavy must to be sweetened by parts', () => {
    const values = { volumeUl: 10 * L, gravity: 1.05, targetGravity: 1.12 };
    expect(reckoned('sugarToAdd', values).cautions).toContain('addSugarInParts');
  });
});

describe('yeast and its food', () => {
  it('gives the 20–30 g/hL of row YST-DOSE', () => {
    const [low, high] = near('YST-DOSE').list;
    const yeast = answerOf('yeastDose', { volumeUl: 100 * L }, 'dryYeast');
    expect(yeast.range).toEqual({ low: low * G, high: high * G });
    expect(yeast.value).toBe(25 * G);
  });

  it('brings a honey must from the 50 of row YST-YAN-MEAD to the 140 of row YST-YAN', () => {
    // (140 − 50) mg/L × 10 L ÷ (2 × 14.007 ÷ 132.056) = 900 mg ÷ 0.21214 = 4.243 g.
    const values = { volumeUl: 10 * L, nitrogenFrom: 'honeyMust' };
    expect(valueOf('nutrientDose', values, 'phosphate') / G).toBeCloseTo(4.243, 2);
    expect(valueOf('nutrientDose', values, 'nitrogenShort')).toBe(90);
  });

  it('warns above 1 g/L of diammonium phosphate (Regulation (EU) 2019/934, memory)', () => {
    // 225 − 0 mg/L is 1.06 g/L.
    const strong = { volumeUl: 10 * L, nitrogenMgPerLitre: 0, mustIs: 'strong' };
    expect(reckoned('nutrientDose', strong).cautions).toContain('nitrogenAboveMaximum');
    const { range } = answerOf('nutrientDose', strong, 'phosphate');
    expect((range?.low ?? 0) / G).toBeCloseTo(200 / 21.214, 1);
    expect(refusalOf('nutrientDose', { ...strong, nitrogenMgPerLitre: 300 })).toMatchObject({
      reason: 'enoughNitrogen',
    });
  });
});

describe('harvest day', () => {
  it('goes from fruit to shelf by hand: 100 kg of apples to vinegar', () => {
    // Juice 50–70 L. Lees 3–10 %, racking 1–3 %, mother and air 5–20 %:
    // low 50 × 0.9 × 0.97 × 0.8 = 34.92; high 70 × 0.97 × 0.99 × 0.95 = 63.86 (common practice figures).
    const values = { massUg: 100 * KG, vesselUl: 20 * L, vesselsFree: 2 };
    expect(answerOf('expectedYield', values, 'juiceVolume')).toMatchObject({
      value: 60 * L,
      range: { low: 50 * L, high: 70 * L },
    });
    const shelf = answerOf('expectedYield', values, 'shelfVolume').range;
    expect((shelf?.low ?? 0) / L).toBeCloseTo(34.92, 6);
    expect((shelf?.high ?? 0) / L).toBeCloseTo(63.8599, 3);
    // Whole bottles of 750 ml: 46.56 and 85.15.
    expect(answerOf('expectedYield', values, 'bottles').range).toEqual({ low: 46, high: 85 });
    // A tenth left for foam: 18 L in each; 70 ÷ 18 = 3.9, so four, of which two are short.
    expect(valueOf('expectedYield', values, 'vesselsNeeded')).toBe(4);
    expect(valueOf('expectedYield', values, 'vesselsShort')).toBe(2);
    expect(valueOf('expectedYield', values, 'volumeWithoutRoom') / L).toBeCloseTo(70 - 2 * 18, 9);
  });

  it('asks for no vessels when none are named, and loses nothing for juice', () => {
    const values = { massUg: 100 * KG, makeInto: 'juice' };
    const names = reckoned('expectedYield', values).answers.map(({ name }) => name);
    expect(names).toEqual(['juiceVolume', 'bottles']);
  });
});
