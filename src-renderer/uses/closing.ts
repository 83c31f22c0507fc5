import { evaluate } from '#core/safety/evaluate.ts';
import type { Closing } from '#core/safety/facts-of-uses.ts';
import { WHOLE_BOOK } from '#core/safety/rule-book.ts';
import type { Finding } from '#core/safety/verdict.ts';
import { nothingKnown } from './nothing-known.ts';

/** What rule PRS-04 says of closing a vessel in which a ferment makes gas. */
export function closingFindings(closing: Closing, nowMs: number): readonly Finding[] {
  return evaluate('closeVessel', { ...nothingKnown(nowMs), closing }, WHOLE_BOOK).findings;
}
