import { correctedGravity } from '#core/ferments/interpret-reading.ts';
import type { ReadingRecord } from '#core/ledger/records.ts';
import type { Method } from '#core/quantities/uncertainty.ts';
import type { Measurement, TitrationRecord } from '#core/safety/facts.ts';
import { uncertaintyOf } from '#core/safety/interval.ts';

const ACIDITY_METHOD: Readonly<Record<string, Method>> = {
  syringeKit: 'taSyringeKit',
  burette: 'taBurette',
  laboratory: 'taLaboratory',
};
const PH_METHOD: Readonly<Record<string, Method>> = {
  meterToday: 'phMeterTwoBuffersToday',
  meterThisWeek: 'phMeterWithinAWeek',
  narrowStrip: 'phStripNarrow',
  wideStrip: 'phStripWide',
};
const GRAVITY_METHOD: Readonly<Record<string, Method>> = {
  hydrometer: 'hydrometer',
  refractometer: 'refractometer',
  laboratory: 'hydrometerNarrow',
};

/** What one reading measured, each with its method, its error and where it comes from. */
export function measurementsOf({ values, atMs }: ReadingRecord): Measurement[] {
  const found: Measurement[] = [];
  const { detail } = values;
  if (values.acidityGramsPer100Ml !== null) {
    found.push({
      ...{ quantity: 'acidity', value: values.acidityGramsPer100Ml, uncertainty: values.acidityUncertainty },
      method: values.acidityMethod === null ? null : (ACIDITY_METHOD[values.acidityMethod] ?? null),
      // A label says nothing of what was made here, so a number copied from one is a guess.
      provenance: values.acidityMethod === 'label' ? 'guessed' : 'measured',
      ...{ takenAtMs: atMs, acid: values.acidityAs, basis: detail?.acidityBasis ?? 'w/v' },
      fixedAcidGramsPer100Ml: detail?.fixedAcidGramsPer100Ml ?? null,
      titration: titrationRecord(values),
    });
  }
  const measured = { provenance: 'measured', takenAtMs: atMs } as const;
  if (values.ph !== null) {
    found.push({
      ...{ ...measured, quantity: 'pH', value: values.ph, uncertainty: detail?.phUncertainty ?? null },
      method: values.phMethod === null ? null : (PH_METHOD[values.phMethod] ?? null),
      sampleFrom: detail?.phSampleFrom ?? null,
      equilibriumShown: detail?.phEquilibriumShown ?? null,
    });
  }
  const sg = correctedGravity(values);
  if (sg !== null) {
    const corrected = values.gravityInstrument === 'hydrometer' && values.temperatureCelsius !== null;
    const markedFor = values.gravityCalibrationCelsius ?? 20;
    found.push({
      ...{ ...measured, quantity: 'gravity', value: sg, uncertainty: detail?.gravityUncertainty ?? null },
      method: values.gravityInstrument === null ? null : (GRAVITY_METHOD[values.gravityInstrument] ?? null),
      temperatureCorrected: corrected || values.gravityInstrument === 'laboratory',
      degreesOff: values.temperatureCelsius === null ? null : Math.abs(values.temperatureCelsius - markedFor),
    });
  }
  if (values.alcoholPercentVolume !== null) {
    const method = detail?.alcoholMethod ?? null;
    found.push({
      ...{ ...measured, quantity: 'alcohol', value: values.alcoholPercentVolume, method },
      uncertainty: detail?.alcoholUncertainty ?? null,
      provenance: method === 'alcoholFromGravities' ? 'calculated' : 'measured',
    });
  }
  if (values.temperatureCelsius !== null) {
    const { temperatureCelsius: value } = values;
    found.push({ ...measured, quantity: 'temperature', value, uncertainty: null, method: 'thermometer' });
  }
  if (detail?.totalSulfiteMgPerL !== null && detail?.totalSulfiteMgPerL !== undefined) {
    const { totalSulfiteMgPerL: value } = detail;
    found.push({ ...measured, quantity: 'sulfite', value, uncertainty: null, method: 'sulfiteKit' });
  }
  if (detail?.saltPercent !== null && detail?.saltPercent !== undefined) {
    found.push({
      ...measured,
      quantity: 'salt',
      value: detail.saltPercent,
      uncertainty: null,
      method: 'kitchenScale',
    });
  }
  return found;
}

function titrationRecord({ acidityMethod, detail }: ReadingRecord['values']): TitrationRecord | null {
  const titration = detail?.titration;
  if (titration !== null && titration !== undefined) {
    const { normality, baseCheckedAtMs, baseBoughtAtMs, baseNewlyOpened, endPoint } = titration;
    const { darkSample, fizzySample, degassed } = titration;
    return {
      ...{ normality, baseCheckedAtMs, baseBoughtAtMs, baseNewlyOpened },
      ...{ endPoint, darkSample, fizzySample, degassed },
    };
  }
  if (acidityMethod === 'laboratory') return null;
  // A titration of which nothing was written down: each part is not known, and the rule asks for it.
  return {
    ...{ normality: null, baseCheckedAtMs: null, baseBoughtAtMs: null, baseNewlyOpened: null },
    ...{ endPoint: null, darkSample: null, fizzySample: null, degassed: null },
  };
}

export type Measured = 'acidity' | 'gravity' | 'pH' | 'alcohol';

/** The error the rules use for each value of a reading, in the value's own unit; null where there is no value or no method. */
export function uncertaintiesOf(reading: ReadingRecord): Record<Measured, number | null> {
  const found: Record<Measured, number | null> = { acidity: null, gravity: null, pH: null, alcohol: null };
  for (const measurement of measurementsOf(reading)) {
    if (!(measurement.quantity in found)) continue;
    found[measurement.quantity as Measured] = uncertaintyOf(measurement)?.uncertainty ?? null;
  }
  return found;
}
