import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Verdict } from '#core/contract/verdict.ts';
import { evaluate } from '#core/safety/evaluate.ts';
import type { SafetyFacts } from '#core/safety/facts.ts';
import { ALL_SAY_KEYS } from '#core/safety/rule-book.ts';
import type { Use } from '#core/safety/rule.ts';
import { sayUse, sayVerdict, VERDICT_WORD_TEXT } from '#renderer/words/verdict-words.ts';
import { labelCautions } from '#core/labels/label-cautions.ts';
import { ASKABLE_FACTS } from '#renderer/words/verdict/measure-next.ts';
import type { VerdictHouse } from '#renderer/words/verdict/sentence.ts';
import { allFacts, USES } from '../../core/safety/random-facts.ts';

const HOUSES: readonly VerdictHouse[] = [
  { dates: 'iso', temperature: 'C', volume: 'metric' },
  { dates: 'long', temperature: 'F', volume: 'us' },
];
const BROKEN = /undefined|NaN|null|Infinity|\[object|e\+\d|no words for|\?\u00A0|\b[Ss]afe(ly|ty)?\b/u;
const askable = new Set(ASKABLE_FACTS);

const asked = (use: Use, facts: SafetyFacts): Verdict => {
  const { word, measureNext, findings } = evaluate(use, facts);
  return {
    ...{ use, word, measureNext, mayBeOverruled: false, keptApart: false, overruled: null },
    findings: findings.map((f) => ({ ...f, numbers: { ...f.numbers }, sourceIds: [...f.sourceIds] })),
  };
};

/** What is wrong with the four lines of a verdict; null where nothing is. */
function wrongIn(verdict: Verdict, house: VerdictHouse): string | null {
  const { word, use, why, measureNext, sources } = sayVerdict(verdict, house);
  if (word !== VERDICT_WORD_TEXT[verdict.word]) return `the word ${word}`;
  if (use.includes('does not know')) return `the use ${use}`;
  if (why.length === 0) return 'no reason';
  const lines = [...why, measureNext, ...labelCautions(verdict)];
  const wrong = lines.find((line) => BROKEN.test(line));
  if (wrong !== undefined) return wrong;
  if (sources.some(({ title }) => title.includes('not listed'))) return 'a source that is not listed';
  const half = why.find((line) => !/^[\p{Lu}\d−].*\.$/u.test(line));
  if (half !== undefined) return half;
  if (!/^\p{Lu}.*[.?]$/u.test(measureNext)) return measureNext;
  if (verdict.findings.length > 0 && why.length > 1 && sources.length === 0) return 'no source';
  const unaskable = verdict.findings.find(
    ({ numbers }) => numbers['find'] !== undefined && !askable.has(String(numbers['find'])),
  );
  return unaskable === undefined ? null : `${unaskable.ruleId} asks for ${String(unaskable.numbers['find'])}`;
}

describe('2,000 random sets of facts', () => {
  test('every verdict of every use is said in four whole lines', () => {
    const saidKeys = new Set<string>();
    fc.assert(
      fc.property(allFacts, fc.constantFrom(...HOUSES), (facts, house) => {
        for (const use of USES) {
          const verdict = asked(use, facts);
          const wrong = wrongIn(verdict, house);
          if (wrong !== null) throw new Error(`${use}: ${wrong}`);
          for (const { sayKey } of verdict.findings) saidKeys.add(sayKey);
        }
      }),
      { numRuns: 2_000 },
    );
    // Chance meets most of the answers there are, so that this is a test of most sentences with real numbers.
    expect(saidKeys.size).toBeGreaterThan(ALL_SAY_KEYS.length / 2);
  }, 180_000);

  test('every use has its heading, and none is called safe', () => {
    expect(USES).toHaveLength(24);
    const headings = USES.map(sayUse);
    expect(new Set(headings).size).toBe(24);
    for (const heading of headings) expect(heading).toMatch(/^(To|For) [^A-Z]+$/u);
  });
});
