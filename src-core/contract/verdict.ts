import { z } from 'zod';

export const VERDICT_WORDS = ['notKnown', 'notShownSafeYet', 'meetsTheRule', 'doNotUse'] as const;

/** One rule that spoke. `sayKey` picks the sentence; `numbers` are the facts it used, unrounded. */
export const Finding = z.object({
  ruleId: z.string(),
  verdict: z.enum(['ok', 'caution', 'unknown_measure_first', 'do_not']),
  reason: z.string().nullable(),
  sayKey: z.string(),
  numbers: z.record(z.string(), z.union([z.number(), z.string(), z.null()])),
  sourceIds: z.array(z.string()),
});
export type Finding = z.infer<typeof Finding>;

/** What the rules say of one use. Never stored as truth: it follows from the book and from today. */
export const Verdict = z.object({
  use: z.string(),
  word: z.enum(VERDICT_WORDS),
  /** What stands there is kept apart: until it is moved on, no use of it meets a rule, whatever was measured. */
  keptApart: z.boolean(),
  findings: z.array(Finding),
  measureNext: z.object({ quantity: z.string(), why: z.string() }).nullable(),
  /** Whether the keeper may go against it with a typed reason; never where a rule allows no exception. */
  mayBeOverruled: z.boolean(),
  /** The newest time the keeper did so. The word and the cautions stay as they are. */
  overruled: z.object({ reason: z.string(), atMs: z.number() }).nullable(),
});
export type Verdict = z.infer<typeof Verdict>;
