import { err, ok, type Result } from '../base/result.ts';
import { firstOutOfRange, within, type Limits, type OutOfRange } from '../quantities/validity.ts';
import { waterDensity } from '../quantities/water-density.ts';
import { ETHANOL_GRAMS_PER_LITRE_PER_PERCENT } from './alcohol.ts';
import { BALLING } from './attenuation.ts';
import { MOLAR_MASS, THEORETICAL_YIELD } from './stoichiometry.ts';

/** Grams of CO2 in one "volume": a litre of the real gas at 0 °C and 1 atm. From memory; the ideal gas gives 1.963. */
export const GRAMS_PER_VOLUME = 1.977;

const ATMOSPHERE_KPA = 101.325;
const GAS_CONSTANT = 8.314462618;

const WEISS: Limits = {
  quantity: 'temperatureCelsius',
  low: 0,
  high: 40,
  unit: '°C',
  source: 'Weiss 1974, Marine Chem. 2:203',
};

/**
 * Solubility K0 of CO2 in fresh water, mol/(L·atm), 0–40 °C. Source: Weiss 1974 (coefficients from memory; agrees with
 * IUPAC-NIST SRD 106 within 0.7 %). The CRC table differs from it by up to 3 %.
 */
export function solubilityInWater(temperatureCelsius: number): Result<number, OutOfRange> {
  const checked = within(temperatureCelsius, WEISS);
  if (!checked.ok) return checked;
  const kelvin = temperatureCelsius + 273.15;
  return ok(Math.exp(-58.0931 + (90.5069 * 100) / kelvin + 22.294 * Math.log(kelvin / 100)));
}

/** Grams of CO2 in a kilogram of water under so much CO2 (0–1000 kPa), 0–40 °C. Source: Weiss 1974. */
export function gramsPerKilogramOfWater(given: {
  readonly temperatureCelsius: number;
  readonly pressureKpa: number;
}): Result<number, OutOfRange> {
  const solubility = solubilityInWater(given.temperatureCelsius);
  if (!solubility.ok) return solubility;
  const pressure = within(given.pressureKpa, {
    quantity: 'pressureKpa',
    low: 0,
    high: 1000,
    unit: 'kPa',
    source: WEISS.source,
  });
  if (!pressure.ok) return pressure;
  const density = waterDensity(given.temperatureCelsius);
  if (!density.ok) return density;
  const gramsPerLitre = (solubility.value * MOLAR_MASS.carbonDioxide * given.pressureKpa) / ATMOSPHERE_KPA;
  return ok(gramsPerLitre / (density.value / 1000));
}

/** Volumes of CO2 (0 °C, 1 atm) that a volume of water takes up at 1 atm, 0–40 °C: the Bunsen coefficient. */
export function bunsenCoefficient(temperatureCelsius: number): Result<number, OutOfRange> {
  const solubility = solubilityInWater(temperatureCelsius);
  return solubility.ok ? ok((solubility.value * MOLAR_MASS.carbonDioxide) / GRAMS_PER_VOLUME) : solubility;
}

const WINE: Limits = {
  quantity: 'temperatureCelsius',
  low: 0,
  high: 40,
  unit: '°C',
  source: 'van ’t Hoff form for wine, 1.21 g/L/bar at 25 °C',
};

/**
 * Henry constant of CO2 in wine and beer, g/(L·bar), 0–40 °C: 1.21 at 25 °C with 24.8 kJ/mol (from memory; gives 2.06 at
 * 10 °C where 2.1 is published for champagne, and 2.4 at 6 °C as for lager, PMC8047704 Table 1).
 */
export function henryInWine(temperatureCelsius: number): Result<number, OutOfRange> {
  const checked = within(temperatureCelsius, WINE);
  if (!checked.ok) return checked;
  const kelvin = temperatureCelsius + 273.15;
  return ok(1.21 * Math.exp((24_800 / 8.314) * (1 / kelvin - 1 / 298.15)));
}

export interface SealedBottle {
  readonly liquidLitres: number;
  readonly headspaceLitres: number;
  /** All CO2 in the bottle, dissolved and gas, grams. */
  readonly carbonDioxideGrams: number;
  /** The warmest the bottle will be stored, 0–40 °C: pressure rises by some 60 % from 6 to 20 °C. */
  readonly warmestCelsius: number;
}

/**
 * Pressure of CO2 in a sealed bottle in bar (absolute; add none for air): total = V_L k_H P + V_G P M/(R T). Source: mass
 * balance with {@link henryInWine}; Liger-Belair et al. 2017, Sci. Rep. 7:10938 measured 4.7 bar at 6 °C and 7.5 at 20.
 */
