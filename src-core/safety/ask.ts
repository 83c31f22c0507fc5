import type { EpochMs } from '../base/ports.ts';
import type { Product } from './facts-of-uses.ts';
import { highOf, lowOf, type Interval } from './interval.ts';
import { unknownBecause, type Answer, type RuleContext } from './rule.ts';

/** A rule for these products: no other product, nor an unknown one, is its business. */
export function forProducts(...products: readonly Product[]): (context: RuleContext) => 'yes' | 'no' {
  const set = new Set<Product>(products);
  return ({ facts }) => (facts.product && set.has(facts.product) ? 'yes' : 'no');
}

/** The answer that a known fact has in a table; `unknown` naming the fact where it is not known, or not in the table. */
export function byFact<T extends string>(
  name: string,
  value: T | null | undefined,
  answers: Readonly<Record<T, Answer>>,
): Answer {
  if (value === null || value === undefined || !Object.hasOwn(answers, value)) {
    return unknownBecause('missing', name);
  }
  return answers[value];
}

/** The first of several facts that is not known, by its name; null when all are. A number below nought or without end is none. */
export function firstUnknown(
  facts: Readonly<Record<string, string | number | boolean | null | undefined>>,
): string | null {
  for (const [name, value] of Object.entries(facts)) {
    if (value === null || value === undefined) return name;
    if (typeof value === 'number' && !(value >= 0 && value < Infinity)) return name;
  }
  return null;
}

/** Full periods of 24 h since a moment; null where it is not known or lies in the future. */
export function fullDaysSince(from: EpochMs | null | undefined, nowMs: EpochMs): number | null {
  if (from === null || from === undefined || !(from <= nowMs)) return null;
  return Math.floor((nowMs - from) / 86_400_000);
}

/** Hours since a moment; null where it is not known or lies in the future. */
export function hoursSince(from: EpochMs | null | undefined, nowMs: EpochMs): number | null {
  if (from === null || from === undefined || !(from <= nowMs)) return null;
  return (nowMs - from) / 3_600_000;
}

/** True when the whole interval lies within [low, high]. */
export function liesWithin(interval: Interval, low: number, high: number): boolean {
  return lowOf(interval) >= low && highOf(interval) <= high;
}

/** The numbers of an interval, for an answer. */
export function numbersOf(interval: Interval): { readonly value: number; readonly uncertainty: number } {
  return { value: interval.value, uncertainty: interval.uncertainty };
}
