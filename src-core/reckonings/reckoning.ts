import type { Result } from '../base/result.ts';
import type { QuantityKind } from '../quantities/understood.ts';
import type { OutOfRange } from '../quantities/validity.ts';
import type { Caution, ImpossibleReason } from './cautions.ts';

/**
 * A reckoning of the bench: named inputs in, named answers with their error out, and the working shown step by step.
 * Each is data and a pure function; the bench draws every one of them in the same way.
 */
export interface Reckoning {
  /** Such as `diluteToStrength`; words for it are the renderer's. */
  readonly id: ReckoningId;
  readonly group: ReckoningGroup;
  readonly fields: readonly ReckoningField[];
  /** Values by field name in canonical units; a field left empty is absent. Never throws for any numbers. */
  reckon(values: ReckoningValues): Result<Reckoned, ReckoningError>;
  /** The act a keeper may carry out from a result on a vessel, when there is one. */
  readonly carriesOut: CarriesOut | null;
  /**
   * The answer that says how much the act puts in (a volume in µL or a mass in µg); null when nothing is carried out. A result
   * without that answer is only to be looked at.
   */
  readonly amountAnswer: string | null;
  /** Every key a result may hold, so that words for all of them can be shown to exist. */
  readonly says: {
    readonly answers: readonly string[];
    readonly steps: readonly string[];
    readonly cautions: readonly Caution[];
    readonly reasons: readonly ImpossibleReason[];
  };
}

export type ReckoningGroup =
  'must' | 'strength' | 'acid' | 'gas' | 'brine' | 'fruitToShelf' | 'room' | 'convert';
export type ReckoningId = string;

/** How a plan on a vessel would be written into the book. */
export type CarriesOut = 'addWater' | 'addSugar' | 'addHoney' | 'addSulfite' | 'addSalt' | 'seed';

/** A field that is asked only while a choice holds one of these; in any other case what it holds is not looked at. */
export interface OnlyWhen {
  readonly field: string;
  readonly is: readonly string[];
}

export type ReckoningField =
  | {
      readonly name: string;
      readonly kind: 'quantity';
      readonly quantity: QuantityKind;
      readonly required: boolean;
      /** A vessel's own reading that fills the field when the reckoning is opened from it. */
      readonly fromVessel: VesselValue | null;
      /** Shown as the value when nothing is typed; in canonical units. */
      readonly otherwise: number | null;
      /** The range the bench takes, in canonical units; that of the kind where it is left out. */
      readonly low?: number;
      readonly high?: number;
      readonly onlyWhen?: OnlyWhen;
    }
  | {
      readonly name: string;
      readonly kind: 'number';
      readonly unit: string;
      readonly low: number;
      readonly high: number;
      readonly required: boolean;
      readonly otherwise: number | null;
      readonly onlyWhen?: OnlyWhen;
    }
  | {
      readonly name: string;
      readonly kind: 'choice';
      readonly choices: readonly string[];
      readonly otherwise: string;
      readonly onlyWhen?: OnlyWhen;
    };

export type VesselValue =
  'volumeUl' | 'gravity' | 'acidity' | 'ph' | 'temperature' | 'alcohol' | 'freeSulfite' | 'headspaceUl';

/** Quantities are numbers in the canonical unit of their kind (SG, g/100 mL as acetic, µL, °C, µg, mg/L, % vol); choices are text. */
export type ReckoningValues = Readonly<Record<string, number | string | undefined>>;

export interface Reckoned {
  readonly answers: readonly ReckonedAnswer[];
  readonly steps: readonly ReckonedStep[];
  /** Keys of cautions that must stand beside the result. */
  readonly cautions: readonly Caution[];
}

export interface ReckonedAnswer {
  readonly name: string;
  readonly value: number;
  /** Expanded uncertainty (about 95 %) in the same unit; null where the answer is exact or a convention. */
  readonly uncertainty: number | null;
  /** Canonical unit: one of the quantity kinds, or a plain unit such as `g/L`, `volumes`, `bar`, `kg`, `bottles`, `days`. */
  readonly unit: QuantityKind | (string & {});
  /** Which way the number must not be rounded: up for a lower limit, down for an upper one. */
  readonly limit: 'lower' | 'upper' | null;
  /** Low and high of a published range, when the answer is a range rather than a number with an error. */
  readonly range: { readonly low: number; readonly high: number } | null;
}

export interface ReckonedStep {
  /** A key for words: what this line works out. */
  readonly name: string;
  /** The formula as a person writes it, with the numbers put in: litres, grams, kilograms and °C, whatever the house reads in. */
  readonly working: string;
  readonly value: number;
  readonly unit: string;
  /** The published source of the formula or the constant. */
  readonly source: string;
}

export type ReckoningError =
  | { readonly type: 'Missing'; readonly fields: readonly string[] }
  | { readonly type: 'Outside'; readonly field: string; readonly range: OutOfRange }
  | {
      readonly type: 'Impossible';
      readonly reason: ImpossibleReason;
      readonly numbers: Readonly<Record<string, number>>;
    };
