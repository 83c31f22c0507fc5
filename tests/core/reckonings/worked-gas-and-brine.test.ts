import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { answerOf, G, KG, L, reckoned, reckoningOf, valueOf } from './reckon.ts';
import { near } from './reference-row.ts';

describe('gas given off', () => {
  it('is 0.9553 g for a gram of alcohol (row STO-CO2-ET): 10 L to 6 % vol by hand 452 g', () => {
    // 6 × 7.8924 × 10 × 0.9553 = 452.4 g; over 1.977 g/L (row CO2-VOLUME) 228.8 L.
    const values = { volumeUl: 10 * L, alcoholMadePercentVol: 6 };
    const grams = 60 * near('ALC-GL-PER-VOL').expected * near('STO-CO2-ET').expected;
    expect(valueOf('carbonDioxideEvolved', values, 'gasGrams')).toBeCloseTo(grams, 0);
    expect(valueOf('carbonDioxideEvolved', values, 'gasLitres')).toBeCloseTo(
      grams / near('CO2-VOLUME').expected,
      0,
    );
    expect(reckoned('carbonDioxideEvolved', values).cautions).toContain('ventilateFirst');
  });
});

describe('cellar air', () => {
  const room = { volumeUl: 100 * L, pointsPerDay: 5, roomCubicMetres: 20 };

  it('[CO2-02] is litres × points × 0.67 over the room: by hand 16 750 ppm a day', () => {
    // 100 × 5 × 0.67 = 335 L in 20 000 L.
    expect(valueOf('cellarAir', room, 'gasLitresPerDay')).toBeCloseTo(335, 9);
    expect(valueOf('cellarAir', room, 'ppmPerDay')).toBeCloseTo(16_750, 6);
    // 24 × 5000 ÷ 16 750 = 7.164 h.
    expect(valueOf('cellarAir', room, 'hoursToWorkdayLimit')).toBeCloseTo(7.164, 3);
    expect(answerOf('cellarAir', room, 'ppmPerDay').limit).toBe('upper');
  });

  it('[CO2-01] tells the limits of 5 000, 30 000 and 40 000 ppm by the high end of the error', () => {
    const cautions = (litres: number) =>
      reckoned('cellarAir', { ...room, volumeUl: litres * L, pointsUncertainty: 0.5 }).cautions;
    // 168 ppm for a litre; U about 14 %.
    expect(cautions(10)).toEqual(expect.arrayContaining(['ventilateFirst', 'candleIsNoTest']));
    expect(cautions(10)).not.toContain('airAboveWorkdayLimit');
    expect(cautions(28)).toContain('airAboveWorkdayLimit');
    expect(cautions(165)).toContain('airAboveShortTermLimit');
    expect(cautions(300)).toContain('airDangerToLife');
  });

  it('always says to air the room first, even when nothing ferments', () => {
    const idle = { ...room, pointsPerDay: 0, pointsUncertainty: 0 };
    expect(reckoned('cellarAir', idle).cautions).toContain('ventilateFirst');
    expect(reckoned('cellarAir', idle).answers.map(({ name }) => name)).not.toContain('hoursToWorkdayLimit');
  });

  it('is worse in a smaller room and with more at work', () => {
    const at = (more: object) => valueOf('cellarAir', { ...room, ...more }, 'ppmPerDay');
    fc.assert(
      fc.property(fc.double({ min: 1, max: 500, noNaN: true }), (size) => {
        expect(at({ roomCubicMetres: size })).toBeGreaterThan(at({ roomCubicMetres: size * 1.1 }));
        expect(at({ volumeUl: size * L, roomCubicMetres: 1000 })).toBeLessThan(
          at({ volumeUl: 1.1 * size * L, roomCubicMetres: 1000 }),
        );
      }),
    );
  });
});

