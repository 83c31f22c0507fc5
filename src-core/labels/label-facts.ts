import type { CultureSort, FermentKind, FilledStage } from '../ledger/stage.ts';
import type { LabelTarget } from './label-code.ts';
import type { PrintedVerdict } from './label-cautions.ts';

/** A number that was measured, or why there is none that may be printed. */
export type Strength =
  | { readonly kind: 'measured'; readonly value: number; readonly takenAtMs: number }
  /** There is a reading, but the rules do not let it speak: too old, something came in since, or how it was taken is not known. */
  | { readonly kind: 'notFresh' }
  | { readonly kind: 'none' };

/** What the book knows of something that gets a label. */
export interface LabelFacts {
  readonly target: LabelTarget;
  /** The code of the batch in it; null for an empty vessel. */
  readonly batchCode: string | null;
  readonly name: string;
  readonly ferment: FermentKind | null;
  readonly stage: FilledStage | null;
  readonly vesselNumber: number | null;
  readonly spot: string | null;
  /** The batch it was taken from. */
  readonly parentName: string | null;
  /** When its oldest liquid was begun, and when this batch began. */
  readonly startedAtMs: number | null;
  readonly batchStartedAtMs: number | null;
  readonly bottledAtMs: number | null;
  readonly stages: readonly { readonly stage: FilledStage; readonly fromMs: number }[];
  /** g/100 mL counted as acetic acid. Null where nothing of this kind is asked for its acidity and it has none on record. */
  readonly acidity: Strength | null;
  readonly ph: Strength | null;
  /** % vol. */
  readonly alcohol: Strength | null;
  readonly culture: {
    readonly name: string;
    readonly sort: CultureSort;
    readonly pull: number | null;
  } | null;
  readonly ingredients: readonly string[];
  /** Sulfites: in it by the book; null when nobody knows. */
  readonly sulfites: boolean | null;
  /** Null for an empty vessel: nothing is in it to be cautious of. */
  readonly verdicts: readonly PrintedVerdict[] | null;
}
