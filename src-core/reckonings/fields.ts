import type { QuantityKind } from '../quantities/understood.ts';
import type { OnlyWhen, ReckoningField, VesselValue } from './reckoning.ts';

interface Range {
  readonly low?: number;
  readonly high?: number;
}

/** A quantity that must be given, filled by a vessel's own reading where there is one. */
export function needed<const Name extends string>(
  name: Name,
  quantity: QuantityKind,
  fromVessel: VesselValue | null = null,
  range: Range = {},
) {
  return { name, kind: 'quantity', quantity, required: true, fromVessel, otherwise: null, ...range } as const;
}

/** A quantity that may be left empty. */
export function optional<const Name extends string>(
  name: Name,
  quantity: QuantityKind,
  fromVessel: VesselValue | null = null,
  range: Range = {},
) {
  return {
    name,
    kind: 'quantity',
    quantity,
    required: false,
    fromVessel,
    otherwise: null,
    ...range,
  } as const;
}

/** A quantity with a value of its own, in its canonical unit, while nothing is typed. */
export function usually<const Name extends string>(
  name: Name,
  quantity: QuantityKind,
  otherwise: number,
  fromVessel: VesselValue | null = null,
  range: Range = {},
) {
  return { name, kind: 'quantity', quantity, required: false, fromVessel, otherwise, ...range } as const;
}

interface NumberRange {
  readonly unit: string;
  readonly low: number;
  readonly high: number;
}

export function numberNeeded<const Name extends string>(name: Name, range: NumberRange) {
  return { name, kind: 'number', ...range, required: true, otherwise: null } as const;
}

export function numberOptional<const Name extends string>(name: Name, range: NumberRange) {
  return { name, kind: 'number', ...range, required: false, otherwise: null } as const;
}

export function numberUsually<const Name extends string>(name: Name, otherwise: number, range: NumberRange) {
  return { name, kind: 'number', ...range, required: false, otherwise } as const;
}

export function choice<const Name extends string, const Choices extends readonly [string, ...string[]]>(
  name: Name,
  choices: Choices,
  otherwise: Choices[number] = choices[0],
) {
  return { name, kind: 'choice', choices, otherwise } as const;
}

/** The same field, asked only while a choice holds one of these. */
export function when<const Field extends ReckoningField>(
  field: string,
  is: readonly string[],
  asked: Field,
): Field & { readonly onlyWhen: OnlyWhen } {
  return { ...asked, onlyWhen: { field, is } };
}

/**
 * The keeper's own expanded uncertainty of another field, in that field's unit. Named for the field, with `Uncertainty` after it;
 * left empty, the method's default serves.
 */
export function uncertaintyOf<const Name extends string>(name: Name, range: Omit<NumberRange, 'low'>) {
  return numberOptional(`${name}Uncertainty`, { ...range, low: 0 });
}

/** How a gravity was measured, for its uncertainty; `exact` for a target or a number out of a book. */
export const GRAVITY_METHODS = ['hydrometer', 'hydrometerNarrow', 'refractometer', 'exact'] as const;

/** How an acidity was measured, for its uncertainty. */
export const ACIDITY_METHODS = ['taSyringeKit', 'taBurette', 'taLaboratory'] as const;

/** How a pH was measured, for its uncertainty. */
export const PH_METHODS = [
  'phMeterTwoBuffersToday',
  'phMeterWithinAWeek',
  'phStripNarrow',
  'phStripWide',
] as const;
