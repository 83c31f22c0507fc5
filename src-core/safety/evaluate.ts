import type { Quantity, SafetyFacts } from './facts.ts';
import { inspectNewest } from './measurement.ts';
import { RULES } from './rule-book.ts';
import {
  sayKeyOf,
  severity,
  unknownBecause,
  type Answer,
  type Rule,
  type RuleVerdict,
  type Use,
} from './rule.ts';
import { MEASUREMENT_RULES } from './rules/measurement.ts';
import { gravestWord, wordOf, type Finding, type Verdict } from './verdict.ts';

interface Spoken {
  readonly finding: Finding;
  readonly answer: Answer;
  readonly labelling: boolean;
  /** Rules for the use itself decide; measurement rules only explain. */
  readonly decides: boolean;
}

/**
 * The verdict for one use of what one vessel holds. Every rule that applies is run, and so are the measurement rules over
 * each quantity they need; all that spoke are returned, the worst first. It fails closed: a use that no rule covers, a
 * missing fact, a stale or straddling number, or a fault inside a rule never ends in `meetsTheRule`.
 */
export function evaluate(use: Use, facts: SafetyFacts): Verdict {
  return evaluateWith(RULES, use, facts);
}

/** {@link evaluate} over a given list of rules, so that a faulty rule can be tried. */
export function evaluateWith(rules: readonly Rule[], use: Use, facts: SafetyFacts): Verdict {
  const applying = rules.filter((rule) => rule.uses.includes(use) && mayApply(rule, facts));
  const decided = applying.map((rule) => speak(rule, facts));
  const quantities = [...new Set(applying.flatMap((rule) => rule.needs))];
  const explained = quantities.flatMap((quantity) => inspectAloud(quantity, facts));
  const straddling = decided.filter(({ answer }) => answer.reason === 'straddles').map(guardBand);
  const spoken = [...decided, ...explained, ...straddling].sort(
    (a, b) =>
      severity(b.answer.verdict) - severity(a.answer.verdict) || Number(b.decides) - Number(a.decides),
  );
  return conclude(use, spoken);
}

function conclude(use: Use, spoken: readonly Spoken[]): Verdict {
  const findings = spoken.map(({ finding }) => finding);
  const [gravest] = spoken;
  if (gravest === undefined || !spoken.some(({ decides }) => decides)) {
    const worst: RuleVerdict = 'unknown_measure_first';
    return { use, word: 'notKnown', worst, findings, measureNext: null };
  }
  const worst = gravest.answer.verdict;
  const atWorst = spoken.filter(({ answer }) => answer.verdict === worst);
  const word = gravestWord(
    atWorst.map(({ answer, labelling }) =>
      wordOf({ verdict: answer.verdict, reason: answer.reason, labelling }),
    ),
  );
  const measureNext = atWorst.find(({ answer }) => answer.measureNext !== null)?.answer.measureNext ?? null;
  return { use, word, worst, findings, measureNext };
}

/** A rule whose own test of applying fails is run, so that its fault is heard. */
function mayApply(rule: Rule, facts: SafetyFacts): boolean {
  try {
    return rule.applies(facts) !== 'no';
  } catch {
    return true;
  }
}

function speak(rule: Rule, facts: SafetyFacts): Spoken {
  return spokenBy(
    rule,
    guarded(() => answerOf(rule, facts)),
    rule.kind === 'labelling',
    true,
  );
}

/** A rule that may or may not apply can forbid or ask, but not clear. */
function answerOf(rule: Rule, facts: SafetyFacts): Answer {
  const applies = rule.applies(facts);
  const answer = rule.check(facts);
  if (applies !== 'unknown' || severity(answer.verdict) >= severity('unknown_measure_first')) return answer;
  return unknownBecause('missing', 'whether the rule applies', answer.numbers);
}

function inspectAloud(quantity: Quantity, facts: SafetyFacts): readonly Spoken[] {
  let inspected: readonly { readonly ruleId: string; readonly answer: Answer }[];
  try {
    inspected = inspectNewest(quantity, facts).answers;
  } catch {
    inspected = MEASUREMENT_RULES.slice(0, 1).map(({ id }) => ({ ruleId: id, answer: fault() }));
  }
  return inspected.flatMap(({ ruleId, answer }) => {
    const rule = MEASUREMENT_RULES.find(({ id }) => id === ruleId);
    return rule ? [spokenBy(rule, answer, false, false)] : [];
  });
}

function guardBand({ answer }: Spoken): Spoken {
  const rule = MEASUREMENT_RULES.find(({ id }) => id === 'MEAS-01');
  if (!rule) throw new Error('MEAS-01 is in the book.');
  return spokenBy(rule, answer, false, false);
}

function spokenBy(
  rule: Pick<Rule, 'id' | 'sourceIds'>,
  answer: Answer,
  labelling: boolean,
  decides: boolean,
): Spoken {
  const { verdict, reason, numbers } = answer;
  const sayKey = sayKeyOf(rule.id, reason);
  return {
    finding: { ruleId: rule.id, verdict, reason, numbers, sayKey, sourceIds: rule.sourceIds },
    answer,
    labelling,
    decides,
  };
}

function guarded(ask: () => Answer): Answer {
  try {
    return ask();
  } catch {
    return fault();
  }
}

function fault(): Answer {
  return { verdict: 'unknown_measure_first', reason: 'engine_fault', numbers: {}, measureNext: null };
}
