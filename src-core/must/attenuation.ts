import { err, ok, type Result } from '../base/result.ts';
import { brixToGravityNbs } from '../quantities/gravity.ts';
import { firstOutOfRange, within, type Limits, type OutOfRange } from '../quantities/validity.ts';
import { densityFromPercentVol, ETHANOL_KG_PER_M3 } from './alcohol.ts';
import { extractGramsPerLitre } from './sugar-solution.ts';

/**
 * Balling 1865: so many grams of extract become 1 g of ethanol, 0.9565 g of carbon dioxide and 0.11 g of yeast. For
 * malt wort; for juice and honey an estimate of ±0.3 % vol.
 */
export const BALLING = { extract: 2.0665, ethanol: 1, carbonDioxide: 0.9565, yeast: 0.11 } as const;

const BALLING_SOURCE = 'Balling 1865; De Clerck';
const EXTRACT: Limits = { quantity: 'originalExtract', low: 0, high: 40, unit: '°P', source: BALLING_SOURCE };
const APPARENT: Limits = {
  quantity: 'apparentExtract',
  low: 0,
  high: 40,
  unit: '°P',
  source: BALLING_SOURCE,
};

export interface Attenuation {
  /** °Plato of the must before fermentation, 0–40. */
  readonly originalExtract: number;
  /** °Plato that the hydrometer shows now, 0–40, not above the original. */
  readonly apparentExtract: number;
}

/** Real extract in °P: 0.1808 OE + 0.8192 AE. Source: Balling 1865, De Clerck. */
export function realExtract(given: Attenuation): Result<number, OutOfRange> {
  const outside = checkAttenuation(given);
  return outside ? err(outside) : ok(0.1808 * given.originalExtract + 0.8192 * given.apparentExtract);
}

/** Alcohol in % m/m: (OE − RE)/(2.0665 − 0.010665 OE). Source: Balling 1865. */
export function alcoholByMass(given: Attenuation): Result<number, OutOfRange> {
  const extract = realExtract(given);
  if (!extract.ok) return extract;
  // Where nothing has fermented the two extracts are one, and binary dust may make the difference less than nothing.
  const fermented = Math.max(0, given.originalExtract - extract.value);
  return ok(fermented / (2.0665 - 0.010665 * given.originalExtract));
}

/** Original extract in °P from alcohol (% m/m) and real extract: 100(2.0665 A + RE)/(100 + 1.0665 A). Same source. */
export function originalExtractFrom(given: {
  readonly alcoholMassPercent: number;
  readonly realExtract: number;
}): Result<number, OutOfRange> {
  const outside = firstOutOfRange(
    [
      given.alcoholMassPercent,
      { quantity: 'alcoholMassPercent', low: 0, high: 16, unit: '% m/m', source: BALLING_SOURCE },
    ],
    [given.realExtract, { ...APPARENT, quantity: 'realExtract' }],
  );
  if (outside) return err(outside);
  const a = given.alcoholMassPercent;
  return ok((100 * (2.0665 * a + given.realExtract)) / (100 + 1.0665 * a));
}

/**
 * Alcohol in % vol by Balling: % m/m times the density now over that of ethanol, the density from the apparent extract
 * by the NBS scale. Apparent extract 0–40 °P; a dry cider or mead stands below that scale, and `alcoholFromGravities`
 * serves it instead.
 */
export function alcoholByVolume(given: Attenuation): Result<number, OutOfRange> {
  const byMass = alcoholByMass(given);
  if (!byMass.ok) return byMass;
  const gravity = brixToGravityNbs(given.apparentExtract);
  if (!gravity.ok) return gravity;
  return ok((byMass.value * gravity.value * WATER_G_PER_ML) / (ETHANOL_KG_PER_M3 / 1000));
}

/** Water at 20 °C, g/mL, as the published worked values round it. */
const WATER_G_PER_ML = 0.9982;

