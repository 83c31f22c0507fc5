import { err, ok, type Result } from '../base/result.ts';
import { polynomial } from '../quantities/polynomial.ts';
import { within, type Limits, type OutOfRange } from '../quantities/validity.ts';
import { THEORETICAL_YIELD } from './stoichiometry.ts';
import { sucroseGramsPerLitre } from './sugar-solution.ts';

const GRAPE: Limits = {
  quantity: 'brix',
  low: 10,
  high: 30,
  unit: '°Bx',
  source: 'OIV-MA-AS2-02 (Oeno 21/2004) Table II',
};

/**
 * Fermentable sugar of grape must in g/L from °Brix by refractometer, 10–30. A quadratic fitted to OIV-MA-AS2-02
 * Table II with a residual of 0.05 g/L. It is 22 (10 °Bx) to 30 g/L (30 °Bx) below the sucrose of the same °Brix:
 * that much of a must is not sugar.
 */
export function grapeSugarGramsPerLitre(brix: number): Result<number, OutOfRange> {
  const checked = within(brix, GRAPE);
  return checked.ok ? ok(polynomial([-20.2221, 9.87285, 0.0366067], brix)) : checked;
}

/** Density of grape must at 20 °C in kg/L from °Brix, 10–30; fitted to the same table, residual 0.00008. */
export function grapeMustDensity(brix: number): Result<number, OutOfRange> {
  const checked = within(brix, GRAPE);
  return checked.ok ? ok(polynomial([1.000589, 3.63181e-3, 2.1302e-5], brix)) : checked;
}

/** What a must is pressed from, as far as its sugar is concerned. */
export type SugarSource = 'apple' | 'pear' | 'pineapple' | 'grape' | 'honey' | 'sugarWater' | 'other';

export interface SugarShare {
  readonly low: number;
  readonly high: number;
  readonly source: string;
}

/**
 * The share of the °Brix that yeast can ferment. Apple agrees with USDA SR Legacy 09016 (9.62 g sugars in 11.30 g
 * carbohydrate = 0.85); pear has 9–26 g/L sorbitol, which yeast leaves (AIJN range); the others are from memory. For a
 * fruit that is not listed the span of the listed ones is used, widened: policy. Grape outside 10–30 °Bx is 0.79–0.92,
 * the ends of the OIV table. Sugar in water is sucrose, which takes up water and becomes 1.0526 times its weight of hexose
 * (stoichiometry): by weight of hexose the yields are reckoned.
 */
export const FERMENTABLE_SHARE: Readonly<Record<SugarSource, SugarShare>> = {
  apple: { low: 0.83, high: 0.88, source: 'USDA SR Legacy 09016; range from memory' },
  pear: { low: 0.75, high: 0.85, source: 'AIJN sorbitol 9–26 g/L; range from memory' },
  pineapple: { low: 0.8, high: 0.88, source: 'from memory' },
  grape: { low: 0.79, high: 0.92, source: 'ends of OIV-MA-AS2-02 Table II' },
  honey: { low: 0.95, high: 0.99, source: 'from memory, of its own dry matter' },
  sugarWater: {
    low: 0.99 * THEORETICAL_YIELD.invertSugarFromSucrose,
    high: THEORETICAL_YIELD.invertSugarFromSucrose,
    source: 'a sucrose solution, counted as the invert sugar that yeast makes of it',
  },
  other: { low: 0.75, high: 0.92, source: 'policy: span of the listed fruits' },
};

/** Sugar in g/L that yeast can use, with the middle of the range and its half width as U. */
export interface FermentableSugar {
  readonly lowGramsPerLitre: number;
  readonly midGramsPerLitre: number;
  readonly highGramsPerLitre: number;
  readonly source: string;
}

/**
 * Fermentable sugar of a juice from its °Brix, 0–60: Brix is not sugar. Grape between 10 and 30 °Bx uses the OIV table
 * with ±2 % for the lot; everything else a share of the sucrose content with its range. The sugar of a fruit is nearly all
 * hexose and is taken at its own weight; that of sugar water at the weight of the hexose it becomes.
 */
export function fermentableSugar(given: {
  readonly brix: number;
  readonly of: SugarSource;
}): Result<FermentableSugar, OutOfRange> {
  const { brix, of } = given;
  const table = of === 'grape' ? grapeSugarGramsPerLitre(brix) : null;
  if (table?.ok) {
    return ok({
      lowGramsPerLitre: table.value * 0.98,
      midGramsPerLitre: table.value,
      highGramsPerLitre: table.value * 1.02,
      source: GRAPE.source,
    });
  }
  const sucrose = sucroseGramsPerLitre({ brix, temperatureCelsius: 20 });
  if (!sucrose.ok) return err(sucrose.error);
  const share = of === 'grape' ? grapeShareBeyondTable(brix) : FERMENTABLE_SHARE[of];
  return ok({
    lowGramsPerLitre: sucrose.value * share.low,
    midGramsPerLitre: (sucrose.value * (share.low + share.high)) / 2,
    highGramsPerLitre: sucrose.value * share.high,
    source: share.source,
  });
}

/** How far the share of sugar in a grape must may lie from that at the nearest end of the OIV table, beyond it. Policy. */
const BEYOND_TABLE = 0.05;

/** Beyond the OIV table a grape must keeps the share of sugar of the table's nearest end: 0.79 at 10 °Bx, 0.91 at 30. */
function grapeShareBeyondTable(brix: number): SugarShare {
  const end = brix < GRAPE.low ? GRAPE.low : GRAPE.high;
  const [sugar, sucrose] = [
    grapeSugarGramsPerLitre(end),
    sucroseGramsPerLitre({ brix: end, temperatureCelsius: 20 }),
  ];
  const { low, high, source } = FERMENTABLE_SHARE.grape;
  if (!sugar.ok || !sucrose.ok) return { low, high, source };
  const share = sugar.value / sucrose.value;
  return { low: share * (1 - BEYOND_TABLE), high: share * (1 + BEYOND_TABLE), source };
}
