import { describe, expect, it } from 'vitest';
import * as acetification from '#core/acid/acetification.ts';
import { convertAcidity } from '#core/acid/acid-equivalents.ts';
import { foreseeVinegar } from '#core/acid/foresee-vinegar.ts';
import * as ph from '#core/acid/ph.ts';
import { diluteToStrength } from '#core/acid/safe-dilution.ts';
import * as seeding from '#core/acid/seeding.ts';
import * as sulfite from '#core/acid/sulfite.ts';
import * as titration from '#core/acid/titration.ts';
import * as brine from '#core/brine/brine-strength.ts';
import * as equilibrium from '#core/brine/equilibrium-salt.ts';
import * as alcohol from '#core/must/alcohol.ts';
import * as attenuation from '#core/must/attenuation.ts';
import * as blend from '#core/must/blend.ts';
import * as gas from '#core/must/carbon-dioxide.ts';
import { alcoholByRefractometer } from '#core/must/fermented-refractometer.ts';
import * as hydrometer from '#core/must/hydrometer.ts';
import { fermentableSugar } from '#core/must/must-sugar.ts';
import { potentialAlcohol } from '#core/must/potential-alcohol.ts';
import * as refractometer from '#core/must/refractometer.ts';
import * as addition from '#core/must/sugar-addition.ts';
import * as solution from '#core/must/sugar-solution.ts';
import * as yeast from '#core/must/yeast.ts';
import * as gravity from '#core/quantities/gravity.ts';
import { sucroseDensity } from '#core/quantities/sucrose-density.ts';
import { waterDensity, waterDensityKell } from '#core/quantities/water-density.ts';
import type { Result } from '#core/base/result.ts';

type Answer = Result<unknown, { readonly type: string }>;
type Ask = (arguments_: never) => Answer;
/** A formula with arguments it answers: a number, or fields of which each number is put out in turn. */
const sound = (ask: unknown, given: number | Readonly<Record<string, unknown>>) => ({
  ask: ask as Ask,
  given,
});