/** Factor by drop of gravity in points. Source: UK HMRC Excise Notice 226 section 30.3, from memory. */
const EXCISE_FACTORS: readonly (readonly [upTo: number, factor: number])[] = [
  [6.9, 0.125],
  [10.4, 0.126],
  [17.2, 0.127],
  [26.1, 0.128],
  [36, 0.129],
  [46.5, 0.13],
  [57.1, 0.131],
  [67.9, 0.132],
  [78.8, 0.133],
  [89.7, 0.134],
  [100.7, 0.135],
];

/**
 * % vol per point of gravity lost, by the UK excise table. The drop, 0–100.7 points, is rounded to one decimal first,
 * as the bands are printed. Source: HMRC Excise Notice 226 section 30.3 (from memory).
 */
export function exciseFactor(dropPoints: number): Result<number, OutOfRange> {
  const rounded = Math.round(dropPoints * 10) / 10;
  const checked = within(rounded, {
    quantity: 'dropPoints',
    low: 0,
    high: 100.7,
    unit: 'points',
    source: 'HMRC Excise Notice 226 section 30.3',
  });
  if (!checked.ok) return checked;
  return ok(EXCISE_FACTORS.find(([upTo]) => rounded <= upTo)?.[1] ?? 0.135);
}

/**
 * Alcohol in % vol from two gravities by the UK excise table, before any truncation for duty. It is for an alcoholic
 * ferment only: once acetification has begun no formula of gravities holds, because losing alcohol and gaining acid
 * both raise the hydrometer. U at least 0.3 % vol (0.5 when gravities are by ordinary hydrometer).
 */
export function alcoholFromGravities(given: {
  readonly originalGravity: number;
  readonly presentGravity: number;
}): Result<number, OutOfRange> {
  const drop = (given.originalGravity - given.presentGravity) * 1000;
  // Gravities carry at most five decimals; the difference is held to them so that 6.95 is not 6.949999.
  const points = Math.round(drop * 1e6) / 1e6;
  const factor = exciseFactor(points);
  // A rise of less than the table's own decimal is no drop, and no alcohol below none.
  return factor.ok ? ok(Math.max(0, points) * factor.value) : factor;
}

/**
 * SG of a wine freed of its alcohol: 1.00180(ρv − ρa) + 1.000, densities at 20 °C in g/mL, ρa the water–ethanol mixture
 * of the wine's strength. Source: Tabarié's relation, OIV-MA-AS2-03B:R2012. The wine's density must first be
 * corrected for volatile acid when there is much of it; in half-made vinegar there always is.
 */
export function dealcoholisedGravity(given: {
  readonly densityGramsPerMl: number;
  readonly alcoholPercentVol: number;
}): Result<number, OutOfRange> {
  const checked = within(given.densityGramsPerMl, {
    quantity: 'densityGramsPerMl',
    low: 0.95,
    high: 1.2,
    unit: 'g/mL',
    source: 'OIV-MA-AS2-03B:R2012',
  });
  if (!checked.ok) return checked;
  const spirit = densityFromPercentVol({
    alcoholPercentVol: given.alcoholPercentVol,
    temperatureCelsius: 20,
  });
  if (!spirit.ok) return spirit;
  return ok(1.0018 * (given.densityGramsPerMl - spirit.value / 1000) + 1);
}

/** Total dry extract in g/L: the sucrose that gives the dealcoholised gravity. Source: OIV-MA-AS2-03B:R2012. */
export function totalDryExtract(given: {
  readonly densityGramsPerMl: number;
  readonly alcoholPercentVol: number;
}): Result<number, OutOfRange> {
  const gravity = dealcoholisedGravity(given);
  return gravity.ok ? extractGramsPerLitre(gravity.value) : gravity;
}

function checkAttenuation(given: Attenuation): OutOfRange | null {
  return firstOutOfRange(
    [given.originalExtract, EXTRACT],
    [given.apparentExtract, { ...APPARENT, high: Math.max(APPARENT.low, given.originalExtract) }],
  );
}
