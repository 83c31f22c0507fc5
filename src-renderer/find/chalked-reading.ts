import { assertNever } from '#core/base/exhaustive.ts';
import type { HouseRules } from '#core/contract/house-rules.ts';
import type { ShelfRow } from '#core/contract/shelves.ts';
import { NOTHING_READ, VOLUME_MAX_UL, type ReadingValues } from '#core/ledger/act.ts';
import type { Acid, Understood } from '#core/quantities/understood.ts';

type Mutable<T> = { -readonly [Key in keyof T]: T[Key] };

/** What a chalked line comes to as a reading of the book, or what still has to be said. */
export type ChalkedReading =
  | { readonly type: 'reading'; readonly values: ReadingValues; readonly typed: Record<string, string> }
  /** An acidity without the name of its acid, on a vessel that does not tell which it is. */
  | { readonly type: 'acidMissing'; readonly asTyped: string }
  /** A level of nothing: an empty vessel is written by drawing off what was in it. */
  | { readonly type: 'levelOfNothing' }
  /** The book has no place in a reading for this quantity. */
  | { readonly type: 'notAReading'; readonly kind: Understood['kind'] };

/**
 * Turns what was understood of a chalked line into the values of a reading. A gravity written as SG is taken from the
 * house's hydrometer; one written in °Bx or °P may be from either instrument, so none is named.
 */
export function chalkedReading(
  readings: readonly Understood[],
  row: Pick<ShelfRow, 'stage' | 'ferment'>,
  rules: Pick<HouseRules, 'hydrometerCalibrationCelsius'>,
): ChalkedReading {
  const values: Mutable<ReadingValues> = { ...NOTHING_READ };
  const typed: Record<string, string> = {};
  for (const reading of readings) {
    typed[reading.kind] = reading.asTyped;
    switch (reading.kind) {
      case 'gravity': {
        const onSucroseScale = reading.notes.some((note) => note === 'fromBrix' || note === 'fromPlato');
        values.gravitySg = reading.value;
        values.gravityInstrument = onSucroseScale ? null : 'hydrometer';
        values.gravityCalibrationCelsius = onSucroseScale ? null : rules.hydrometerCalibrationCelsius;
        break;
      }
      case 'acidity': {
        const acid = reading.acid ?? acidOfVessel(row);
        if (acid === null) return { type: 'acidMissing', asTyped: reading.asTyped };
        values.acidityGramsPer100Ml = reading.value;
        values.acidityAs = acid;
        break;
      }
      case 'pH':
        values.ph = reading.value;
        break;
      case 'volume':
        if (reading.volumeUl === 0) return { type: 'levelOfNothing' };
        values.volumeUl = reading.volumeUl;
        break;
      case 'temperature':
        values.temperatureCelsius = reading.value;
        break;
      case 'freeSulfite':
        values.freeSulfiteMgPerL = reading.value;
        break;
      case 'alcohol':
        values.alcoholPercentVolume = reading.value;
        break;
      case 'mass':
      case 'salt':
        return { type: 'notAReading', kind: reading.kind };
      default:
        assertNever(reading);
    }
  }
  return { type: 'reading', values, typed };
}

/** The acid a titration of this vessel is counted as when nobody says; null where it may be one or another. */
export function acidOfVessel(row: Pick<ShelfRow, 'stage' | 'ferment'>): Acid | null {
  if (row.stage === 'vinegar' || row.ferment === 'fruitVinegar' || row.ferment === 'kombucha')
    return 'acetic';
  if (row.stage === 'lactic' || row.ferment === 'brinedVegetables') return 'lactic';
  return null;
}

/** Whether the book would hold this value in a reading, however unlikely it is. The bounds are those of `ReadingValues`. */
export function bookTakes(understood: Understood): boolean {
  const { value } = understood;
  switch (understood.kind) {
    case 'gravity':
      return value >= 0.9 && value <= 1.6;
    case 'acidity':
    case 'alcohol':
      return value >= 0 && value <= 100;
    case 'pH':
      return value >= 0 && value <= 14;
    case 'volume':
      return value >= 1 && value <= VOLUME_MAX_UL;
    case 'temperature':
      return value >= -20 && value <= 100;
    case 'freeSulfite':
      return value >= 0 && value <= 5000;
    case 'mass':
    case 'salt':
      return false;
    default:
      return assertNever(understood);
  }
}