export function sealedPressure(bottle: SealedBottle): Result<number, OutOfRange> {
  const henry = henryInWine(bottle.warmestCelsius);
  if (!henry.ok) return henry;
  const volume: Limits = { quantity: 'liquidLitres', low: 0.001, high: 1000, unit: 'L', source: WINE.source };
  const outside = firstOutOfRange(
    [bottle.liquidLitres, volume],
    [bottle.headspaceLitres, { ...volume, quantity: 'headspaceLitres', low: 0 }],
    [
      bottle.carbonDioxideGrams,
      { quantity: 'carbonDioxideGrams', low: 0, high: 100_000, unit: 'g', source: WINE.source },
    ],
  );
  if (outside) return err(outside);
  const kelvin = bottle.warmestCelsius + 273.15;
  // g/(L·bar) of the gas phase: M/(R T), with R in L·bar/(mol·K).
  const gas = MOLAR_MASS.carbonDioxide / ((GAS_CONSTANT / 100) * kelvin);
  return ok(bottle.carbonDioxideGrams / (bottle.liquidLitres * henry.value + bottle.headspaceLitres * gas));
}

/** Volumes of CO2 from grams in a litre, on the real-gas convention of 1.977 g/L. */
export function volumesFromGramsPerLitre(gramsPerLitre: number): number {
  return gramsPerLitre / GRAMS_PER_VOLUME;
}

/** Grams of CO2 in a litre from so many g/L of sucrose fermented out (0–100): × 0.5143. Source: stoichiometry. */
export function carbonDioxideFromPriming(sucroseGramsPerLitre: number): Result<number, OutOfRange> {
  const checked = within(sucroseGramsPerLitre, {
    quantity: 'sucroseGramsPerLitre',
    low: 0,
    high: 100,
    unit: 'g/L',
    source: 'stoichiometry',
  });
  return checked.ok ? ok(sucroseGramsPerLitre * THEORETICAL_YIELD.carbonDioxideFromSucrose) : checked;
}

/** % vol of alcohol for one more point of gravity lost, near the end of a ferment. Source: UK excise table. */
const PERCENT_VOL_PER_POINT = 0.13;

/**
 * Grams of CO2 in a litre when the hydrometer falls by so much more (0–0.12) in a closed bottle: 0.13 % vol a point, 7.8924
 * g/L ethanol a per cent, 0.9565 g CO2 a gram (Balling). About 1 g/L, half a volume, for each 0.001.
 */
export function carbonDioxideFromGravityDrop(drop: number): Result<number, OutOfRange> {
  const checked = within(drop, {
    quantity: 'drop',
    low: 0,
    high: 0.12,
    unit: 'SG',
    source: 'UK excise factor and Balling',
  });
  if (!checked.ok) return checked;
  const alcohol = drop * 1000 * PERCENT_VOL_PER_POINT;
  return ok(alcohol * ETHANOL_GRAMS_PER_LITRE_PER_PERCENT * BALLING.carbonDioxide);
}

/** CO2 evolved in an open ferment, grams in a litre, from the alcohol made (0–20 % vol): 7.54 g/L per 1 % vol. */
export function carbonDioxideFromAlcohol(alcoholPercentVol: number): Result<number, OutOfRange> {
  const checked = within(alcoholPercentVol, {
    quantity: 'alcoholPercentVol',
    low: 0,
    high: 20,
    unit: '% vol',
    source: 'stoichiometry',
  });
  return checked.ok
    ? ok(alcoholPercentVol * ETHANOL_GRAMS_PER_LITRE_PER_PERCENT * THEORETICAL_YIELD.carbonDioxideFromEthanol)
    : checked;
}

/**
 * Excess pressure at 20 °C that EU law asks of sparkling wine (at least 3 bar) and allows semi-sparkling wine (1–2.5 bar).
 * Source: Regulation (EU) 1308/2013 annex VII part II, from memory.
 */
export const SPARKLING_WINE_BAR = { sparklingMin: 3, semiSparkling: [1, 2.5] } as const;

/**
 * Litres of CO2 gas for a litre of juice and a point of gravity, and the ppm a closed room gains in a day: active litres ×
 * points × 0.67 / room litres × 1e6. Source: cider-makers’ carbonation arithmetic (safety rule CO2-02).
 */
export const GAS_LITRES_PER_LITRE_AND_POINT = 0.67;

export function roomCarbonDioxidePerDay(given: {
  readonly activeLitres: number;
  readonly pointsPerDay: number;
  readonly roomLitres: number;
}): Result<number, OutOfRange> {
  const source = 'safety rule CO2-02';
  const outside = firstOutOfRange(
    [given.activeLitres, { quantity: 'activeLitres', low: 0, high: 1e6, unit: 'L', source }],
    [given.pointsPerDay, { quantity: 'pointsPerDay', low: 0, high: 100, unit: 'points/day', source }],
    [given.roomLitres, { quantity: 'roomLitres', low: 100, high: 1e9, unit: 'L', source }],
  );
  if (outside) return err(outside);
  const gasLitres = given.activeLitres * given.pointsPerDay * GAS_LITRES_PER_LITRE_AND_POINT;
  return ok(Math.min(1e6, (gasLitres / given.roomLitres) * 1e6));
}