const part = { volumeLitres: 1, alcoholPercentVol: 5, acidityGramsPer100Ml: 1, sugarGramsPerLitre: 10 };
const seed = { alcoholPercentVol: 1, acidityGramsPer100Ml: 6 };
const base = { alcoholPercentVol: 6, acidityGramsPer100Ml: 0.5 };
const FORMULAS: Readonly<Record<string, ReturnType<typeof sound>>> = {
  aceticFromAlcohol: sound(acetification.aceticFromAlcohol, 5),
  totalConcentration: sound(acetification.totalConcentration, base),
  alcoholLeft: sound(acetification.alcoholLeftByTotalConcentration, {
    totalConcentration: 6,
    acidityGramsPer100Ml: 4,
  }),
  concentrationYield: sound(acetification.concentrationYield, { vinegar: 5, mash: 6 }),
  oxygenGramsPerLitre: sound(acetification.oxygenGramsPerLitre, 5),
  convertAcidity: sound(convertAcidity, { acidity: 5, from: 'malic', to: 'acetic' }),
  foreseeVinegar: sound(foreseeVinegar, { ...base, alcoholUncertainty: 0.5, acidityUncertainty: 0.1 }),
  titrationPh: sound(
    (g: Readonly<Record<string, number>>) =>
      ph.titrationPh({
        acid: { molesPerLitre: g['acid'] ?? 0, pKa: [4.756] },
        ...{ acidMl: g['acidMl'] ?? 0, baseMolesPerLitre: g['base'] ?? 0, baseMl: g['baseMl'] ?? 0 },
      }),
    { acid: 0.8, acidMl: 5, base: 0.1, baseMl: 10 },
  ),
  bufferCapacity: sound(
    (g: Readonly<Record<string, number>>) =>
      ph.bufferCapacity({ pH: g['pH'] ?? 0, acids: [{ molesPerLitre: g['acid'] ?? 0, pKa: 4.756 }] }),
    { pH: 4, acid: 0.1 },
  ),
  aceticMolesPerLitre: sound(ph.aceticMolesPerLitre, { massPercent: 5, densityGramsPerMl: 1.007 }),
  diluteToStrength: sound(diluteToStrength, {
    ...{ volumeLitres: 10, volumeUncertaintyLitres: 0.3, strength: 7, strengthUncertainty: 0.2, target: 5 },
  }),
  mashOf: sound(
    (g: Readonly<Record<string, number>>) =>
      seeding.mashOf({ baseLitres: g['baseLitres'] ?? 0, base, seedLitres: g['seedLitres'] ?? 0, seed }),
    { baseLitres: 10, seedLitres: 2 },
  ),
  seedToAcidity: sound(
    (g: Readonly<Record<string, number>>) =>
      seeding.seedToAcidity({ baseLitres: g['baseLitres'] ?? 0, base, seed, startAcidity: g['start'] ?? 0 }),
    { baseLitres: 10, start: 1.5 },
  ),
  molecularSulfite: sound(sulfite.molecularSulfite, { freeMgPerLitre: 30, pH: 3.4 }),
  freeSulfiteFor: sound(sulfite.freeSulfiteFor, { molecularMgPerLitre: 0.6, pH: 3.4 }),
  metabisulfiteGrams: sound(sulfite.metabisulfiteGrams, { addMgPerLitre: 30, volumeLitres: 10 }),
  sulfiteAgainstVinegar: sound(sulfite.sulfiteAgainstVinegar, { freeMgPerLitre: 30, pH: 3.4 }),
  titratableAcidity: sound(titration.titratableAcidity, {
    baseMl: 8,
    normality: 0.5,
    sampleMl: 5,
    acid: 'acetic',
  }),
  acidityByMass: sound(titration.titratableAcidityByMass, {
    baseMl: 8,
    normality: 0.5,
    sampleGrams: 5,
    acid: 'acetic',
  }),
  molarityByTitration: sound(titration.molarityByTitration, { baseMl: 8, normality: 0.5, sampleMl: 5 }),
  baseFromPhthalate: sound(titration.baseStrengthFromPhthalate, { phthalateGrams: 0.4, baseMl: 18 }),
  fixedAcidityOfVinegar: sound(titration.fixedAcidityOfVinegar, 3),
  saltPercentOfTotal: sound(brine.saltPercentOfTotal, {
    saltGrams: 25,
    waterGrams: 100,
    vegetableGrams: 875,
  }),
  saltForBrine: sound(brine.saltForBrine, { waterGrams: 1000, saltPercent: 5 }),
  saltForTotal: sound(equilibrium.saltForTotal, {
    vegetableGrams: 900,
    waterGrams: 100,
    percentOfTotal: 2.5,
  }),
  equilibriumSalt: sound(equilibrium.equilibriumSalt, {
    ...{ brineGrams: 500, brinePercent: 5, vegetableGrams: 500, vegetableWaterShare: 0.95 },
  }),
  alcoholDensity: sound(alcohol.alcoholDensity, { ethanolMassFraction: 0.1, temperatureCelsius: 15 }),
  percentVolFromMassFraction: sound(alcohol.percentVolFromMassFraction, 0.1),
  massFractionFromPercentVol: sound(alcohol.massFractionFromPercentVol, 12),
  densityFromPercentVol: sound(alcohol.densityFromPercentVol, {
    alcoholPercentVol: 12,
    temperatureCelsius: 20,
  }),
  percentVolFromDensityAt20: sound(alcohol.percentVolFromDensityAt20, 985),
  gramsPerLitreFromPercentVol: sound(alcohol.gramsPerLitreFromPercentVol, 12),
  percentVolFromGramsPerLitre: sound(alcohol.percentVolFromGramsPerLitre, 90),
  realExtract: sound(attenuation.realExtract, { originalExtract: 12, apparentExtract: 2 }),
  alcoholByMass: sound(attenuation.alcoholByMass, { originalExtract: 12, apparentExtract: 2 }),
  originalExtractFrom: sound(attenuation.originalExtractFrom, { alcoholMassPercent: 4, realExtract: 4 }),
  alcoholByVolume: sound(attenuation.alcoholByVolume, { originalExtract: 12, apparentExtract: 2 }),
  exciseFactor: sound(attenuation.exciseFactor, 40),
  alcoholFromGravities: sound(attenuation.alcoholFromGravities, {
    originalGravity: 1.05,
    presentGravity: 1.0,
  }),
  dealcoholisedGravity: sound(attenuation.dealcoholisedGravity, {
    densityGramsPerMl: 0.992,
    alcoholPercentVol: 12,
  }),
  totalDryExtract: sound(attenuation.totalDryExtract, { densityGramsPerMl: 0.992, alcoholPercentVol: 12 }),
  blend: sound((g: typeof part) => blend.blend([g, part]), part),
  waterToStrength: sound(blend.waterToStrength, {
    volumeLitres: 1,
    alcoholPercentVol: 40,
    targetPercentVol: 12,
  }),
  waterMassToReach: sound(blend.waterMassToReach, { amount: 302.58, mass: 1000, targetPerMass: 0.27964 }),
  litresToReachStrength: sound(blend.litresToReachStrength, {
    ...{ firstLitres: 10, firstPercentVol: 12, secondPercentVol: 0, targetPercentVol: 6 },
  }),
  solubilityInWater: sound(gas.solubilityInWater, 15),
  gramsPerKilogramOfWater: sound(gas.gramsPerKilogramOfWater, { temperatureCelsius: 15, pressureKpa: 101 }),
  bunsenCoefficient: sound(gas.bunsenCoefficient, 15),
  henryInWine: sound(gas.henryInWine, 15),
  sealedPressure: sound(gas.sealedPressure, {
    ...{ liquidLitres: 0.75, headspaceLitres: 0.025, carbonDioxideGrams: 5, warmestCelsius: 25 },
  }),
  carbonDioxideFromPriming: sound(gas.carbonDioxideFromPriming, 8),
  carbonDioxideFromGravityDrop: sound(gas.carbonDioxideFromGravityDrop, 0.004),
  carbonDioxideFromAlcohol: sound(gas.carbonDioxideFromAlcohol, 6),
  roomCarbonDioxidePerDay: sound(gas.roomCarbonDioxidePerDay, {
    activeLitres: 50,
    pointsPerDay: 5,
    roomLitres: 30_000,
  }),
  alcoholByRefractometer: sound(alcoholByRefractometer, { originalBrix: 12, presentBrix: 6 }),
  correctHydrometer: sound(hydrometer.correctHydrometer, {
    ...{ reading: 1.05, temperatureCelsius: 25, calibrationCelsius: 20, alcoholPercentVol: 0 },
  }),
  readingInWater: sound(hydrometer.readingInWater, { temperatureCelsius: 20, calibrationCelsius: 15.56 }),
  brixHydrometerCorrection: sound(hydrometer.brixHydrometerCorrection, {
    readingBrix: 12,
    temperatureCelsius: 25,
  }),
  divideByTableFactor: sound(hydrometer.divideByTableFactor, { reading: 1.1525, factor: 0.996 }),
  fermentableSugar: sound((brix: number) => fermentableSugar({ brix, of: 'apple' }), 12),
  potentialAlcohol: sound(potentialAlcohol, { sugarGramsPerLitre: 150, sugarUncertaintyGramsPerLitre: 5 }),
  refractiveIndex: sound(refractometer.refractiveIndex, 12),
  brixFromRefractiveIndex: sound(refractometer.brixFromRefractiveIndex, 1.35),
  refractometerCorrection: sound(refractometer.refractometerCorrection, {
    readingPercent: 12,
    temperatureCelsius: 15,
  }),
  fortifiedAlcohol: sound(refractometer.fortifiedAlcohol, { apparentBrix: 17, apparentBaume: 3 }),
  sweetenToBrix: sound(addition.sweetenToBrix, {
    volumeLitres: 10,
    brix: 10,
    targetBrix: 20,
    sweetener: 'sucrose',
  }),
  honeyMust: sound(addition.honeyMust, { volumeLitres: 10, brix: 22 }),
  sucroseGramsPerLitre: sound(solution.sucroseGramsPerLitre, { brix: 12, temperatureCelsius: 20 }),
  brixFromSucrose: sound(solution.brixFromSucroseGramsPerLitre, 120),
  extractGramsPerLitre: sound(solution.extractGramsPerLitre, 1.02),
  invertSugarFromSucrose: sound(solution.invertSugarFromSucrose, 100),
  dryYeastGrams: sound(yeast.dryYeastGrams, 10),
  phosphateForNitrogen: sound(yeast.phosphateForNitrogen, {
    volumeLitres: 10,
    nitrogenMgPerLitre: 60,
    targetMgPerLitre: 140,
  }),
  brixToGravity: sound(gravity.brixToGravity, 12),
  gravityToBrix: sound(gravity.gravityToBrix, 1.05),
  gravityToBrixNbs: sound(gravity.gravityToBrixNbs, 1.05),
  brixToGravityNbs: sound(gravity.brixToGravityNbs, 12),
  gravityToPlatoAsbc: sound(gravity.gravityToPlatoAsbc, 1.05),
  sucroseDensity: sound(sucroseDensity, { sucroseMassPercent: 12, temperatureCelsius: 20 }),
  waterDensity: sound(waterDensity, 20),
  waterDensityKell: sound(waterDensityKell, 20),
};

