import { ok } from '../base/result.ts';
import { GRAMS_PER_VOLUME, sealedPressure } from '../must/carbon-dioxide.ts';
import { correctHydrometer } from '../must/hydrometer.ts';
import { GAS, NEAR_RATING, RATING, STABLE } from '../safety/rules/pressure.ts';
import { answer, step, UL_PER_LITRE } from './answer.ts';
import { cautionIf } from './cautions.ts';
import { CALIBRATION } from './correct-hydrometer.ts';
import { asked, defineReckoning } from './define-reckoning.ts';
import { choice, needed, numberNeeded, numberUsually, optional, usually, when } from './fields.ts';
import { figure, gravityFigure } from './figure.ts';
import { errorCaution, measured } from './measured.ts';

const RULE = 'safety rules PRS-01 and PRS-02';
const WARMTH = { low: 0, high: 40 } as const;
const STEM = { low: 0.95, high: 1.25 } as const;
const HOURS = { unit: 'hours', low: 0, high: 100_000 } as const;

/** The gas a sealed bottle may come to, from two readings some days apart, against what the bottle holds. */
export const sealedBottle = defineReckoning({
  id: 'sealedBottle',
  group: 'gas',
  fields: [
    needed('firstReading', 'gravity', null, STEM),
    usually('firstCelsius', 'temperature', 20, null, WARMTH),
    needed('secondReading', 'gravity', null, STEM),
    usually('secondCelsius', 'temperature', 20, null, WARMTH),
    choice('calibration', ['20C', '60F', '15C']),
    choice('measuredBy', ['hydrometer', 'hydrometerNarrow']),
    optional('alcoholPercentVol', 'alcohol', 'alcohol', { high: 20 }),
    numberNeeded('hoursBetween', HOURS),
    numberNeeded('hoursSinceLast', HOURS),
    numberUsually('primingGramsPerLitre', 0, { unit: 'g/L', low: 0, high: 100 }),
    choice('bottle', ['unrated', 'light', 'heavyBeer', 'sparkling', 'makerRated']),
    when('bottle', ['makerRated'], numberNeeded('ratingVolumes', { unit: 'volumes', low: 0.1, high: 20 })),
    usually('warmestCelsius', 'temperature', 25, null, WARMTH),
    usually('bottleUl', 'volume', 750_000, null, { low: 10_000, high: 100_000_000 }),
    usually('headspaceUl', 'volume', 15_000, null, { high: 100_000_000 }),
  ],
  says: {
    answers: ['gasVolumes', 'rating', 'volumesToSpare', 'pressureAtWarmest', 'gravityNow', 'gravitySpread'],
    steps: [
      'firstCorrected',
      'secondCorrected',
      'gravitySpread',
      'pointsLeft',
      'gasVolumes',
      'pressureAtWarmest',
    ],
    cautions: [
      'notProvenFinished',
      'gravityStillFalling',
      'stuckNotFinished',
      'moreGasThanBottleHolds',
      'nearTheRating',
      'unratedNeverGasTight',
      'warmthWakesYeast',
      'worksOutNotMeasured',
      'errorTakenFromMethod',
    ],
    reasons: [],
  },
  standsFor: {
    reading: 'secondReading',
    temperatureCelsius: 'secondCelsius',
    calibrationCelsius: 'calibration',
    densityKgPerM3: 'secondReading',
    sucroseMassPercent: 'secondReading',
    liquidLitres: 'bottleUl',
    headspaceLitres: 'headspaceUl',
    carbonDioxideGrams: 'primingGramsPerLitre',
  },
  reckon(values) {
    const { calibration, alcoholPercentVol, measuredBy, hoursBetween, hoursSinceLast } = values;
    const at20 = (reading: number, temperatureCelsius: number) =>
      correctHydrometer({
        reading,
        temperatureCelsius,
        calibrationCelsius: CALIBRATION[calibration],
        alcoholPercentVol,
      });
    const first = at20(values.firstReading, values.firstCelsius);
    if (!first.ok) return first;
    const second = at20(values.secondReading, values.secondCelsius);
    if (!second.ok) return second;
    const [before, now] = [first.value.specificGravity, second.value.specificGravity];
    const stem = measured(values.secondReading, measuredBy);
    const uncertainty = Math.hypot(stem.uncertainty, second.value.addedUncertainty);
    const spread = Math.abs(before - now);
    // Half a thousandth of a point keeps 1.001 − 1.000 from counting as more than 0.001, as in the rule.
    const still = spread <= STABLE.spread + 5e-7;
    const stable = still && hoursBetween >= STABLE.apartHours && hoursSinceLast <= FRESH_HOURS;
    const dry = now + uncertainty <= STABLE.dry;
    const pointsLeft = stable && dry ? 1 : Math.max(1, 1000 * (now + uncertainty - GAS.floorGravity));
    const { primingGramsPerLitre: priming, bottle, warmestCelsius } = values;
    const volumes = GAS.residual + GAS.perPoint * pointsLeft + GAS.perPrimingGram * priming;
    const rating = bottle === 'makerRated' ? asked(values.ratingVolumes) : RATING[bottle];
    const liquidLitres = values.bottleUl / UL_PER_LITRE;
    const headspaceLitres = values.headspaceUl / UL_PER_LITRE;
    const pressure = sealedPressure({
      liquidLitres,
      headspaceLitres,
      carbonDioxideGrams: volumes * GRAMS_PER_VOLUME * liquidLitres,
      warmestCelsius,
    });
    if (!pressure.ok) return pressure;
    return ok({
      answers: [
        answer('gasVolumes', volumes, 'volumes', { limit: 'upper' }),
        answer('rating', rating, 'volumes', { limit: 'lower' }),
        answer('volumesToSpare', rating - volumes, 'volumes', { limit: 'lower' }),
        answer('pressureAtWarmest', pressure.value, 'bar', { limit: 'upper' }),
        answer('gravityNow', { value: now, uncertainty }, 'gravity', { limit: 'upper' }),
        answer('gravitySpread', spread, 'SG', { limit: 'upper' }),
      ],
      steps: [
        step(
          'firstCorrected',
          `${gravityFigure(values.firstReading)} at ${figure(values.firstCelsius, 1)} °C`,
          before,
          'SG',
          'ICUMSA SPS-4; OIML R 22',
        ),
        step(
          'secondCorrected',
          `${gravityFigure(values.secondReading)} at ${figure(values.secondCelsius, 1)} °C, ${figure(hoursBetween)} hours later`,
          now,
          'SG',
          'ICUMSA SPS-4; OIML R 22',
        ),
        step('gravitySpread', `|${gravityFigure(before)} − ${gravityFigure(now)}|`, spread, 'SG', RULE),
        step(
          'pointsLeft',
          stable && dry
            ? 'stands still and dry, so one point for safety'
            : `1000 × (${gravityFigure(now)} + ${figure(uncertainty)} − ${figure(GAS.floorGravity)})`,
          pointsLeft,
          'points',
          RULE,
        ),
        step(
          'gasVolumes',
          `${GAS.residual} + ${GAS.perPoint} × ${figure(pointsLeft)} + ${GAS.perPrimingGram} × ${figure(priming)}`,
          volumes,
          'volumes',
          RULE,
        ),
        step(
          'pressureAtWarmest',
          `${figure(volumes)} × ${GRAMS_PER_VOLUME} g/L shared by ${figure(liquidLitres)} L of drink and ${figure(headspaceLitres)} L of gas at ${figure(warmestCelsius, 1)} °C`,
          pressure.value,
          'bar',
          'Henry constant of wine (memory); Liger-Belair et al. 2017',
        ),
      ],
      cautions: [
        ...cautionIf(!stable, 'notProvenFinished'),
        ...cautionIf(!still && now < before, 'gravityStillFalling'),
        ...cautionIf(stable && !dry, 'stuckNotFinished'),
        ...cautionIf(volumes > rating, 'moreGasThanBottleHolds'),
        ...cautionIf(volumes <= rating && volumes > rating - NEAR_RATING, 'nearTheRating'),
        ...cautionIf(bottle === 'unrated', 'unratedNeverGasTight'),
        'warmthWakesYeast',
        'worksOutNotMeasured',
        ...errorCaution(stem),
      ],
    });
  },
});

/** Hours that the last reading serves for sealing. Source: rules PRS-01 and MEAS-04; policy. */
const FRESH_HOURS = 72;
