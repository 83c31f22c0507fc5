import { err, ok, type Result } from '../base/result.ts';
import { invertMonotone } from './polynomial.ts';
import { sucroseDensity, sucroseMassPercentFromDensity, SUCROSE_MASS_PERCENT } from './sucrose-density.ts';
import { within, type OutOfRange } from './validity.ts';
import { waterDensityBettin } from './water-density.ts';

/** Density of the air in which tables are weighed, kg/m³: the convention of NBS Circular C440 and of AOAC. */
const AIR_KG_PER_M3 = 1.2;

/** Water at 20 °C under the ICUMSA sucrose density, kg/m³. */
const WATER_20 = waterDensityBettin(20);

/**
 * Apparent specific gravity 20/20 (weighed in air, as hydrometers and the printed tables say it) of a sucrose
 * solution of so many °Brix, 0–60. Source: ICUMSA SPS-4. This is the one scale on which Undercroft turns °Brix and
 * °Plato into gravity; the two differ by less than 0.003 and are treated as one. NBS Circular C440 rests on data of
 * 1900 and reads up to 0.018 °Bx higher at 30.
 */
export function brixToGravity(brix: number): Result<number, OutOfRange> {
  const density = sucroseDensity({ sucroseMassPercent: brix, temperatureCelsius: 20 });
  return density.ok ? ok((density.value - AIR_KG_PER_M3) / (WATER_20 - AIR_KG_PER_M3)) : density;
}

/**
 * °Brix from apparent specific gravity 20/20: the inverse of {@link brixToGravity}. `OutOfRange` below 1.000, where
 * a liquid holds alcohol and its gravity says nothing about sugar alone.
 */
export function gravityToBrix(specificGravity: number): Result<number, OutOfRange> {
  if (specificGravity === 1) return ok(0);
  const densityKgPerM3 = specificGravity * (WATER_20 - AIR_KG_PER_M3) + AIR_KG_PER_M3;
  const percent = sucroseMassPercentFromDensity({ densityKgPerM3, temperatureCelsius: 20 });
  if (percent.ok) return percent;
  return err({
    type: 'OutOfRange',
    quantity: 'specificGravity',
    value: specificGravity,
    low: 1,
    high: gravityOfDensity(percent.error.high),
    unit: 'SG 20/20',
    source: SUCROSE_MASS_PERCENT.source,
  });
}

/** True specific gravity 20/20 (in vacuum) from apparent, by the buoyancy of air of 1.2 kg/m³. */
export function trueGravityFromApparent(apparentGravity: number): number {
  return (apparentGravity * (WATER_20 - AIR_KG_PER_M3) + AIR_KG_PER_M3) / WATER_20;
}

/** Apparent specific gravity 20/20 (in air) from true: the inverse of {@link trueGravityFromApparent}. */
export function apparentGravityFromTrue(trueGravity: number): number {
  return gravityOfDensity(trueGravity * WATER_20);
}

/** 1000 × (SG − 1): the points a keeper counts. */
export function gravityToPoints(specificGravity: number): number {
  return (specificGravity - 1) * 1000;
}

export function pointsToGravity(points: number): number {
  return 1 + points / 1000;
}

/**
 * °Brix from apparent SG 20/20 by the cubic derived from NBS Circular C440 Table 114 (root mean square 0.0009),
 * SG 1.000–1.17874. It does not pass through zero (−0.005 at SG 1) and is clamped there.
 */
export function gravityToBrixNbs(specificGravity: number): Result<number, OutOfRange> {
  const checked = within(specificGravity, {
    quantity: 'specificGravity',
    low: 1,
    high: 1.17874,
    unit: 'SG 20/20',
    source: 'cubic from NBS Circular C440 (1942) Table 114',
  });
  if (!checked.ok) return checked;
  const s = specificGravity;
  return ok(Math.max(0, ((182.4601 * s - 775.6821) * s + 1262.7794) * s - 669.5622));
}

/** Apparent SG 20/20 from °Brix, 0–40, by inverting the NBS cubic of {@link gravityToBrixNbs}. */
export function brixToGravityNbs(brix: number): Result<number, OutOfRange> {
  const checked = within(brix, {
    quantity: 'brix',
    low: 0,
    high: 40,
    unit: '°Bx',
    source: 'cubic from NBS Circular C440 (1942) Table 114',
  });
  if (!checked.ok) return checked;
  if (brix === 0) return ok(1);
  const cubic = (s: number) => ((182.4601 * s - 775.6821) * s + 1262.7794) * s - 669.5622;
  return ok(invertMonotone(cubic, brix, 1, 1.1788) ?? 1);
}

/**
 * °Plato from apparent SG 20/20 by the cubic of the ASBC extract table. Published use is 0–20 °P (to SG 1.0831); at
 * 40 °P it has drifted by −0.09 and is refused. Clamped at zero (−0.003 at SG 1).
 */
export function gravityToPlatoAsbc(specificGravity: number): Result<number, OutOfRange> {
  const checked = within(specificGravity, {
    quantity: 'specificGravity',
    low: 1,
    high: 1.0831,
    unit: 'SG 20/20',
    source: 'cubic of the ASBC extract table',
  });
  if (!checked.ok) return checked;
  const s = specificGravity;
  return ok(Math.max(0, ((135.997 * s - 630.272) * s + 1111.14) * s - 616.868));
}

function gravityOfDensity(densityKgPerM3: number): number {
  return (densityKgPerM3 - AIR_KG_PER_M3) / (WATER_20 - AIR_KG_PER_M3);
}