/** Every number of an answer, however deep. */
function numbersIn(value: unknown): number[] {
  if (typeof value === 'number') return [value];
  if (typeof value !== 'object' || value === null) return [];
  return Object.values(value).flatMap(numbersIn);
}

const BEYOND = [Number.NaN, Infinity, -Infinity, -1e9, 1e300, -1e300];
const ODD = [0, -0, Number.MIN_VALUE, 1e-12, -1e-12, 0.1, 1, 100];

describe('a formula given what is no amount', () => {
  it.each(Object.entries(FORMULAS))(
    '%s refuses it by type, and never hands out what is no number',
    (_, { ask, given }) => {
      const of = (arguments_: unknown) => ask(arguments_ as never);
      const named = typeof given === 'number' ? null : given;
      const names =
        named === null ? [null] : Object.keys(named).filter((key) => typeof named[key] === 'number');
      const put = (name: string | null, value: number) =>
        of(name === null ? value : { ...named, [name]: value });
      const right = of(given);
      expect(right.ok && numbersIn(right.value).every(Number.isFinite)).toBe(true);
      for (const name of names) {
        for (const value of BEYOND)
          expect(put(name, value), `${name ?? ''} ${value}`).toMatchObject({ ok: false });
        for (const value of ODD) {
          const answer = put(name, value);
          if (answer.ok)
            expect(numbersIn(answer.value).every(Number.isFinite), `${name ?? ''} ${value}`).toBe(true);
          else expect(answer.error.type).toMatch(/^[A-Z]/u);
        }
      }
    },
  );
});
