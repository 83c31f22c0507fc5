import type { Verdict } from '#core/contract/verdict.ts';

const GRAVEST_FIRST: readonly Verdict['word'][] = ['doNotUse', 'notKnown', 'notShownSafeYet', 'meetsTheRule'];

/** Verdicts with the gravest word first, in the order given within one word; uses that no rule speaks to come last of all. */
export function usesInOrder(verdicts: readonly Verdict[]): readonly Verdict[] {
  const rank = ({ word, findings }: Verdict): number =>
    findings.length === 0 ? GRAVEST_FIRST.length : GRAVEST_FIRST.indexOf(word);
  return verdicts.toSorted((a, b) => rank(a) - rank(b));
}
