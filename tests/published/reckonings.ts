import {
  concentrationYield,
  alcoholLeftByTotalConcentration,
  oxygenGramsPerLitre,
  totalConcentration,
  ACETIC_PER_PERCENT_THEORY,
} from '#core/acid/acetification.ts';
import { aceticMolesPerLitre, bufferCapacity, PKA, solutionPh, titrationPh } from '#core/acid/ph.ts';
import { diluteToStrength } from '#core/acid/safe-dilution.ts';
import { mashOf } from '#core/acid/seeding.ts';
import {
  ACETIC_BACTERIA_STOP,
  freeSulfiteFor,
  metabisulfiteGrams,
  molecularSulfite,
  SULFITE_IN_METABISULFITE,
} from '#core/acid/sulfite.ts';
import { blend, pearsonParts, waterMassToReach, waterToStrength } from '#core/must/blend.ts';
import {
  bunsenCoefficient,
  carbonDioxideFromGravityDrop,
  carbonDioxideFromPriming,
  GRAMS_PER_VOLUME,
  gramsPerKilogramOfWater,
  henryInWine,
  sealedPressure,
  solubilityInWater,
  SPARKLING_WINE_BAR,
} from '#core/must/carbon-dioxide.ts';
import { CODEX_MINIMUM_BRIX, JUICE_COMPOSITION } from '#core/must/juices.ts';
import { NITROGEN_HONEY_MUST, NITROGEN_MINIMUM } from '#core/must/yeast.ts';
import { combineRelative } from '#core/quantities/propagate.ts';
import { RULES } from '#core/safety/rule-book.ts';
import { acidityFactor } from '#core/acid/acid-equivalents.ts';
import {
  baseStrengthFromPhthalate,
  fixedAcidityOfVinegar,
  grainStrength,
  molarityByTitration,
  titratableAcidity,
  titratableAcidityByMass,
} from '#core/acid/titration.ts';
import { mustSucceed } from '#core/base/result.ts';
import {
  alcoholDensity,
  densityFromPercentVol,
  ETHANOL_GRAMS_PER_LITRE_PER_PERCENT,
  ETHANOL_KG_PER_M3,
  massFractionFromPercentVol,
} from '#core/must/alcohol.ts';
import {
  alcoholByMass,
  alcoholByVolume,
  alcoholFromGravities,
  BALLING,
  dealcoholisedGravity,
  exciseFactor,
  originalExtractFrom,
  realExtract,
  totalDryExtract,
} from '#core/must/attenuation.ts';
import {
  brixHydrometerCorrection,
  correctHydrometer,
  divideByTableFactor,
  readingInWater,
  SODA_LIME_GLASS,
} from '#core/must/hydrometer.ts';
import { grapeMustDensity, grapeSugarGramsPerLitre } from '#core/must/must-sugar.ts';
import {
  SUGAR_PER_PERCENT_PLAN,
  SUGAR_PER_PERCENT_THEORY,
  potentialAlcohol,
} from '#core/must/potential-alcohol.ts';
import { fortifiedAlcohol, refractiveIndex, refractometerCorrection } from '#core/must/refractometer.ts';
import { MOLAR_MASS, THEORETICAL_YIELD } from '#core/must/stoichiometry.ts';
import { extractGramsPerLitre, sucroseGramsPerLitre } from '#core/must/sugar-solution.ts';
import {
  brixToGravity,
  gravityToBrix,
  gravityToBrixNbs,
  gravityToPlatoAsbc,
} from '#core/quantities/gravity.ts';
import { sucroseDensity } from '#core/quantities/sucrose-density.ts';
import type { Acid } from '#core/quantities/understood.ts';
import { waterDensity, waterDensityKell } from '#core/quantities/water-density.ts';

type Inputs = Readonly<Record<string, unknown>>;

/** How a row is reckoned with our own code, in the row's unit. */
export type Reckoning = (inputs: Inputs, id: string) => unknown;

/** The number of that name; a missing one is a mistake in the table of reckonings. */
export function number(inputs: Inputs, name: string): number {
  const value = inputs[name];
  if (typeof value !== 'number') throw new Error(`No number ${name} in ${JSON.stringify(inputs)}`);
  return value;
}

