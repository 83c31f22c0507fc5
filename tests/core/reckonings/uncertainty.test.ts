import { describe, expect, it } from 'vitest';
import type { ReckoningValues } from '#core/reckonings/reckoning.ts';
import { answerOf, L, reckoningOf } from './reckon.ts';

/** A reckoning, one of its answers, and what each input that is not exact strays by (U, about 95 %). */
const CASES: readonly {
  readonly id: string;
  readonly answer: string;
  readonly values: Readonly<Record<string, number | string>>;
  readonly strays: Readonly<Record<string, number>>;
}[] = [
  {
    id: 'correctHydrometer',
    answer: 'gravity',
    values: { reading: 1.05, temperatureCelsius: 25 },
    strays: { reading: 0.002, temperatureCelsius: 1 },
  },
  {
    id: 'sugarToAdd',
    answer: 'sweetener',
    values: { volumeUl: 10 * L, gravity: 1.04, targetGravity: 1.09 },
    strays: { volumeUl: 0.3 * L, gravity: 0.002 },
  },
  {
    id: 'tabarie',
    answer: 'extractGramsPerLitre',
    values: { gravity: 0.998, alcoholPercentVol: 9 },
    strays: { gravity: 0.002, alcoholPercentVol: 0.5 },
  },
  {
    id: 'blendTwo',
    answer: 'alcohol',
    values: { firstVolumeUl: 10 * L, firstPercentVol: 14, secondVolumeUl: 5 * L, secondPercentVol: 5 },
    strays: { firstVolumeUl: 0.3 * L, firstPercentVol: 0.5, secondVolumeUl: 0.15 * L, secondPercentVol: 0.5 },
  },
  {
    id: 'diluteAlcohol',
    answer: 'water',
    values: { volumeUl: 10 * L, alcoholPercentVol: 14, targetPercentVol: 8 },
    strays: { volumeUl: 0.3 * L, alcoholPercentVol: 0.5 },
  },
  {
    id: 'gkCheck',
    answer: 'acidYield',
    values: { startPercentVol: 9, startGramsPer100Ml: 1, nowPercentVol: 2, nowGramsPer100Ml: 7 },
    strays: { startPercentVol: 0.5, startGramsPer100Ml: 0.3, nowPercentVol: 0.5, nowGramsPer100Ml: 0.49 },
  },
  {
    id: 'bufferCheck',
    answer: 'boundBase',
    values: { acidityGramsPer100Ml: 5, pH: 3.2 },
    strays: { acidityGramsPer100Ml: 0.35, pH: 0.1 },
  },
  {
    id: 'molecularSulfite',
    answer: 'molecularSulfite',
    values: { freeMgPerLitre: 40, pH: 3.4 },
    strays: { freeMgPerLitre: 10, pH: 0.1 },
  },
  {
    id: 'seedMother',
    answer: 'acidity',
    values: {
      lookFor: 'whatItGives',
      baseVolumeUl: 10 * L,
      basePercentVol: 7,
      baseGramsPer100Ml: 0.6,
      seedGramsPer100Ml: 6,
      seedVolumeUl: 2 * L,
    },
    strays: { baseVolumeUl: 0.3 * L, basePercentVol: 0.5, baseGramsPer100Ml: 0.3, seedGramsPer100Ml: 0.42 },
  },
  {
    id: 'acetificationOxygen',
    answer: 'oxygenGrams',
    values: { volumeUl: 10 * L, alcoholPercentVol: 6 },
    strays: { volumeUl: 0.3 * L, alcoholPercentVol: 0.5 },
  },
  {
    id: 'cellarAir',
    answer: 'ppmPerDay',
    values: { volumeUl: 50 * L, pointsPerDay: 10, roomCubicMetres: 40, pointsUncertainty: 1 },
    strays: { volumeUl: 1.5 * L, pointsPerDay: 1, roomCubicMetres: 4 },
  },
];

/** Numbers from 0 to 1, the same each time (a linear congruential generator, Numerical Recipes). */
function steadyRandom(): () => number {
  let state = 20_240_229;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return (state + 0.5) / 2 ** 32;
  };
}

describe('the error that stands beside a number', () => {
  it.each(CASES)(
    'of $id is that of six hundred tries by chance: $answer',
    ({ id, answer, values, strays }) => {
      const random = steadyRandom();
      const bell = () => Math.sqrt(-2 * Math.log(random())) * Math.cos(2 * Math.PI * random());
      const tries: number[] = [];
      for (let i = 0; i < 600; i += 1) {
        const moved: ReckoningValues = {
          ...values,
          ...Object.fromEntries(
            Object.entries(strays).map(([field, u]) => [field, Number(values[field]) + (u / 2) * bell()]),
          ),
        };
        const result = reckoningOf(id).reckon(moved);
        const found = result.ok ? result.value.answers.find(({ name }) => name === answer) : undefined;
        if (found) tries.push(found.value);
      }
      expect(tries.length).toBeGreaterThan(570);
      const mean = tries.reduce((sum, value) => sum + value, 0) / tries.length;
      const deviation = Math.sqrt(
        tries.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (tries.length - 1),
      );
      const said = answerOf(id, values, answer).uncertainty ?? 0;
      // Six hundred tries know a standard deviation to 3 %; first order leaves a little more where the formula bends.
      expect(said / (2 * deviation)).toBeGreaterThan(0.88);
      expect(said / (2 * deviation)).toBeLessThan(1.14);
    },
  );
}, 60_000);
