import type { ToldFacts } from '#core/ledger/told-facts.ts';
import { evaluate } from '#core/safety/evaluate.ts';
import type { Product } from '#core/safety/facts-of-uses.ts';
import { WHOLE_BOOK } from '#core/safety/rule-book.ts';
import type { Finding } from '#core/safety/verdict.ts';
import { nothingKnown } from './nothing-known.ts';

/**
 * What the rules on heating say of one: PAS-01 to 03 of a vinegar, CID-04 of a juice. Nothing of any other product, for which
 * there is no rule.
 */
export function heatingFindings(
  told: Pick<ToldFacts, 'heating' | 'culture'>,
  product: Product | null,
  nowMs: number,
): readonly Finding[] {
  const facts = {
    ...nothingKnown(nowMs),
    ...{ product, heated: true, heating: told.heating ?? null, culture: told.culture ?? null },
  };
  if (product === 'vinegar') return evaluate('pasteurise', facts, WHOLE_BOOK).findings;
  if (product !== 'juice') return [];
  return evaluate('drink', facts, WHOLE_BOOK).findings.filter(({ ruleId }) => ruleId === 'CID-04');
}
