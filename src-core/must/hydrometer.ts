import { err, ok, type Result } from '../base/result.ts';
import { sucroseDensity, sucroseScaleFromDensity } from '../quantities/sucrose-density.ts';
import { firstOutOfRange, type Limits, type OutOfRange } from '../quantities/validity.ts';
import { waterDensityBettin } from '../quantities/water-density.ts';
import { alcoholDensity, massFractionFromPercentVol } from './alcohol.ts';

/** Cubic expansion of soda-lime hydrometer glass, 1/°C. Source: OIML R 44 and NBS practice, from memory. */
export const SODA_LIME_GLASS = 25e-6;
/** Cubic expansion of borosilicate glass, 1/°C, about. Same source. */
export const BOROSILICATE_GLASS = 10e-6;

const SOURCE = 'ICUMSA SPS-4 with glass expansion; OIML R 22 for alcohol';
const TEMPERATURE: Limits = { quantity: 'temperatureCelsius', low: 0, high: 40, unit: '°C', source: SOURCE };
const CALIBRATION: Limits = { ...TEMPERATURE, quantity: 'calibrationCelsius', low: 4, high: 30 };
const READING: Limits = { quantity: 'reading', low: 0.95, high: 1.25, unit: 'SG', source: SOURCE };

export interface HydrometerReading {
  /** What the stem shows, SG. */
  readonly reading: number;
  /** The sample's own temperature, 0–40 °C. */
  readonly temperatureCelsius: number;
  /** The temperature printed on the hydrometer, 4–30 °C: 15.5556 for 60/60 °F, 20 for most others. */
  readonly calibrationCelsius: number;
  readonly glassExpansionPerCelsius?: number;
  /** % vol of alcohol in the liquid; null when it is fermenting and not known. 0 for unfermented juice. */
  readonly alcoholPercentVol: number | null;
}

export interface CorrectedGravity {
  /** True specific gravity at 20/20 °C. */
  readonly specificGravity: number;
  /** What was added to the reading. */
  readonly correction: number;
  /** Added to the reading's own U, for what the correction does not know. */
  readonly addedUncertainty: number;
  readonly liquid: 'sugar' | 'alcohol';
}

/**
 * A hydrometer reading brought to SG 20/20 °C: the density at the sample's temperature is the reading times the water
 * at calibration, over the expansion of the glass; the liquid is then taken to 20 °C. Unfermented juice expands as the
 * sucrose solution of that density (ICUMSA SPS-4). A liquid with alcohol expands as the ethanol–water mixture of its
 * strength (OIML R 22). U 0.001 is added more than 10 °C away from 20, and more than 3 °C away when the strength is
 * unknown; 6 % vol is then assumed below SG 1.030.
 * Correcting by the expansion of water alone is wrong by 0.0002–0.0006.
 */
export function correctHydrometer(given: HydrometerReading): Result<CorrectedGravity, OutOfRange> {
  const { reading, temperatureCelsius: t, calibrationCelsius } = given;
  const outside = firstOutOfRange([reading, READING], [t, TEMPERATURE], [calibrationCelsius, CALIBRATION]);
  if (outside) return err(outside);
  const glass = 1 + (given.glassExpansionPerCelsius ?? SODA_LIME_GLASS) * (t - calibrationCelsius);
  const density = (reading * waterDensityBettin(calibrationCelsius)) / glass;
  const alcohol = given.alcoholPercentVol;
  const expandsAsSugar = alcohol === 0 || (alcohol === null && reading >= MOSTLY_SUGAR);
  const at20 = expandsAsSugar
    ? sugarDensityAt20(density, t)
    : alcoholicDensityAt20(density, t, alcohol ?? UNKNOWN_STRENGTH);
  if (!at20.ok) return at20;
  const specificGravity = at20.value / waterDensityBettin(20);
  const away = Math.abs(t - 20);
  const unsure = alcohol !== 0 && away > (alcohol === null ? 3 : 10);
  return ok({
    specificGravity,
    correction: specificGravity - reading,
    addedUncertainty: unsure ? 0.001 : 0,
    liquid: expandsAsSugar ? 'sugar' : 'alcohol',
  });
}

