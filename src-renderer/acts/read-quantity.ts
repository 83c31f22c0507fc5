import type { HouseUnits } from '#core/quantities/house-units.ts';
import { parseQuantity } from '#core/quantities/parse-quantity.ts';
import type { QuantityError, QuantityKind, UnderstoodAs } from '#core/quantities/understood.ts';
import { sayQuantityError, type Said } from '../words/error-words.ts';

/** What a quantity field holds: nothing, something understood, or something to mend. */
export type QuantityState<K extends QuantityKind> =
  | { readonly type: 'empty' }
  /** `keptAnyway` marks a value outside the plausible range that the keeper has confirmed. */
  | { readonly type: 'understood'; readonly understood: UnderstoodAs<K>; readonly keptAnyway: boolean }
  | { readonly type: 'wrong'; readonly said: Said };

/**
 * The widest values the book takes, in the canonical unit of each kind; the schema of the acts sets them. A value
 * beyond is never offered to be kept.
 */
const TAKEN_BY_THE_BOOK: Readonly<Record<QuantityKind, readonly [low: number, high: number]>> = {
  gravity: [0.9, 1.6],
  acidity: [0, 100],
  pH: [0, 14],
  volume: [0, 100_000_000_000],
  temperature: [-20, 100],
  mass: [0, 9e15],
  freeSulfite: [0, 5000],
  alcohol: [0, 100],
  salt: [0, 100],
};

/**
 * Reads what a quantity field holds. `keptText` is the text the keeper has chosen to keep although it looks unlikely;
 * it counts only while it is still the text of the field.
 */
export function readQuantityField<K extends QuantityKind>(given: {
  readonly kind: K;
  readonly text: string;
  readonly keptText: string;
  readonly house: HouseUnits;
}): QuantityState<K> {
  const { kind, text, keptText, house } = given;
  const read = parseQuantity(kind, text, house);
  if (read.ok) return { type: 'understood', understood: read.value, keptAnyway: false };
  const { error } = read;
  if (error.type === 'Empty') return { type: 'empty' };
  const implausible = error.type === 'Implausible' ? error.understood : null;
  const mayKeep = implausible !== null && isTaken(kind, implausible.value);
  if (implausible !== null && mayKeep && keptText === text) {
    return { type: 'understood', understood: implausible, keptAnyway: true };
  }
  return { type: 'wrong', said: sayQuantityError(error as QuantityError, house, text.trim(), mayKeep) };
}

function isTaken(kind: QuantityKind, value: number): boolean {
  const [low, high] = TAKEN_BY_THE_BOOK[kind];
  return value >= low && value <= high;
}
