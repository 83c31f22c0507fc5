import type { ReadingRow } from '#core/contract/shelves.ts';
import { acidityAsAcetic, correctedGravity } from '#core/ferments/interpret-reading.ts';
import { uncertaintiesOf } from '../safety/measurements.ts';
import type { ReadingRecord } from '#core/ledger/records.ts';

export const READING_COLUMNS = `id, vessel_id AS vesselId, batch_id AS batchId, at_ms AS atMs, written_by AS writtenBy,
  gravity_sg AS gravitySg, gravity_instrument AS gravityInstrument,
  gravity_calibration_celsius AS gravityCalibrationCelsius, temperature_celsius AS temperatureCelsius,
  ph, ph_method AS phMethod, acidity_grams_per_100_ml AS acidityGramsPer100Ml, acidity_as AS acidityAs,
  acidity_method AS acidityMethod, acidity_uncertainty AS acidityUncertainty, volume_ul AS volumeUl,
  free_sulfite_mg_per_l AS freeSulfiteMgPerL, alcohol_percent_volume AS alcoholPercentVolume, taste, detail`;

/** A row selected with `READING_COLUMNS` as the record the core knows. */
export function readingFromColumns(row: unknown): ReadingRecord {
  const { id, vesselId, batchId, atMs, writtenBy, detail, ...columns } = row as Record<string, unknown>;
  const values = typeof detail === 'string' ? { ...columns, detail: JSON.parse(detail) as unknown } : columns;
  return { id, vesselId, batchId, atMs, writtenBy, values } as unknown as ReadingRecord;
}

/** The record as the screens get it: the corrected gravity and the acidity as acetic beside the values as read. */
export function readingRow(reading: ReadingRecord): ReadingRow {
  const { id: entryId, vesselId, batchId, atMs, values } = reading;
  const { gravityCalibrationCelsius: _markedFor, ...shown } = values;
  const error = uncertaintiesOf(reading);
  return {
    ...{ entryId, vesselId, batchId, atMs, ...shown },
    ...{ acidityUncertainty: error.acidity, gravityUncertainty: error.gravity, phUncertainty: error.pH },
    ...{ alcoholUncertainty: error.alcohol, detail: values.detail ?? null },
    gravityCorrectedSg: correctedGravity(values),
    acidityAsAceticGramsPer100Ml: acidityAsAcetic(values),
  };
}