describe('before you seal it', () => {
  const dry = {
    firstReading: 0.9985,
    secondReading: 0.998,
    alcoholPercentVol: 6,
    hoursBetween: 72,
    hoursSinceLast: 4,
    bottle: 'sparkling',
  };

  it('[PRS-02] counts one point for a drink that stands still and dry: 0.9 + 0.7 + 0.26 × 8 = 3.68 volumes', () => {
    const primed = { ...dry, primingGramsPerLitre: 8 };
    expect(valueOf('sealedBottle', primed, 'gasVolumes')).toBeCloseTo(3.68, 9);
    expect(valueOf('sealedBottle', primed, 'volumesToSpare')).toBeCloseTo(6 - 3.68, 9);
    const { cautions } = reckoned('sealedBottle', primed);
    expect(cautions).not.toContain('notProvenFinished');
    expect(cautions).not.toContain('moreGasThanBottleHolds');
    // CO2-PRIME: 4 g/L of sucrose is about 1.04 volumes, as 0.26 a gram says.
    expect(4 * 0.26).toBeCloseTo(1.04, 9);
  });

  it('[PRS-02] counts all that may still go when it is not proven finished', () => {
    // By hand: SG 1.006 at 20 °C with ±0.002: (1.008 − 0.996) × 1000 = 12 points; 0.9 + 0.7 × 12 = 9.3 volumes.
    const sweet = { ...dry, firstReading: 1.01, secondReading: 1.006, alcoholPercentVol: 0 };
    expect(valueOf('sealedBottle', sweet, 'gasVolumes')).toBeCloseTo(9.3, 6);
    expect(reckoned('sealedBottle', sweet).cautions).toEqual(
      expect.arrayContaining(['notProvenFinished', 'gravityStillFalling', 'moreGasThanBottleHolds']),
    );
  });

  it('[PRS-01] is not proven finished when the readings are too close in time, too old or apart', () => {
    const cautions = (more: object) => reckoned('sealedBottle', { ...dry, ...more }).cautions;
    expect(cautions({ hoursBetween: 47 })).toContain('notProvenFinished');
    expect(cautions({ hoursBetween: 48 })).not.toContain('notProvenFinished');
    expect(cautions({ hoursSinceLast: 73 })).toContain('notProvenFinished');
    expect(cautions({ firstReading: 0.9995 })).toContain('notProvenFinished');
    expect(cautions({ firstReading: 1.008, secondReading: 1.008 })).toContain('stuckNotFinished');
  });

  it('[PRS-01] compares at 20 °C: the same stem reading warm and cold is not the same gravity', () => {
    const apart = { ...dry, firstReading: 0.998, firstCelsius: 30 };
    expect(valueOf('sealedBottle', apart, 'gravitySpread')).toBeGreaterThan(0.001);
    expect(reckoned('sealedBottle', apart).cautions).toContain('notProvenFinished');
  });

  it('[PRS-03] never lets an unrated vessel go without its warning', () => {
    const jar = { ...dry, bottle: 'unrated' };
    expect(reckoned('sealedBottle', jar).cautions).toEqual(
      expect.arrayContaining(['unratedNeverGasTight', 'moreGasThanBottleHolds']),
    );
  });

  it('[PRS-02] warns within half a volume of the rating, and takes a maker’s own', () => {
    const made = (ratingVolumes: number) =>
      reckoned('sealedBottle', { ...dry, bottle: 'makerRated', ratingVolumes }).cautions;
    expect(made(1.5)).toContain('moreGasThanBottleHolds');
    expect(made(2)).toContain('nearTheRating');
    expect(made(2.2)).not.toContain('nearTheRating');
  });

  it('gives the pressures of Liger-Belair et al. 2017 (rows CO2-CHAMP-6 and CO2-CHAMP-20)', () => {
    // 8.55 g in 0.75 L is 5.766 volumes; priming that gives them: (5.766 − 0.9 − 0.7) ÷ 0.26 = 16.02 g/L.
    const grams = 8.55 / 0.75 / near('CO2-VOLUME').expected;
    const bottle = {
      ...dry,
      primingGramsPerLitre: (grams - 0.9 - 0.7) / 0.26,
      bottleUl: 0.75 * L,
      headspaceUl: 0.025 * L,
    };
    for (const id of ['CO2-CHAMP-6', 'CO2-CHAMP-20']) {
      const { inputs, expected, tolerance } = near(id);
      const bar = valueOf(
        'sealedBottle',
        { ...bottle, warmestCelsius: Number(inputs['t_C']) },
        'pressureAtWarmest',
      );
      expect(Math.abs(bar - expected)).toBeLessThanOrEqual(tolerance);
    }
  });

  it('holds more gas with more sugar, and more pressure in the warmth', () => {
    const at = (more: object, name: string) => valueOf('sealedBottle', { ...dry, ...more }, name);
    fc.assert(
      fc.property(fc.double({ min: 0, max: 30, noNaN: true }), (x) => {
        expect(at({ primingGramsPerLitre: x + 1 }, 'gasVolumes')).toBeGreaterThan(
          at({ primingGramsPerLitre: x }, 'gasVolumes'),
        );
        expect(at({ warmestCelsius: x + 1 }, 'pressureAtWarmest')).toBeGreaterThan(
          at({ warmestCelsius: x }, 'pressureAtWarmest'),
        );
      }),
    );
  });
});

