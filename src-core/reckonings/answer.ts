import type { Uncertain } from '../quantities/propagate.ts';
import type { ReckonedAnswer, ReckonedStep } from './reckoning.ts';

interface Besides {
  readonly limit?: ReckonedAnswer['limit'];
  readonly range?: ReckonedAnswer['range'];
  /** What one of the answer's units is of the unit the number stands in: 1e6 for litres shown as µL. */
  readonly times?: number;
}

/** An answer with its uncertainty; a plain number, or an uncertainty of nothing, is exact or a convention. */
export function answer<Name extends string>(
  name: Name,
  of: Uncertain | number,
  unit: ReckonedAnswer['unit'],
  { limit = null, range = null, times = 1 }: Besides = {},
): ReckonedAnswer & { readonly name: Name } {
  const { value, uncertainty } = typeof of === 'number' ? { value: of, uncertainty: 0 } : of;
  return {
    name,
    value: value * times,
    uncertainty: uncertainty > 0 ? uncertainty * times : null,
    unit,
    limit,
    range: range === null ? null : { low: range.low * times, high: range.high * times },
  };
}

/** A line of the working. */
export function step<Name extends string>(
  name: Name,
  working: string,
  value: number,
  unit: string,
  source: string,
): ReckonedStep & { readonly name: Name } {
  return { name, working, value, unit, source };
}

/** Microlitres in a litre, micrograms in a gram and in a kilogram: the canonical units of volume and mass. */
export const UL_PER_LITRE = 1e6;
export const UG_PER_GRAM = 1e6;
export const UG_PER_KILOGRAM = 1e9;