export function text(inputs: Inputs, name: string): string {
  const value = inputs[name];
  if (typeof value !== 'string') throw new Error(`No text ${name} in ${JSON.stringify(inputs)}`);
  return value;
}

const density = (inputs: Inputs) =>
  mustSucceed(
    sucroseDensity({
      sucroseMassPercent: number(inputs, 'brix'),
      temperatureCelsius: number(inputs, 't_C'),
    }),
  );
const attenuation = (inputs: Inputs) => ({
  originalExtract: number(inputs, 'OE_P'),
  apparentExtract: number(inputs, 'AE_P'),
});
const wine = (inputs: Inputs) => ({
  densityGramsPerMl: number(inputs, 'rho_v'),
  alcoholPercentVol: number(inputs, 'vol_pct'),
});
const titration = (inputs: Inputs) => ({
  baseMl: number(inputs, 'V_mL'),
  normality: number(inputs, 'N'),
  sampleMl: number(inputs, 'sample_mL'),
});
const MOLAR_NAMES: Readonly<Record<string, keyof typeof MOLAR_MASS>> = {
  glucose: 'glucose',
  sucrose: 'sucrose',
  ethanol: 'ethanol',
  co2: 'carbonDioxide',
  acetic: 'acetic',
  lactic: 'lactic',
  malic: 'malic',
  citric: 'citric',
  so2: 'sulfurDioxide',
  kms: 'potassiumMetabisulfite',
  naoh: 'sodiumHydroxide',
  o2: 'oxygen',
};
const CELSIUS_60_F = (60 - 32) / 1.8;

/** Strength at 20 °C of a spirit that is so many % vol at 60 °F: the same mass fraction, found by bisection. */
function massFractionAt60F(percentVol60F: number): number {
  const pureAt60 = mustSucceed(alcoholDensity({ ethanolMassFraction: 1, temperatureCelsius: CELSIUS_60_F }));
  let low = 0;
  let high = 1;
  for (let i = 0; i < 100; i += 1) {
    const p = (low + high) / 2;
    const density = mustSucceed(alcoholDensity({ ethanolMassFraction: p, temperatureCelsius: CELSIUS_60_F }));
    if ((100 * p * density) / pureAt60 < percentVol60F) low = p;
    else high = p;
  }
  return (low + high) / 2;
}

function waterParts(inputs: Inputs): number {
  const strength = number(inputs, 'vol_pct_60F');
  const p = massFractionAt60F(strength);
  const at = (fraction: number) =>
    mustSucceed(alcoholDensity({ ethanolMassFraction: fraction, temperatureCelsius: CELSIUS_60_F }));
  return (100 * (1 - p) * at(p)) / at(0);
}

function gallonsPerPound(inputs: Inputs): number {
  const p = massFractionAt60F(number(inputs, 'vol_pct_60F'));
  const density = mustSucceed(alcoholDensity({ ethanolMassFraction: p, temperatureCelsius: CELSIUS_60_F }));
  const air = 1.22;
  const brass = 8400;
  const poundsInAirPerGallon = (3.785411784e-3 * (density - air)) / (1 - air / brass) / 0.45359237;
  return 1 / poundsInAirPerGallon;
}

function aceticPh(molesPerLitre: number, pKa: number, pKw: number): number {
  return mustSucceed(solutionPh({ acids: [{ molesPerLitre, pKa: [pKa] }], strongBaseMolesPerLitre: 0, pKw }));
}

function blendOf(inputs: Inputs) {
  const part = (n: 1 | 2) => ({
    volumeLitres: number(inputs, `L_${n}`),
    alcoholPercentVol: number(inputs, `vol_pct_${n}`),
    acidityGramsPer100Ml: 0,
    sugarGramsPerLitre: 0,
  });
  return mustSucceed(blend([part(1), part(2)]));
}

