import type { MeasureNext, Numbers, Reason, RuleVerdict, Use } from './rule.ts';

/** The four words of the shelf. None of them is "safe". */
export type VerdictWord = 'notKnown' | 'notShownSafeYet' | 'meetsTheRule' | 'doNotUse';

/** What one rule said, with everything a sentence and a printed caution need. */
export interface Finding {
  readonly ruleId: string;
  readonly verdict: RuleVerdict;
  readonly reason: Reason;
  /** The numbers used, unrounded; `find` names the fact that the rule asks for, where it asks for one, and
   * `quantity` the one a measurement rule speaks of. */
  readonly numbers: Numbers;
  readonly sayKey: string;
  readonly sourceIds: readonly string[];
}

/**
 * What the rules say of one use, worked out from facts and the time of asking. Never stored as truth: a copy in a log is
 * history.
 */
export interface Verdict {
  readonly use: Use;
  readonly word: VerdictWord;
  readonly worst: RuleVerdict;
  /** All rules that spoke, the worst first. */
  readonly findings: readonly Finding[];
  readonly measureNext: MeasureNext | null;
}

const NOT_KNOWN: ReadonlySet<Reason> = new Set<Reason>([
  'missing',
  'stale_event',
  'stale_age',
  'jurisdiction_unset',
  'unit_ambiguous',
  'engine_fault',
  'guessed',
]);

/** The word for one finding, given the kind of its rule. */
export function wordOf(finding: {
  readonly verdict: RuleVerdict;
  readonly reason: Reason;
  readonly labelling: boolean;
}): VerdictWord {
  switch (finding.verdict) {
    case 'ok':
    case 'caution':
      return 'meetsTheRule';
    case 'unknown_measure_first':
      return NOT_KNOWN.has(finding.reason) ? 'notKnown' : 'notShownSafeYet';
    case 'do_not':
      return finding.labelling ? 'notShownSafeYet' : 'doNotUse';
  }
}

const WORD_ORDER: readonly VerdictWord[] = ['meetsTheRule', 'notShownSafeYet', 'notKnown', 'doNotUse'];

/** The gravest of several words. `notKnown` outranks `notShownSafeYet`; nothing at all is `notKnown`. */
export function gravestWord(words: readonly VerdictWord[]): VerdictWord {
  if (words.length === 0) return 'notKnown';
  return words.reduce((worst, word) => (WORD_ORDER.indexOf(word) > WORD_ORDER.indexOf(worst) ? word : worst));
}
