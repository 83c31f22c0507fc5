import { asksForProduct, cornerstonesOf } from './cornerstones.ts';
import type { Quantity, SafetyFacts } from './facts.ts';
import { inspectNewest } from './inspect.ts';
import { WHOLE_BOOK } from './rule-book.ts';
import {
  sayKeyOf,
  severity,
  unknownBecause,
  type Answer,
  type Inspection,
  type MeasureNext,
  type MeasurementRule,
  type Rule,
  type RuleBook,
  type RuleContext,
  type RuleVerdict,
  type Use,
} from './rule.ts';
import { gravestWord, wordOf, type Finding, type Verdict } from './verdict.ts';

interface Spoken {
  readonly finding: Finding;
  readonly answer: Answer;
  readonly labelling: boolean;
  /** Rules for the use itself decide; measurement rules only explain. */
  readonly decides: boolean;
}

/**
 * The verdict for one use of what one vessel holds. Every rule that applies is run, and so are the measurement rules over each
 * quantity they need; all that spoke are returned, the worst first. It fails closed: a use that no rule covers, a missing fact,
 * a stale or straddling number, a cornerstone that did not speak, or a fault inside a rule never ends in `meetsTheRule`.
 */
export function evaluate(use: Use, facts: SafetyFacts, book: RuleBook = WHOLE_BOOK): Verdict {
  const context = contextOf(use, facts, book);
  const applying = book.rules.filter((rule) => rule.uses.includes(use) && mayApply(rule, context));
  const decided = applying.map((rule) => speak(rule, context));
  const quantities = [...new Set(applying.flatMap((rule) => rule.needs))];
  const explained = quantities.flatMap((quantity) => inspectAloud(quantity, context, book));
  const guardBand = book.measurementRules.find(({ id }) => id === 'MEAS-01');
  const straddling = decided
    .filter(({ answer }) => guardBand && answer.reason === 'straddles')
    .map(({ answer }) => spokenBy(guardBand ?? UNNAMED, answer, false, false));
  const spoken = [...decided, ...explained, ...straddling].sort(
    (a, b) =>
      severity(b.answer.verdict) - severity(a.answer.verdict) || Number(b.decides) - Number(a.decides),
  );
  const notCovered = lacking(use, facts, spoken, book);
  return conclude(use, spoken, notCovered);
}

const UNNAMED = { id: 'MEAS-01', sourceIds: ['POLICY'] } as const;

function contextOf(use: Use, facts: SafetyFacts, book: RuleBook): RuleContext {
  const inspected = new Map<Quantity, Inspection>();
  return {
    use,
    facts,
    inspect: (quantity) => {
      const known = inspected.get(quantity);
      if (known) return known;
      const inspection = inspectNewest(quantity, facts, book.measurementRules);
      inspected.set(quantity, inspection);
      return inspection;
    },
  };
}

function conclude(use: Use, spoken: readonly Spoken[], notCovered: NotCovered | null): Verdict {
  const findings = spoken.map(({ finding }) => finding);
  const [gravest] = spoken;
  const clears =
    gravest !== undefined && severity(gravest.answer.verdict) < severity('unknown_measure_first');
  if (gravest === undefined || (clears && notCovered !== null)) {
    const worst: RuleVerdict = 'unknown_measure_first';
    return { use, word: 'notKnown', worst, findings, measureNext: notCovered?.measureNext ?? null };
  }
  const worst = gravest.answer.verdict;
  const atWorst = spoken.filter(({ answer }) => answer.verdict === worst);
  const word = gravestWord(
    atWorst.map(({ answer, labelling }) =>
      wordOf({ verdict: answer.verdict, reason: answer.reason, labelling }),
    ),
  );
  const asked = atWorst.find(({ answer }) => answer.measureNext !== null)?.answer.measureNext ?? null;
  // What decides whether any rule covers the use comes before what one rule asks for.
  const measureNext = (worst === 'do_not' ? null : notCovered?.measureNext) ?? asked;
  return { use, word, worst, findings, measureNext };
}

/** A use that may not be cleared because a cornerstone is silent, and what would give it a voice. */
interface NotCovered {
  readonly measureNext: MeasureNext | null;
}

/** Null when every cornerstone of the use has spoken. */
function lacking(use: Use, facts: SafetyFacts, spoken: readonly Spoken[], book: RuleBook): NotCovered | null {
  const cornerstones = cornerstonesOf(use, facts);
  if (cornerstones !== null) {
    const silent = cornerstones.some((any) => !spoken.some(({ finding }) => any.includes(finding.ruleId)));
    return silent ? { measureNext: null } : null;
  }
  const wouldHelp = asksForProduct(use) && book.rules.some((rule) => rule.uses.includes(use));
  const productUnknown = (facts.product ?? null) === null;
  return { measureNext: wouldHelp && productUnknown ? { quantity: 'product', why: 'missing' } : null };
}

/** A rule whose own test of applying fails is run, so that its fault is heard. */
function mayApply(rule: Rule, context: RuleContext): boolean {
  try {
    return rule.applies(context) !== 'no';
  } catch {
    return true;
  }
}

function speak(rule: Rule, context: RuleContext): Spoken {
  return spokenBy(
    rule,
    guarded(() => answerOf(rule, context)),
    rule.kind === 'labelling',
    true,
  );
}

/** A rule that may or may not apply can forbid or ask, but not clear. */
function answerOf(rule: Rule, context: RuleContext): Answer {
  const applies = rule.applies(context);
  const answer = rule.check(context);
  if (applies !== 'unknown' || severity(answer.verdict) >= severity('unknown_measure_first')) return answer;
  return unknownBecause('missing', rule.appliesBy ?? 'whether the rule applies', answer.numbers);
}

function inspectAloud(quantity: Quantity, context: RuleContext, book: RuleBook): readonly Spoken[] {
  try {
    const { answers } = context.inspect(quantity);
    // Which quantity it speaks of goes with its numbers: several may be needed for one use.
    return answers.map(({ rule, answer }) =>
      spokenBy(rule, { ...answer, numbers: { ...answer.numbers, quantity } }, false, false),
    );
  } catch {
    const [first] = book.measurementRules;
    return first ? [spokenBy(first, fault(), false, false)] : [];
  }
}

function spokenBy(
  rule: Pick<Rule | MeasurementRule, 'id' | 'sourceIds'>,
  answer: Answer,
  labelling: boolean,
  decides: boolean,
): Spoken {
  const { verdict, reason, measureNext } = answer;
  const sayKey = sayKeyOf(rule.id, reason);
  // What the answer asks for goes with its numbers, so that the sentence can name it.
  const numbers = measureNext === null ? answer.numbers : { ...answer.numbers, find: measureNext.quantity };
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