describe('salt by weight', () => {
  it('is of the whole: 1 kg of cabbage to 2.25 % takes 23.02 g (row BRINE-KRAUT counts salt on cabbage)', () => {
    // 1000 × 2.25 ÷ 97.75 = 23.018 g, which is 2.3 % on the cabbage, inside the 2.0–2.5 of the row.
    const values = { vegetablesUg: KG, targetPercent: 2.25 };
    const grams = valueOf('equilibriumSalt', values, 'salt') / G;
    expect(grams).toBeCloseTo(23.018, 3);
    const [low, high] = near('BRINE-KRAUT').list;
    expect(grams / 10).toBeGreaterThan(low);
    expect(grams / 10).toBeLessThan(high);
    expect(reckoningOf('equilibriumSalt')).toMatchObject({ carriesOut: 'addSalt', amountAnswer: 'salt' });
  });

  it('goes there and back', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 100, max: 50_000, noNaN: true }),
        fc.double({ min: 0, max: 20_000, noNaN: true }),
        fc.double({ min: 0.5, max: 14, noNaN: true }),
        (vegetables, water, percent) => {
          const weighed = { vegetablesUg: vegetables * G, waterUg: water * G };
          const salt = valueOf('equilibriumSalt', { ...weighed, targetPercent: percent }, 'salt');
          const back = { ...weighed, lookFor: 'whatItComesTo', saltUg: salt };
          expect(valueOf('equilibriumSalt', back, 'saltOfTotal')).toBeCloseTo(percent, 9);
        },
      ),
    );
  });

  it('[VEG-03] warns outside 2 to 5 %, and below 1.5 % with the error of the scale', () => {
    const cautions = (targetPercent: number) =>
      reckoned('equilibriumSalt', { vegetablesUg: KG, targetPercent }).cautions;
    expect(cautions(1.4)).toContain('saltTooLow');
    expect(cautions(1.7)).toContain('saltOutsideUsual');
    expect(cautions(2.5)).toEqual(['brineAloneIsNotSafety', 'errorTakenFromMethod']);
    expect(cautions(6)).toContain('saltOutsideUsual');
    // 15.4 g on 1 kg is 1.517 %, but ±2 g of the scale reaches below 1.5.
    const weighed = { vegetablesUg: KG, lookFor: 'whatItComesTo', saltUg: 15.4 * G };
    expect(reckoned('equilibriumSalt', weighed).cautions).toContain('saltTooLow');
  });
});

describe('brine', () => {
  it('makes a brine by weight: a litre of water to 5 % takes 52.54 g', () => {
    // 998.2 g × 5 ÷ 95 = 52.54 g (water at 20 °C: Bettin and Spieweck 1990).
    expect(valueOf('brineStrength', { waterUl: L }, 'salt') / G).toBeCloseTo(52.54, 2);
    expect(reckoned('brineStrength', { waterUl: L }).cautions).toContain('percentOfWaterIsNotOfTheWhole');
  });

  it('thins out in the vegetables, by hand: that brine on 1 kg of cucumbers rests at 2.56 % of the whole', () => {
    // 52.54 ÷ (998.2 + 52.54 + 1000) = 2.562 %; of the liquid 52.54 ÷ (1050.74 + 950) = 2.626 %.
    const values = { waterUl: L, vegetablesUg: KG, vegetableWaterPercent: 95 };
    expect(valueOf('brineStrength', values, 'saltOfTotal')).toBeCloseTo(2.562, 3);
    expect(valueOf('brineStrength', values, 'saltOfLiquid')).toBeCloseTo(2.626, 3);
    expect(reckoned('brineStrength', values).cautions).not.toContain('percentOfWaterIsNotOfTheWhole');
  });

  it('gives less salt of the whole the more vegetables there are', () => {
    const at = (kilograms: number) =>
      valueOf('brineStrength', { waterUl: L, vegetablesUg: kilograms * KG }, 'saltOfTotal');
    fc.assert(
      fc.property(fc.double({ min: 0.1, max: 20, noNaN: true }), (kilograms) => {
        expect(at(kilograms * 1.1)).toBeLessThan(at(kilograms));
      }),
    );
  });
});
