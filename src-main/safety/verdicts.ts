import type { Verdict } from '#core/contract/verdict.ts';
import { FERMENTS } from '#core/ferments/registry.ts';
import { evaluate } from '#core/safety/evaluate.ts';
import { RULES } from '#core/safety/rule-book.ts';
import type { Verdict as RuledVerdict } from '#core/safety/verdict.ts';
import { safetyFacts, type BookFacts } from './safety-facts.ts';

export interface Overrulings {
  get(use: string): { readonly reason: string; readonly atMs: number } | undefined;
}

/** What the rules say of each use its kind of ferment is asked about. Worked out now, from the book and the time of asking. */
export function verdictsOf(book: BookFacts, overrulings: Overrulings): Verdict[] {
  const facts = safetyFacts(book);
  const keptApart = book.fill.stage === 'quarantine';
  return FERMENTS[book.batch.ferment].uses.map((use) => {
    const ruled = evaluate(use, facts);
    return {
      word: keptApart && ruled.word === 'meetsTheRule' ? ('notKnown' as const) : ruled.word,
      ...{ use, keptApart, measureNext: ruled.measureNext },
      findings: ruled.findings.map((f) => ({ ...f, numbers: { ...f.numbers }, sourceIds: [...f.sourceIds] })),
      mayBeOverruled: mayBeOverruled(ruled),
      // Gone against or not, the verdict and its cautions stay as they are.
      overruled: overrulings.get(use) ?? null,
    };
  });
}

const FIRM_RULES = new Set(RULES.filter((rule) => !rule.mayBeOverruled).map((rule) => rule.id));

/** A verdict that blocks may be gone against with a reason, unless a rule that allows no exception is what forbids. */
function mayBeOverruled({ word, findings }: RuledVerdict): boolean {
  if (word === 'meetsTheRule') return false;
  return !findings.some((f) => f.verdict === 'do_not' && FIRM_RULES.has(f.ruleId));
}
