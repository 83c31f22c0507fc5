import type { Quantity, SafetyFacts } from './facts.ts';
import type { SourceId } from './sources.ts';

/** From best to worst. `ok` says that no rule objects; it never says "safe". */
export const RULE_VERDICTS = ['ok', 'caution', 'unknown_measure_first', 'do_not'] as const;
export type RuleVerdict = (typeof RULE_VERDICTS)[number];

/** Why a rule answered as it did. `met` is the only reason of an `ok`. */
export type Reason =
  | 'met'
  | 'missing'
  | 'stale_event'
  | 'stale_age'
  | 'ageing'
  | 'straddles'
  | 'readings_disagree'
  | 'wrong_side'
  | 'basis'
  | 'method'
  | 'uncalibrated'
  | 'implausible'
  | 'unit_ambiguous'
  | 'category'
  | 'deadline'
  | 'not_equilibrium'
  | 'calculated_only'
  | 'guessed'
  | 'jurisdiction_unset'
  | 'default_uncertainty'
  | 'converted'
  | 'fixed_acid_unknown'
  | 'own_use_about'
  | 'stronger_than_recipe'
  | 'diluted_at_home'
  | 'refrigerate_now'
  | 'engine_fault';

/** What the keeper may ask a verdict for. */
export type Use = 'labelAsVinegar' | 'can' | 'weakJars' | 'keep';

export type Numbers = Readonly<Record<string, number | string | null>>;

/** What to find out next, and the reason that asks for it. */
export interface MeasureNext {
  readonly quantity: string;
  readonly why: string;
}

/** One answer of one rule. */
export interface Answer {
  readonly verdict: RuleVerdict;
  readonly reason: Reason;
  readonly numbers: Numbers;
  readonly measureNext: MeasureNext | null;
}

/** A limit as it is written in law or advice: never rounded, with its own edge. */
export interface Limit {
  readonly quantity: Quantity;
  readonly side: 'lower' | 'upper';
  readonly value: number;
  readonly unit: string;
  readonly inclusive: boolean;
}

export type Evidence = 'seen' | 'seen (secondary)' | 'memory' | 'policy' | 'common practice';

/**
 * A rule as data, with the arithmetic that decides it. Ids are stable. A labelling rule's `do_not` means "do not label
 * it so", not "poisonous".
 */
export interface Rule {
  readonly id: string;
  readonly kind: 'labelling' | 'safety';
  readonly uses: readonly Use[];
  /** Measured quantities that the rule compares with a limit; the measurement rules are run over each. */
  readonly needs: readonly Quantity[];
  readonly limit: Limit | null;
  /** Every reason the rule can give; with the id they make its wording keys. */
  readonly reasons: readonly Reason[];
  readonly sourceIds: readonly SourceId[];
  readonly evidence: readonly Evidence[];
  /** False where not even a typed reason may be recorded against a `do_not`. */
  readonly mayBeOverruled: boolean;
  /** `unknown` where a fact that decides whether the rule applies is missing: the rule is then run. */
  readonly applies: (facts: SafetyFacts) => 'yes' | 'no' | 'unknown';
  readonly check: (facts: SafetyFacts) => Answer;
}

/** The stable key by which the sentence of an answer is found. */
export function sayKeyOf(ruleId: string, reason: Reason): string {
  return `${ruleId}.${reason}`;
}

export function severity(verdict: RuleVerdict): number {
  return RULE_VERDICTS.indexOf(verdict);
}

export function okBecause(numbers: Numbers): Answer {
  return { verdict: 'ok', reason: 'met', numbers, measureNext: null };
}

export function cautionBecause(reason: Reason, numbers: Numbers): Answer {
  return { verdict: 'caution', reason, numbers, measureNext: null };
}

/** The action waits until `find` is known. */
export function unknownBecause(reason: Reason, find: string, numbers: Numbers = {}): Answer {
  return {
    verdict: 'unknown_measure_first',
    reason,
    numbers,
    measureNext: { quantity: find, why: reason },
  };
}

export function doNotBecause(
  reason: Reason,
  numbers: Numbers,
  measureNext: MeasureNext | null = null,
): Answer {
  return { verdict: 'do_not', reason, numbers, measureNext };
}