function seededMash(inputs: Inputs) {
  const base = inputs['base'] as Inputs;
  const vinegar = inputs['vinegar'] as Inputs;
  const part = (of: Inputs) => ({
    alcoholPercentVol: number(of, 'vol_pct'),
    acidityGramsPer100Ml: typeof of['acid'] === 'number' ? of['acid'] : 0,
  });
  return mustSucceed(
    mashOf({
      baseLitres: number(base, 'L'),
      base: part(base),
      seedLitres: number(vinegar, 'L'),
      seed: part(vinegar),
    }),
  );
}

function limitOf(ruleId: string): number | undefined {
  return RULES.find(({ id }) => id === ruleId)?.limit?.value;
}

const JUICES: Readonly<Record<string, keyof typeof JUICE_COMPOSITION>> = {
  'apple juice, unsweetened': 'apple',
  'pineapple juice, unsweetened': 'pineapple',
  'grape juice, unsweetened': 'grape',
  honey: 'honey',
  'pear, raw': 'pear',
};

/** By the longest prefix of a row's id. */
export const RECKONINGS: Readonly<Record<string, Reckoning>> = {
  'SUG-SGAPP': (i) => mustSucceed(brixToGravity(number(i, 'brix'))),
  'SUG-C440': (i) => mustSucceed(brixToGravity(number(i, 'brix'))),
  'SUG-RHO20': density,
  'SUG-RHOT': density,
  'SUG-GL': (i) =>
    mustSucceed(sucroseGramsPerLitre({ brix: number(i, 'brix'), temperatureCelsius: number(i, 't_C') })),
  'SUG-BXNBS': (i) => mustSucceed(gravityToBrixNbs(number(i, 'sg'))),
  'SUG-PLASBC': (i) => mustSucceed(gravityToPlatoAsbc(number(i, 'sg'))),
  'SUG-1040-ICUMSA': (i) => mustSucceed(gravityToBrix(number(i, 'sg'))),
  'SUG-1040-NBS': (i) => mustSucceed(gravityToBrixNbs(number(i, 'sg'))),
  'REF-ND': (i) => mustSucceed(refractiveIndex(number(i, 'brix'))),
  'REF-TC': (i) =>
    mustSucceed(
      refractometerCorrection({
        readingPercent: number(i, 'reading_pct'),
        temperatureCelsius: number(i, 't_C'),
      }),
    ),
  'REF-RS': (i) =>
    mustSucceed(
      fortifiedAlcohol({ apparentBrix: number(i, 'brix_app'), apparentBaume: number(i, 'baume_app') }),
    ),
  'MUST-RHO': (i) => mustSucceed(grapeMustDensity(number(i, 'brix'))),
  'MUST-GL': (i) => mustSucceed(grapeSugarGramsPerLitre(number(i, 'brix'))),
  'MUST-PA': (i) => {
    if (number(i, 'factor') !== SUGAR_PER_PERCENT_PLAN) throw new Error('The row uses another convention.');
    return mustSucceed(
      potentialAlcohol({ sugarGramsPerLitre: number(i, 'sugar_gL'), sugarUncertaintyGramsPerLitre: 0 }),
    ).planPercentVol;
  },
  'ALC-RHO': (i) =>
    mustSucceed(
      alcoholDensity({ ethanolMassFraction: number(i, 'p'), temperatureCelsius: number(i, 't_C') }),
    ),
  'ALC-PURE-RHO': () => ETHANOL_KG_PER_M3,
  'ALC-V2M': (i) => 100 * mustSucceed(massFractionFromPercentVol(number(i, 'vol_pct'))),
  'ALC-V2RHO': (i) =>
    mustSucceed(
      densityFromPercentVol({
        alcoholPercentVol: number(i, 'vol_pct'),
        temperatureCelsius: number(i, 't_C'),
      }),
    ),
  'ALC-EUTAB': (i) =>
    mustSucceed(
      densityFromPercentVol({
        alcoholPercentVol: number(i, 'vol_pct'),
        temperatureCelsius: number(i, 't_C'),
      }),
    ),
  'ALC-WATER': waterParts,
  'ALC-27CFR-WGAL': gallonsPerPound,
  'ALC-GL-PER-VOL': () => ETHANOL_GRAMS_PER_LITRE_PER_PERCENT,
  'STO-M': (i) => {
    const name = MOLAR_NAMES[text(i, 'substance')];
    return name === undefined ? undefined : MOLAR_MASS[name];
  },
  'STO-ET-HEX': () => THEORETICAL_YIELD.ethanolFromHexose,
  'STO-ET-SUC': () => THEORETICAL_YIELD.ethanolFromSucrose,
  'STO-CO2-HEX': () => THEORETICAL_YIELD.carbonDioxideFromHexose,
  'STO-CO2-SUC': () => THEORETICAL_YIELD.carbonDioxideFromSucrose,
  'STO-CO2-ET': () => THEORETICAL_YIELD.carbonDioxideFromEthanol,
  'STO-ACE-ET': () => THEORETICAL_YIELD.aceticFromEthanol,
  'STO-ACE-VOL': () => ACETIC_PER_PERCENT_THEORY,
  'STO-O2-ET': () => THEORETICAL_YIELD.oxygenPerEthanol,
  'STO-SUG-VOL-THEO': () => SUGAR_PER_PERCENT_THEORY,
  'STO-INV-SUC': () => THEORETICAL_YIELD.invertSugarFromSucrose,
  'STO-EU-FACTOR': () => SUGAR_PER_PERCENT_PLAN,
  'GK-DEF': (i) =>
    mustSucceed(
      totalConcentration({
        alcoholPercentVol: number(i, 'vol_pct'),
        acidityGramsPer100Ml: number(i, 'acid_g100mL'),
      }),
    ),
  'GK-REMAIN': (i) =>
    mustSucceed(
      alcoholLeftByTotalConcentration({
        totalConcentration: number(i, 'gk'),
        acidityGramsPer100Ml: number(i, 'acid_g100mL'),
      }),
    ),
  'GK-YIELD': (i) =>
    mustSucceed(concentrationYield({ vinegar: number(i, 'gk_vinegar'), mash: number(i, 'gk_mash') })),
  'GRV-RE': (i) => mustSucceed(realExtract(attenuation(i))),
  'GRV-ABW': (i) => mustSucceed(alcoholByMass(attenuation(i))),
  'GRV-ABV': (i) => mustSucceed(alcoholByVolume(attenuation(i))),
  'GRV-OE-BACK': (i) =>
    mustSucceed(originalExtractFrom({ alcoholMassPercent: number(i, 'A_mm'), realExtract: number(i, 'RE') })),
  'GRV-MASSBAL': () => BALLING.ethanol + BALLING.carbonDioxide + BALLING.yeast,
  'GRV-UKF': (i) => mustSucceed(exciseFactor(number(i, 'drop'))),
  'GRV-UKABV': (i) =>
    mustSucceed(
      alcoholFromGravities({
        originalGravity: number(i, 'OG') / 1000,
        presentGravity: number(i, 'PG') / 1000,
      }),
    ),
  'GRV-TAB-DR': (i) => mustSucceed(dealcoholisedGravity(wine(i))),
  'GRV-TAB-EX': (i) => mustSucceed(totalDryExtract(wine(i))),
  'GRV-EXT': (i) => mustSucceed(extractGramsPerLitre(number(i, 'sg'))),
  'WAT-TAN': (i) => mustSucceed(waterDensity(number(i, 't_C'))),
  'WAT-KELL': (i) => mustSucceed(waterDensityKell(number(i, 't_C'))),
  'HYD-GLASS': () => SODA_LIME_GLASS,
  'HYD-WATER': (i) =>
    mustSucceed(
      readingInWater({ temperatureCelsius: number(i, 't_C'), calibrationCelsius: number(i, 't_cal_C') }),
    ),
  'HYD-BX': (i) =>
    mustSucceed(
      brixHydrometerCorrection({
        readingBrix: number(i, 'reading_brix'),
        temperatureCelsius: number(i, 't_C'),
      }),
    ),
  'HYD-SG': (i) =>
    mustSucceed(
      correctHydrometer({
        reading: number(i, 'reading'),
        temperatureCelsius: number(i, 't_C'),
        calibrationCelsius: 20,
        alcoholPercentVol: 0,
      }),
    ).specificGravity,
  'HYD-27CFR': (i) =>
    mustSucceed(divideByTableFactor({ reading: number(i, 'reading'), factor: number(i, 'factor') })),
  'TA-VOL': (i) => mustSucceed(titratableAcidity({ ...titration(i), acid: 'acetic' })),
  'TA-OIV-FIXED': (i) => mustSucceed(fixedAcidityOfVinegar(number(i, 'V_mL'))),
  'TA-GRAIN': (i) => grainStrength(number(i, 'acid_g100mL')),
  'TA-OSX-839': (i) => number(i, 'mass_g') / MOLAR_MASS.acetic / number(i, 'volume_L'),
  'TA-OSX-HCL': (i) => mustSucceed(molarityByTitration(titration(i))),
  'TA-MASS': (i) =>
    mustSucceed(
      titratableAcidityByMass({
        baseMl: number(i, 'V_mL'),
        normality: number(i, 'N'),
        sampleGrams: number(i, 'mass_g'),
        acid: 'acetic',
      }),
    ),
  'TA-KHP': (i) =>
    mustSucceed(
      baseStrengthFromPhthalate({
        phthalateGrams: number(i, 'mass_g'),
        baseMl: number(i, 'V_mL'),
        molarMass: number(i, 'M'),
      }),
    ),
  'UNC-A3-VALUE': (i) => {
    const strength = baseStrengthFromPhthalate({
      phthalateGrams: number(i, 'm_KHP'),
      baseMl: number(i, 'V_T1'),
      purity: number(i, 'P'),
      molarMass: number(i, 'M'),
    });
    return mustSucceed(
      molarityByTitration({
        baseMl: number(i, 'V_T2'),
        normality: mustSucceed(strength),
        sampleMl: number(i, 'V_HCl'),
      }),
    );
  },
  'UNC-A3-U': (i) => 0.10139 * combineRelative(Object.values(i['u_rel'] as Record<string, number>)),
  'PH-ACE': (i) => aceticPh(number(i, 'c'), number(i, 'pKa'), number(i, 'pKw')),
  'PH-MERCK': (i) => (i['c'] as number[]).map((c) => aceticPh(c, 4.756, 13.995)),
  'PH-OSX-5PCT': (i) => {
    const c = aceticMolesPerLitre({
      massPercent: 100 * number(i, 'w'),
      densityGramsPerMl: number(i, 'density'),
    });
    return aceticPh(mustSucceed(c), -Math.log10(number(i, 'Ka')), 14);
  },
  'PH-TITR': (i) =>
    mustSucceed(
      titrationPh({
        acid: { molesPerLitre: number(i, 'ca'), pKa: [-Math.log10(number(i, 'Ka'))] },
        acidMl: number(i, 'va_mL'),
        baseMolesPerLitre: number(i, 'cb'),
        baseMl: number(i, 'vb_mL'),
        pKw: number(i, 'pKw'),
      }),
    ),
  'PH-BUF': (i) =>
    mustSucceed(
      bufferCapacity({
        pH: number(i, 'pH'),
        acids: [{ molesPerLitre: number(i, 'c'), pKa: number(i, 'pKa') }],
      }),
    ),
  PKA: (i) => PKA[text(i, 'acid') as keyof typeof PKA],
  'SO2-FRAC': (i) =>
    mustSucceed(molecularSulfite({ freeMgPerLitre: 100, pH: number(i, 'pH'), pK1: number(i, 'pKa') })),
  'SO2-NEED08': (i) =>
    mustSucceed(freeSulfiteFor({ molecularMgPerLitre: number(i, 'molecular'), pH: number(i, 'pH') })),
  'SO2-KMS': () => SULFITE_IN_METABISULFITE,
  'SO2-DOSE': (i) =>
    mustSucceed(
      metabisulfiteGrams({ addMgPerLitre: number(i, 'so2_mgL'), volumeLitres: number(i, 'volume_L') }),
    ).theory,
  'SO2-WINEPROT': () => ACETIC_BACTERIA_STOP.protectiveFree,
  'MIX-VOL': (i) => blendOf(i).volumeLitres,
  'MIX-ABV': (i) => blendOf(i).alcoholPercentVol,
  'MIX-27CFR-LB': (i) =>
    mustSucceed(
      waterMassToReach({
        amount: number(i, 'proof_gal'),
        mass: number(i, 'mass_lb'),
        targetPerMass: number(i, 'pg_per_lb_target'),
      }),
    ),
  'MIX-27CFR-191': (i) =>
    mustSucceed(
      waterToStrength({
        volumeLitres: 100,
        alcoholPercentVol: number(i, 'alc_1'),
        targetPercentVol: number(i, 'alc_2'),
      }),
    ),
  'MIX-PEARSON': (i) => {
    const parts = pearsonParts({
      first: number(i, 'c1'),
      second: number(i, 'c2'),
      target: number(i, 'target'),
    });
    return [mustSucceed(parts).first, mustSucceed(parts).second];
  },
  'MIX-DIL': (i) =>
    mustSucceed(
      diluteToStrength({
        volumeLitres: number(i, 'V1_L'),
        volumeUncertaintyLitres: 0,
        strength: number(i, 'c1_g100mL'),
        strengthUncertainty: 0,
        target: number(i, 'target'),
      }),
    ).naiveWaterLitres,
  'MIX-SEED': (i) => seededMash(i).acidityGramsPer100Ml,
  'MIX-SEEDALC': (i) => seededMash(i).alcoholPercentVol,
  'CO2-CRC': (i) =>
    mustSucceed(
      gramsPerKilogramOfWater({ temperatureCelsius: number(i, 't_C'), pressureKpa: number(i, 'p_kPa') }),
    ),
  'CO2-BUN': (i) => mustSucceed(bunsenCoefficient(number(i, 't_C'))),
  'CO2-WEISS': (i) => mustSucceed(solubilityInWater(number(i, 't_C'))),
  'CO2-KH': (i) => mustSucceed(henryInWine(number(i, 't_C'))),
  // The bottle of the cited table: 750 mL of wine, 25 mL of gas, 8.55 g of CO2 in all.
  'CO2-CHAMP': (i) =>
    mustSucceed(
      sealedPressure({
        liquidLitres: 0.75,
        headspaceLitres: 0.025,
        carbonDioxideGrams: 8.55,
        warmestCelsius: number(i, 't_C'),
      }),
    ),
  'CO2-VOLUME': () => GRAMS_PER_VOLUME,
  'CO2-PRIME': (i) => mustSucceed(carbonDioxideFromPriming(number(i, 'sucrose_gL'))),
  'CO2-SG-RISK': (i) => mustSucceed(carbonDioxideFromGravityDrop(number(i, 'dSG'))),
  'CO2-EU-SPARK': () => ({
    sparkling_min_bar: SPARKLING_WINE_BAR.sparklingMin,
    semi_sparkling_bar: SPARKLING_WINE_BAR.semiSparkling,
  }),
  'YST-YAN': () => NITROGEN_MINIMUM,
  'YST-YAN-MEAD': () => NITROGEN_HONEY_MUST,
  JUI: (i) => JUICE_COMPOSITION[JUICES[text(i, 'material')] ?? 'apple'],
  'JUI-CODEX': (i) => CODEX_MINIMUM_BRIX[text(i, 'fruit') as keyof typeof CODEX_MINIMUM_BRIX],
  'LEGAL-FDA': () => limitOf('VIN-01'),
  'BRINE-LIMIT': () => limitOf('VEG-01'),
  ACID: (i) => acidityFactor({ from: text(i, 'from') as Acid, to: text(i, 'to') as Acid }),
  'ACF-O2-L': (i) => mustSucceed(oxygenGramsPerLitre(number(i, 'vol_pct'))),
};

/** The reckoning with the longest prefix of this id, or null. */
export function reckoningFor(id: string): Reckoning | null {
  const prefixes = Object.keys(RECKONINGS).filter((prefix) => id === prefix || id.startsWith(`${prefix}-`));
  const [longest] = prefixes.sort((a, b) => b.length - a.length);
  return longest === undefined ? null : (RECKONINGS[longest] ?? null);
}
