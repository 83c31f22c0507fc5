import { err, ok, type Result } from '../base/result.ts';
import { brixToGravity } from '../quantities/gravity.ts';
import { firstOutOfRange, type Limits, type OutOfRange } from '../quantities/validity.ts';
import { alcoholDensity, ETHANOL_KG_PER_M3 } from './alcohol.ts';

/** An estimate that must always be shown with its spread. */
export interface RefractometerEstimate {
  readonly alcoholPercentVol: number;
  /** Never below ±1 % vol. */
  readonly uncertaintyPercentVol: number;
  readonly realExtract: number;
  /** Why the number is weak: one relation does not fit all liquids. */
  readonly warning: 'refractometerAfterFermentation';
}

/**
 * °Brix that 1 % m/m of ethanol adds to a refractometer: the ratio of the refractive increments of ethanol and sucrose at
 * 10 % m/m. Source: CRC values, from memory.
 */
const BRIX_PER_ALCOHOL = 0.44;

/**
 * Alcohol of a fermenting or finished must from its °Brix by refractometer before (5–35) and now (0–35, not above). The
 * reading is real extract plus 0.44 × alcohol in % m/m, and Balling joins the two. Flagged: for 58 table wines the spread of
 * any one relation was 7–14 g/L of alcohol (Bavčar and Košmerl 2002), so U is ±1.8 % vol at 95 % and never below ±1. A
 * hydrometer is the better instrument from the day yeast goes in.
 */
export function alcoholByRefractometer(given: {
  readonly originalBrix: number;
  readonly presentBrix: number;
}): Result<RefractometerEstimate, OutOfRange> {
  const source = 'Balling with refractive increments; Bavčar & Košmerl 2002 for the spread';
  const before: Limits = { quantity: 'originalBrix', low: 5, high: 35, unit: '°Bx', source };
  const { originalBrix, presentBrix } = given;
  const outside = firstOutOfRange(
    [originalBrix, before],
    [presentBrix, { ...before, quantity: 'presentBrix', low: 0, high: originalBrix }],
  );
  if (outside) return err(outside);
  const extractPerAlcohol = 2.0665 - 0.010665 * originalBrix;
  const massPercent = (originalBrix - presentBrix) / (extractPerAlcohol - BRIX_PER_ALCOHOL);
  const realExtract = presentBrix - BRIX_PER_ALCOHOL * massPercent;
  const outsideExtract = firstOutOfRange([
    realExtract,
    { quantity: 'realExtract', low: 0, high: originalBrix, unit: '°P', source },
  ]);
  if (outsideExtract) return err(outsideExtract);
  const gravity = brixToGravity(realExtract);
  if (!gravity.ok) return gravity;
  const spirit = alcoholDensity({ ethanolMassFraction: massPercent / 100, temperatureCelsius: 20 });
  if (!spirit.ok) return spirit;
  // Alcohol takes off, and extract puts on, what each does alone in water.
  const density = spirit.value / 1000 + (gravity.value - 1) * WATER_G_PER_ML;
  const alcoholPercentVol = (massPercent * density) / (ETHANOL_KG_PER_M3 / 1000);
  return ok({
    alcoholPercentVol,
    uncertaintyPercentVol: Math.max(1, UNCERTAINTY_PERCENT_VOL),
    realExtract,
    warning: 'refractometerAfterFermentation',
  });
}

/** Water at 20 °C, g/mL. Source: OIML R 22. */
const WATER_G_PER_ML = 0.9982;

/** Twice a standard deviation of 7.18 g/L, the smaller of the published two, in % vol. */
const UNCERTAINTY_PERCENT_VOL = (2 * 7.18) / (ETHANOL_KG_PER_M3 / 100);
