import type { Verdict } from '#core/contract/verdict.ts';

/** A verdict as four lines: the word, why, what to measure next, and where the rule stands written. */
export interface VerdictSaid {
  readonly word: string;
  readonly use: string;
  readonly why: readonly string[];
  readonly measureNext: string;
  readonly sources: readonly { readonly id: string; readonly title: string }[];
}

const WORDS: Readonly<Record<Verdict['word'], string>> = {
  notKnown: 'Not known',
  notShownSafeYet: 'Not shown safe yet',
  meetsTheRule: 'Meets the rule',
  doNotUse: 'Do not use',
};

/** The four lines of a verdict. A finding without a sentence of ours is said as not known, never left out. */
export function sayVerdict(verdict: Verdict): VerdictSaid {
  return {
    word: WORDS[verdict.word],
    use: verdict.use,
    why: verdict.findings.map((finding) => `Rule ${finding.ruleId} has no words here: treat it as not known.`),
    measureNext: verdict.measureNext === null ? 'Nothing more is asked.' : verdict.measureNext.quantity,
    sources: verdict.findings.flatMap((finding) => finding.sourceIds.map((id) => ({ id, title: id }))),
  };
}