/** Above this a liquid of unknown strength is taken to expand as its sugar does: policy. */
const MOSTLY_SUGAR = 1.03;
/** Half way between juice and a dry cider; the error at 10 °C from 20 is below 0.0006. */
const UNKNOWN_STRENGTH = 6;

/** What an SG hydrometer shows in pure water at a temperature: 0.9993 at 20 °C for one calibrated at 60 °F. */
export function readingInWater(given: {
  readonly temperatureCelsius: number;
  readonly calibrationCelsius: number;
}): Result<number, OutOfRange> {
  const { temperatureCelsius: t, calibrationCelsius } = given;
  const outside = firstOutOfRange([t, TEMPERATURE], [calibrationCelsius, CALIBRATION]);
  if (outside) return err(outside);
  const glass = 1 + SODA_LIME_GLASS * (t - calibrationCelsius);
  return ok((waterDensityBettin(t) / waterDensityBettin(calibrationCelsius)) * glass);
}

/**
 * What to add to the reading of a Brix hydrometer made for 20 °C in a sugar solution at another temperature, in °Bx.
 * Reading 0–40 °Bx, 0–40 °C. Source: ICUMSA SPS-4 with glass at 25e-6/°C; agrees with the NBS and AOAC tables.
 */
export function brixHydrometerCorrection(given: {
  readonly readingBrix: number;
  readonly temperatureCelsius: number;
}): Result<number, OutOfRange> {
  const { readingBrix, temperatureCelsius: t } = given;
  const outside = firstOutOfRange(
    [readingBrix, { quantity: 'readingBrix', low: 0, high: 40, unit: '°Bx', source: SOURCE }],
    [t, TEMPERATURE],
  );
  if (outside) return err(outside);
  const marked = sucroseDensity({ sucroseMassPercent: readingBrix, temperatureCelsius: 20 });
  if (!marked.ok) return marked;
  const densityKgPerM3 = marked.value / (1 + SODA_LIME_GLASS * (t - 20));
  const found = sucroseScaleFromDensity({ densityKgPerM3, temperatureCelsius: t });
  return found.ok ? ok(found.value - readingBrix) : found;
}

/**
 * A 60/60 °F reading (SG 0.95–1.25) corrected by the factor of a table, reading ÷ factor. Source: 27 CFR 30.25, which prints 1.1525 and
 * 0.996 giving 1.1571.
 */
export function divideByTableFactor(given: {
  readonly reading: number;
  readonly factor: number;
}): Result<number, OutOfRange> {
  const source = '27 CFR 30.25';
  const outside = firstOutOfRange(
    [given.reading, { ...READING, source }],
    [given.factor, { quantity: 'factor', low: 0.9, high: 1.1, unit: '1', source }],
  );
  return outside ? err(outside) : ok(given.reading / given.factor);
}

function sugarDensityAt20(densityKgPerM3: number, temperatureCelsius: number): Result<number, OutOfRange> {
  const percent = sucroseScaleFromDensity({ densityKgPerM3, temperatureCelsius });
  if (!percent.ok) return percent;
  if (percent.value >= 0)
    return sucroseDensity({ sucroseMassPercent: percent.value, temperatureCelsius: 20 });
  // Near zero the liquid expands as water does.
  return ok((densityKgPerM3 * waterDensityBettin(20)) / waterDensityBettin(temperatureCelsius));
}

function alcoholicDensityAt20(
  densityKgPerM3: number,
  temperatureCelsius: number,
  alcoholPercentVol: number,
): Result<number, OutOfRange> {
  const fraction = massFractionFromPercentVol(alcoholPercentVol);
  if (!fraction.ok) return fraction;
  const ethanolMassFraction = fraction.value;
  const cold = alcoholDensity({ ethanolMassFraction, temperatureCelsius: 20 });
  if (!cold.ok) return cold;
  const there = alcoholDensity({ ethanolMassFraction, temperatureCelsius });
  return there.ok ? ok((densityKgPerM3 * cold.value) / there.value) : there;
}
