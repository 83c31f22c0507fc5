import type { Limit } from './rule.ts';

export type Comparison = 'clear' | 'fails' | 'straddles';

/**
 * Holds a value with its expanded uncertainty against a limit (rule MEAS-01, a guard band). Clear only when the whole
 * interval v ± U lies on the safe side; fails only when all of it lies on the unsafe side; anything else straddles. A
 * value exactly at the limit with U > 0 always straddles. U must be positive: anything else straddles too, as does a
 * number that is not finite.
 */
export function compareWithLimit(
  measured: { readonly value: number; readonly uncertainty: number },
  limit: Pick<Limit, 'side' | 'value' | 'inclusive'>,
): Comparison {
  const { value, uncertainty } = measured;
  if (!Number.isFinite(value) || !(uncertainty > 0) || !Number.isFinite(uncertainty)) return 'straddles';
  const low = value - uncertainty;
  const high = value + uncertainty;
  if (limit.side === 'lower') {
    if (limit.inclusive ? low >= limit.value : low > limit.value) return 'clear';
    return (limit.inclusive ? high < limit.value : high <= limit.value) ? 'fails' : 'straddles';
  }
  if (limit.inclusive ? high <= limit.value : high < limit.value) return 'clear';
  return (limit.inclusive ? low > limit.value : low >= limit.value) ? 'fails' : 'straddles';
}
