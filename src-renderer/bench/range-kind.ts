import type { ReckonedStep } from '#core/reckonings/reckoning.ts';

/** What stands beside a range: whether it was published, or is what the trade says without a source. Neither is a law. */
export function sayRangeKind(steps: readonly ReckonedStep[]): string {
  const isPractice = steps.some(({ source }) => source.toLowerCase().includes('common practice'));
  return isPractice ? 'range of common practice, not a law' : 'published range, not a law';
}
