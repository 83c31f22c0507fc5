import type { Measurement, Quantity, SafetyFacts } from './facts.ts';
import type { Interval } from './interval.ts';
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
  | 'not_yet'
  | 'not_equilibrium'
  | 'calculated_only'
  | 'guessed'
  | 'jurisdiction_unset'
  | 'default_uncertainty'
  | 'widened'
  | 'converted'
  | 'fixed_acid_unknown'
  | 'own_use_about'
  | 'stronger_than_recipe'
  | 'diluted_at_home'
  | 'refrigerate_now'
  | 'condition'
  | 'print_on_label'
  | 'falling'
  | 'engine_fault';

/** What the keeper may ask a verdict for. */
export type Use =
  | 'labelAsVinegar'
  | 'can'
  | 'weakJars'
  | 'keep'
  | 'drink'
  | 'eat'
  | 'dressSalad'
  | 'giveAway'
  | 'refrigeratePickle'
  | 'sealInBottle'
  | 'keepAsCulture'
  | 'startKombucha'
  | 'pressFruit'
  | 'handleSulfite'
  | 'concentrateAlcohol'
  | 'makeAlcohol'
  | 'closeVessel'
  | 'moveWarmer'
  | 'heatBottles'
  | 'enterCellar'
  | 'useVessel'
  | 'clean'
  | 'titrate'
  | 'pasteurise';

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

/** What a rule is asked about: the use, the facts, and the newest measurement of a quantity as the rules leave it. */
export interface RuleContext {
  readonly use: Use;
  readonly facts: SafetyFacts;
  readonly inspect: (quantity: Quantity) => Inspection;
}

/**
 * A rule as data, with the arithmetic that decides it. Ids are stable. A labelling rule's `do_not` means "do not label it
 * so", not "poisonous".
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
  /** True where a caution is printed on the jar's label and not only shown. */
  readonly printsOnLabel: boolean;
  /** `unknown` where a fact that decides whether the rule applies is missing: the rule is then run, and cannot clear. */
  readonly applies: (context: RuleContext) => 'yes' | 'no' | 'unknown';
  /** The fact to find out where it is `unknown` whether the rule applies; null for a rule that always knows. */
  readonly appliesBy: string | null;
  readonly check: (context: RuleContext) => Answer;
}

/** A rule that decides whether a number may be used at all. A number it withholds counts as missing. */
export interface MeasurementRule {
  readonly id: string;
  readonly quantities: readonly Quantity[] | 'every';
  readonly reasons: readonly Reason[];
  readonly sourceIds: readonly SourceId[];
  readonly evidence: readonly Evidence[];
  /** Null where the rule has nothing to say of this measurement. */
  readonly check: (measurement: Measurement, facts: SafetyFacts) => Answer | null;
  /** The uncertainty to use after a caution of this rule. */
  readonly widen?: (measured: { readonly value: number; readonly uncertainty: number }) => number;
}

/** What the measurement rules say of one measurement, and the number they leave to be used. */
export interface Inspection {
  /** Null when no measurement of the quantity exists. */
  readonly measurement: Measurement | null;
  readonly answers: readonly { readonly rule: MeasurementRule; readonly answer: Answer }[];
  /** The number to hold against a limit; null when any measurement rule withholds it. */
  readonly usable: Interval | null;
  /** The worst answer, which explains a withheld number. */
  readonly worst: Answer;
}

/** The rules that a verdict is worked out by. */
export interface RuleBook {
  readonly rules: readonly Rule[];
  readonly measurementRules: readonly MeasurementRule[];
}

type Defaults = 'kind' | 'needs' | 'limit' | 'mayBeOverruled' | 'printsOnLabel' | 'applies' | 'appliesBy';

/** A safety rule that may be overruled, is not printed, needs no limit and applies to its uses: unless it says otherwise. */
export function defineRule(rule: Omit<Rule, Defaults> & Partial<Pick<Rule, Defaults>>): Rule {
  return {
    kind: 'safety',
    needs: [],
    limit: null,
    mayBeOverruled: true,
    printsOnLabel: false,
    applies: () => 'yes',
    appliesBy: null,
    ...rule,
  };
}

/** The stable key by which the sentence of an answer is found. */
export function sayKeyOf(ruleId: string, reason: Reason): string {
  return `${ruleId}.${reason}`;
}

export function severity(verdict: RuleVerdict): number {
  return RULE_VERDICTS.indexOf(verdict);
}

/** The answer with the graver verdict; of two alike the first. */
export function graver(first: Answer, second: Answer): Answer {
  return severity(second.verdict) > severity(first.verdict) ? second : first;
}

export function okBecause(numbers: Numbers): Answer {
  return { verdict: 'ok', reason: 'met', numbers, measureNext: null };
}

export function cautionBecause(reason: Reason, numbers: Numbers = {}): Answer {
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
  numbers: Numbers = {},
  measureNext: MeasureNext | null = null,
): Answer {
  return { verdict: 'do_not', reason, numbers, measureNext };
}
