export type QuantityKind =
  'gravity' | 'acidity' | 'pH' | 'volume' | 'temperature' | 'mass' | 'freeSulfite' | 'alcohol' | 'salt';

/** The acids a titration may be counted as. */
export type Acid = 'acetic' | 'lactic' | 'malic' | 'tartaric' | 'citric' | 'sulfuric';

/** What a salt percentage is a percentage of. */
export type SaltBasis = 'total' | 'water' | 'vegetables';

/** Something the reading took for granted or noticed, to be said beside the value. */
export type QuantityNote =
  | 'usMeasureAssumed'
  | 'usGallonAssumed'
  | 'commaReadAsDecimal'
  | 'thousandsMarkRead'
  | 'readAsThousandths'
  | 'fromBrix'
  | 'fromPlato'
  | 'fromPoints'
  | 'acidNotSaid'
  | 'percentReadAsGramsPer100Ml'
  | 'saltBasisNotSaid';

interface UnderstoodAny {
  /** What the keeper typed, untouched. */
  readonly asTyped: string;
  /** The unit the keeper wrote, as Undercroft writes it, or null for a bare number. */
  readonly unitTyped: string | null;
  /** True when no unit was written and the house or the field supplied it. */
  readonly unitAssumed: boolean;
  readonly notes: readonly QuantityNote[];
}

/** Apparent specific gravity 20/20. */
export interface UnderstoodGravity extends UnderstoodAny {
  readonly kind: 'gravity';
  readonly value: number;
}

/** Grams of acid in 100 mL, counted as `acid`; null when the text did not name one. */
export interface UnderstoodAcidity extends UnderstoodAny {
  readonly kind: 'acidity';
  readonly value: number;
  readonly acid: Acid | null;
}

export interface UnderstoodPh extends UnderstoodAny {
  readonly kind: 'pH';
  readonly value: number;
}

/** A whole number of microlitres, in both fields. */
export interface UnderstoodVolume extends UnderstoodAny {
  readonly kind: 'volume';
  readonly value: number;
  readonly volumeUl: number;
}

/** Degrees Celsius. */
export interface UnderstoodTemperature extends UnderstoodAny {
  readonly kind: 'temperature';
  readonly value: number;
}

/** A whole number of micrograms, in both fields. */
export interface UnderstoodMass extends UnderstoodAny {
  readonly kind: 'mass';
  readonly value: number;
  readonly massUg: number;
}

/** Milligrams of free SO2 per litre. */
export interface UnderstoodFreeSulfite extends UnderstoodAny {
  readonly kind: 'freeSulfite';
  readonly value: number;
}

/** Per cent by volume at 20 °C. */
export interface UnderstoodAlcohol extends UnderstoodAny {
  readonly kind: 'alcohol';
  readonly value: number;
}

/** Per cent by mass of `basis`; null when the text did not say of what. */
export interface UnderstoodSalt extends UnderstoodAny {
  readonly kind: 'salt';
  readonly value: number;
  readonly basis: SaltBasis | null;
}

/** A quantity read from text: the canonical number of its kind beside what was typed. */
export type Understood =
  | UnderstoodGravity
  | UnderstoodAcidity
  | UnderstoodPh
  | UnderstoodVolume
  | UnderstoodTemperature
  | UnderstoodMass
  | UnderstoodFreeSulfite
  | UnderstoodAlcohol
  | UnderstoodSalt;

export type UnderstoodAs<K extends QuantityKind> = Extract<Understood, { readonly kind: K }>;

/** Another text that would be accepted, and why it is offered. */
export interface Suggestion {
  readonly text: string;
  readonly why: 'decimalSlip' | 'gramsPerLitre' | 'fahrenheit' | 'celsius' | 'unit' | 'thousandths';
}

/** One of several things a text may mean. Typing `text` gives `understood` without a question. */
export interface Reading<K extends QuantityKind> {
  readonly text: string;
  readonly understood: UnderstoodAs<K>;
}

/** Why a text was not taken as a quantity. */
export type QuantityError<K extends QuantityKind = QuantityKind> =
  | { readonly type: 'Empty'; readonly kind: K }
  | { readonly type: 'TooLong'; readonly kind: K; readonly length: number; readonly longest: number }
  | { readonly type: 'NotANumber'; readonly kind: K; readonly text: string }
  | {
      readonly type: 'UnknownUnit';
      readonly kind: K;
      readonly unit: string;
      readonly known: readonly string[];
    }
  | { readonly type: 'UnitMissing'; readonly kind: K; readonly suggestions: readonly Suggestion[] }
  | { readonly type: 'Ambiguous'; readonly kind: K; readonly readings: readonly Reading<K>[] }
  | {
      readonly type: 'Implausible';
      readonly kind: K;
      /** Null when the number cannot stand as this quantity at all, such as a volume below nothing. */
      readonly understood: UnderstoodAs<K> | null;
      readonly understoodValue: number | null;
      /** The plausible range, in the unit named. */
      readonly low: number;
      readonly high: number;
      readonly unit: string;
      readonly suggestions: readonly Suggestion[];
    };
