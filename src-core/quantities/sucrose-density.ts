import { err, ok, type Result } from '../base/result.ts';
import { invertMonotone, polynomial } from './polynomial.ts';
import { firstOutOfRange, within, type Limits, type OutOfRange } from './validity.ts';
import { waterDensityBettin } from './water-density.ts';

const SOURCE = 'ICUMSA SPS-4 (Bettin, Emmerich, Spieweck, Toth 1998)';

export const SUCROSE_MASS_PERCENT: Limits = {
  quantity: 'sucroseMassPercent',
  low: 0,
  high: 60,
  unit: '% m/m',
  source: SOURCE,
};
export const SUCROSE_TEMPERATURE: Limits = {
  quantity: 'temperatureCelsius',
  low: 0,
  high: 80,
  unit: '°C',
  source: SOURCE,
};

/** b1..b6 and c1..c4 of the published polynomial in mass fraction w and (t − 20)/100. */
const AT_20 = [0, 385.1761, 135.3705, 40.9299, -3.9643, 13.4853, -17.289];
const BY_TEMPERATURE = [
  [0, -46.272, -7.172, 1.1597, 5.1126, 17.5254],
  [0, 59.7712, 7.2491, 12.363, -35.4791],
  [0, -47.2207, -21.6977, 27.6301],
  [0, 18.3184, 12.3081],
];

export interface SucroseSolution {
  /** Grams of sucrose in 100 g of solution, which is what °Brix and °Plato say. 0–60. */
  readonly sucroseMassPercent: number;
  /** 0–80 °C. */
  readonly temperatureCelsius: number;
}

/**
 * Density of a sucrose solution in kg/m³. Source: ICUMSA SPS-4, formula of Bettin, Emmerich, Spieweck and Toth 1998
 * over the water of Bettin and Spieweck 1990. The formula is published for 0–100 % and 0–80 °C; here it is used to
 * 60 %, which is beyond any must. One public copy prints b4 as −3.9646: no effect below 1e-5.
 */
export function sucroseDensity(solution: SucroseSolution): Result<number, OutOfRange> {
  const outside = firstOutOfRange(
    [solution.sucroseMassPercent, SUCROSE_MASS_PERCENT],
    [solution.temperatureCelsius, SUCROSE_TEMPERATURE],
  );
  return outside ? err(outside) : ok(densityOf(solution.sucroseMassPercent, solution.temperatureCelsius));
}

/**
 * The mass percent of sucrose whose solution has this density at this temperature: the inverse of
 * {@link sucroseDensity}, to better than 1e-9 %. `OutOfRange` below water and above 60 %.
 */
export function sucroseMassPercentFromDensity(given: {
  readonly densityKgPerM3: number;
  readonly temperatureCelsius: number;
}): Result<number, OutOfRange> {
  const temperature = within(given.temperatureCelsius, SUCROSE_TEMPERATURE);
  if (!temperature.ok) return temperature;
  return percentBetween(given.densityKgPerM3, given.temperatureCelsius, 0);
}

/**
 * As {@link sucroseMassPercentFromDensity}, but continued to −1.5 %, for one purpose: the temperature correction of
 * a sugar hydrometer that reads near zero, where the published correction tables do the same. Never use it as an
 * amount of sugar.
 */
export function sucroseScaleFromDensity(given: {
  readonly densityKgPerM3: number;
  readonly temperatureCelsius: number;
}): Result<number, OutOfRange> {
  const temperature = within(given.temperatureCelsius, SUCROSE_TEMPERATURE);
  if (!temperature.ok) return temperature;
  return percentBetween(given.densityKgPerM3, given.temperatureCelsius, -1.5);
}

function percentBetween(
  densityKgPerM3: number,
  temperatureCelsius: number,
  lowestPercent: number,
): Result<number, OutOfRange> {
  const found = invertMonotone(
    (percent) => densityOf(percent, temperatureCelsius),
    densityKgPerM3,
    lowestPercent,
    SUCROSE_MASS_PERCENT.high,
  );
  if (found !== null) return ok(found);
  return err({
    type: 'OutOfRange',
    quantity: 'densityKgPerM3',
    value: densityKgPerM3,
    low: densityOf(lowestPercent, temperatureCelsius),
    high: densityOf(SUCROSE_MASS_PERCENT.high, temperatureCelsius),
    unit: 'kg/m³',
    source: SOURCE,
  });
}

function densityOf(sucroseMassPercent: number, temperatureCelsius: number): number {
  const w = sucroseMassPercent / 100;
  const tau = (temperatureCelsius - 20) / 100;
  let density = waterDensityBettin(temperatureCelsius) + polynomial(AT_20, w);
  let power = 1;
  for (const row of BY_TEMPERATURE) {
    power *= tau;
    density += polynomial(row, w) * power;
  }
  return density;
}
