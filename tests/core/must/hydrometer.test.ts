import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { mustSucceed } from '#core/base/result.ts';
import { densityFromPercentVol } from '#core/must/alcohol.ts';
import {
  BOROSILICATE_GLASS,
  brixHydrometerCorrection,
  correctHydrometer,
  divideByTableFactor,
  readingInWater,
  SODA_LIME_GLASS,
} from '#core/must/hydrometer.ts';
import { sucroseDensity } from '#core/quantities/sucrose-density.ts';
import { waterDensityBettin } from '#core/quantities/water-density.ts';

const reading = {
  reading: 1.05,
  temperatureCelsius: 25,
  calibrationCelsius: 20,
  alcoholPercentVol: 0,
} as const;

describe('a hydrometer', () => {
  it('needs no correction at its own temperature', () => {
    const at20 = correctHydrometer({ ...reading, temperatureCelsius: 20 });
    expect(mustSucceed(at20).specificGravity).toBeCloseTo(1.05, 12);
    expect(mustSucceed(at20).addedUncertainty).toBe(0);
  });

  it('brings back the gravity of a sugar solution read at any temperature', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.5, max: 35, noNaN: true }),
        fc.double({ min: 0, max: 40, noNaN: true }),
        fc.constantFrom(15, 15.5556, 20),
        fc.constantFrom(SODA_LIME_GLASS, BOROSILICATE_GLASS),
        (sucroseMassPercent, temperatureCelsius, calibrationCelsius, glassExpansionPerCelsius) => {
          const density = mustSucceed(sucroseDensity({ sucroseMassPercent, temperatureCelsius }));
          const shown =
            (density / waterDensityBettin(calibrationCelsius)) *
            (1 + glassExpansionPerCelsius * (temperatureCelsius - calibrationCelsius));
          const corrected = correctHydrometer({
            reading: shown,
            temperatureCelsius,
            calibrationCelsius,
            glassExpansionPerCelsius,
            alcoholPercentVol: 0,
          });
          const at20 = mustSucceed(sucroseDensity({ sucroseMassPercent, temperatureCelsius: 20 }));
          expect(mustSucceed(corrected).specificGravity).toBeCloseTo(at20 / waterDensityBettin(20), 8);
        },
      ),
    );
  });

  it('brings back the gravity of an alcoholic liquid, and owns to what it does not know', () => {
    const warm = mustSucceed(densityFromPercentVol({ alcoholPercentVol: 7, temperatureCelsius: 32 }));
    const cool = mustSucceed(densityFromPercentVol({ alcoholPercentVol: 7, temperatureCelsius: 20 }));
    const shown = (warm / waterDensityBettin(20)) * (1 + SODA_LIME_GLASS * 12);
    const known = correctHydrometer({
      reading: shown,
      temperatureCelsius: 32,
      calibrationCelsius: 20,
      alcoholPercentVol: 7,
    });
    expect(mustSucceed(known).specificGravity).toBeCloseTo(cool / waterDensityBettin(20), 10);
    expect(mustSucceed(known)).toMatchObject({ addedUncertainty: 0.001, liquid: 'alcohol' });
    const unknown = correctHydrometer({ ...reading, reading: 0.998, alcoholPercentVol: null });
    expect(mustSucceed(unknown)).toMatchObject({ addedUncertainty: 0.001, liquid: 'alcohol' });
    const young = correctHydrometer({ ...reading, alcoholPercentVol: null });
    expect(mustSucceed(young).liquid).toBe('sugar');
  });

  it('reads water as less than 1 when warm and serves water itself', () => {
    expect(mustSucceed(readingInWater({ temperatureCelsius: 20, calibrationCelsius: 20 }))).toBe(1);
    const water = correctHydrometer({ ...reading, reading: 1, temperatureCelsius: 15 });
    expect(mustSucceed(water).specificGravity).toBeLessThan(1);
    expect(mustSucceed(water).specificGravity).toBeGreaterThan(0.999);
  });

  it('adds more the warmer the sample is', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 1.15, noNaN: true }),
        fc.double({ min: 6, max: 39, noNaN: true }),
        fc.constantFrom(0, 5, null),
        (shown, celsius, alcoholPercentVol) => {
          const at = (temperatureCelsius: number) =>
            mustSucceed(
              correctHydrometer({ ...reading, reading: shown, temperatureCelsius, alcoholPercentVol }),
            );
          expect(at(celsius + 1).correction).toBeGreaterThan(at(celsius).correction);
        },
      ),
    );
  });

  it('is refused outside its range', () => {
    for (const wrong of [
      correctHydrometer({ ...reading, temperatureCelsius: 41 }),
      correctHydrometer({ ...reading, reading: 0.9 }),
      correctHydrometer({ ...reading, calibrationCelsius: 0 }),
      correctHydrometer({ ...reading, reading: Number.NaN }),
      correctHydrometer({ ...reading, alcoholPercentVol: 101 }),
      brixHydrometerCorrection({ readingBrix: 41, temperatureCelsius: 20 }),
      brixHydrometerCorrection({ readingBrix: 10, temperatureCelsius: 41 }),
      divideByTableFactor({ reading: 1, factor: 0 }),
      readingInWater({ temperatureCelsius: 50, calibrationCelsius: 20 }),
    ]) {
      expect(wrong).toMatchObject({ ok: false, error: { type: 'OutOfRange' } });
    }
  });
});
