import { convertAcidity, VINEGAR_DENSITY } from '../acid/acid-equivalents.ts';
import type { ReadingValues } from '../ledger/act.ts';
import { correctHydrometer } from '../must/hydrometer.ts';

/**
 * The gravity at 20/20 °C that a reading stands for. A hydrometer read in a sample of known temperature is corrected
 * for liquid and glass; one without a temperature, a refractometer and a laboratory value are given as they were
 * read. Null when there is none, or when the correction is asked for outside its published range.
 */
export function correctedGravity(values: ReadingValues): number | null {
  const { gravitySg, gravityInstrument, temperatureCelsius, gravityCalibrationCelsius } = values;
  if (gravitySg === null) return null;
  if (gravityInstrument !== 'hydrometer' || temperatureCelsius === null) return gravitySg;
  const corrected = correctHydrometer({
    reading: gravitySg,
    temperatureCelsius,
    calibrationCelsius: gravityCalibrationCelsius ?? 20,
    alcoholPercentVol: null,
  });
  return corrected.ok ? corrected.value.specificGravity : null;
}

/** The titratable acidity counted as acetic acid, g/100 mL (grams in 100 g by the density of vinegar); null when none was read or its acid is not on record. */
export function acidityAsAcetic(values: ReadingValues): number | null {
  const { acidityGramsPer100Ml, acidityAs, detail } = values;
  if (acidityGramsPer100Ml === null || acidityAs === null) return null;
  const byVolume = detail?.acidityBasis === 'w/w' ? VINEGAR_DENSITY.gramsPerMl : 1;
  const converted = convertAcidity({
    acidity: acidityGramsPer100Ml * byVolume,
    from: acidityAs,
    to: 'acetic',
  });
  return converted.ok ? converted.value : null;
}
