import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { mustSucceed } from '#core/base/result.ts';
import {
  bunsenCoefficient,
  carbonDioxideFromAlcohol,
  carbonDioxideFromGravityDrop,
  carbonDioxideFromPriming,
  gramsPerKilogramOfWater,
  henryInWine,
  roomCarbonDioxidePerDay,
  sealedPressure,
  solubilityInWater,
  volumesFromGramsPerLitre,
} from '#core/must/carbon-dioxide.ts';

const bottle = { liquidLitres: 0.75, headspaceLitres: 0.025, carbonDioxideGrams: 8.55, warmestCelsius: 20 };

describe('carbon dioxide', () => {
  it('dissolves less the warmer it is, so a sealed bottle presses harder', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 39, noNaN: true }), (celsius) => {
        expect(mustSucceed(solubilityInWater(celsius + 1))).toBeLessThan(
          mustSucceed(solubilityInWater(celsius)),
        );
        expect(mustSucceed(henryInWine(celsius + 1))).toBeLessThan(mustSucceed(henryInWine(celsius)));
        const at = (warmestCelsius: number) => mustSucceed(sealedPressure({ ...bottle, warmestCelsius }));
        expect(at(celsius + 1)).toBeGreaterThan(at(celsius));
      }),
    );
  });
  it('in a sealed bottle is all accounted for', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 5, noNaN: true }),
        fc.double({ min: 0, max: 0.5, noNaN: true }),
        fc.double({ min: 0, max: 30, noNaN: true }),
        fc.double({ min: 0, max: 40, noNaN: true }),
        (liquidLitres, headspaceLitres, carbonDioxideGrams, warmestCelsius) => {
          const given = { liquidLitres, headspaceLitres, carbonDioxideGrams, warmestCelsius };
          const bar = mustSucceed(sealedPressure(given));
          const dissolved = bar * liquidLitres * mustSucceed(henryInWine(warmestCelsius));
          const gas =
            (bar * 1e5 * headspaceLitres * 1e-3 * 44.009) / (8.314462618 * (warmestCelsius + 273.15));
          expect(dissolved + gas).toBeCloseTo(carbonDioxideGrams, 6);
        },
      ),
    );
  });
  it('warming from 6 to 20 °C raises the pressure by about 60 %', () => {
    const ratio =
      mustSucceed(sealedPressure(bottle)) / mustSucceed(sealedPressure({ ...bottle, warmestCelsius: 6 }));
    expect(ratio).toBeGreaterThan(1.55);
    expect(ratio).toBeLessThan(1.7);
  });
  it('comes to about half a volume for each point of gravity', () => {
    const volumes = volumesFromGramsPerLitre(mustSucceed(carbonDioxideFromGravityDrop(0.001)));
    expect(volumes).toBeGreaterThan(0.45);
    expect(volumes).toBeLessThan(0.55);
  });
  it('grows with sugar, alcohol and pressure', () => {
    expect(mustSucceed(carbonDioxideFromPriming(0))).toBe(0);
    expect(mustSucceed(carbonDioxideFromAlcohol(6))).toBeCloseTo(6 * 7.8924 * 0.9553, 2);
    const at = (pressureKpa: number) =>
      mustSucceed(gramsPerKilogramOfWater({ temperatureCelsius: 10, pressureKpa }));
    expect(at(200)).toBeCloseTo(2 * at(100), 12);
  });
  it('in a closed room adds up', () => {
    const room = { activeLitres: 100, pointsPerDay: 5, roomLitres: 30_000 };
    expect(mustSucceed(roomCarbonDioxidePerDay(room))).toBeCloseTo((100 * 5 * 0.67 * 1e6) / 30_000, 6);
    expect(mustSucceed(roomCarbonDioxidePerDay({ ...room, activeLitres: 1e6 }))).toBe(1e6);
  });
  it('is refused outside its ranges', () => {
    for (const wrong of [
      solubilityInWater(41),
      solubilityInWater(-1),
      bunsenCoefficient(Number.NaN),
      henryInWine(41),
      gramsPerKilogramOfWater({ temperatureCelsius: 10, pressureKpa: -1 }),
      sealedPressure({ ...bottle, liquidLitres: 0 }),
      sealedPressure({ ...bottle, warmestCelsius: 60 }),
      carbonDioxideFromPriming(101),
      carbonDioxideFromGravityDrop(-0.001),
      carbonDioxideFromAlcohol(21),
      roomCarbonDioxidePerDay({ activeLitres: 1, pointsPerDay: 1, roomLitres: 0 }),
    ]) {
      expect(wrong).toMatchObject({ ok: false, error: { type: 'OutOfRange' } });
    }
  });
});
