import type { EpochMs } from '../base/ports.ts';
import type { Acid } from '../quantities/understood.ts';
import type { FactsOfUses } from './facts-of-uses.ts';
import type { Method } from '../quantities/uncertainty.ts';

/** What a measurement is of. Sulfite is total SO2. */
export type Quantity =
  'acidity' | 'pH' | 'gravity' | 'alcohol' | 'temperature' | 'salt' | 'sulfite' | 'carbonDioxide';

/** Where a number comes from. Only the first two can ever clear a limit. */
export type Provenance = 'measured' | 'boughtLabel' | 'calculated' | 'guessed';

interface AnyMeasurement {
  /** In the unit of its quantity: g/100 mL, pH, SG, % vol, °C, % by mass, mg/L, ppm. */
  readonly value: number;
  /** Expanded uncertainty (about 95 %) in the same unit, or null when the keeper gave none. */
  readonly uncertainty: number | null;
  readonly method: Method | null;
  readonly provenance: Provenance;
  readonly takenAtMs: EpochMs;
}

/** How a titration was done, for rule MEAS-06. Null where it was not written down. */
export interface TitrationRecord {
  /** mol/L of the sodium hydroxide. */
  readonly normality: number | null;
  readonly baseCheckedAtMs: EpochMs | null;
  readonly baseBoughtAtMs: EpochMs | null;
  /** A new bottle, sealed until this titration and in date. */
  readonly baseNewlyOpened: boolean | null;
  readonly endPoint: 'colour' | 'meter' | null;
  readonly darkSample: boolean | null;
  readonly fizzySample: boolean | null;
  readonly degassed: boolean | null;
}

export interface AcidityMeasurement extends AnyMeasurement {
  readonly quantity: 'acidity';
  /** The acid the titration was counted as. Null when nobody wrote it down. */
  readonly acid: Acid | null;
  /** Grams in 100 mL, or grams in 100 g. */
  readonly basis: 'w/v' | 'w/w' | null;
  /** The fruit's own acid, counted as acetic, g/100 mL; null when it was not measured. */
  readonly fixedAcidGramsPer100Ml: number | null;
  readonly titration?: TitrationRecord | null;
}

export interface OtherMeasurement extends AnyMeasurement {
  readonly quantity: Exclude<Quantity, 'acidity'>;
  /** Of a pH: where the sample was taken, for rule MEAS-12. */
  readonly sampleFrom?: 'brine' | 'blended' | 'surface' | 'bottle' | null;
  /** Of a pH of brined solids: solids and brine were found the same within 0.1, long enough after packing. */
  readonly equilibriumShown?: boolean | null;
  /** Of a gravity: whether it was brought to the instrument's own temperature, for rule MEAS-14. */
  readonly temperatureCorrected?: boolean | null;
  /** Of a gravity: degrees between the sample and the instrument's own temperature. */
  readonly degreesOff?: number | null;
}

/** A number as it was taken from one vessel, with all that decides whether it may be used. */
export type Measurement = AcidityMeasurement | OtherMeasurement;

/** What may happen to a vessel. Whatever is not known to leave the liquid as it was makes readings stale. */
export type EventKind =
  | 'addWater'
  | 'addJuice'
  | 'addWine'
  | 'addSugar'
  | 'addHoney'
  | 'addFruit'
  | 'addSalt'
  | 'addAcid'
  | 'blend'
  | 'refill'
  | 'splitWithResidue'
  | 'prime'
  | 'sulfite'
  | 'heat'
  | 'concentrate'
  | 'draw'
  | 'split'
  | 'seal'
  | 'open'
  | 'move';

export interface CompositionEvent {
  readonly atMs: EpochMs;
  readonly kind: EventKind;
}

export type Jurisdiction = 'us' | 'eu' | 'uk' | 'ca' | 'de' | 'fr' | 'anz';

/**
 * All that is known of one vessel when a verdict is asked for. Null means not known, which never helps: a rule that
 * needs the fact answers that it must be found out first.
 */
export interface SafetyFacts extends FactsOfUses {
  readonly nowMs: EpochMs;
  readonly measurements: readonly Measurement[];
  readonly compositionEvents: readonly CompositionEvent[];
  readonly origin: 'home_made' | 'bought' | null;
  readonly openToAir: boolean | null;
  readonly liveCulture: boolean | null;
  readonly bottledFull: boolean | null;
  readonly pasteurised: boolean | null;
  readonly addedWater: boolean | null;
  /** Per cent acetic acid printed on the label of a bought vinegar. */
  readonly boughtLabelPercent: number | null;
  /** Hours since jars were processed; compared with ±1 h. */
  readonly hoursSinceProcessing: number | null;
  readonly jurisdiction: Jurisdiction | null;
  readonly labelAudience: 'own' | 'gift' | 'sale' | null;
  /** What the alcohol was: wine of grapes, fortified wine, or anything else. */
  readonly alcoholicBase?: 'wine' | 'fortifiedWine' | 'other' | null;
}
