import type { Finding } from '#core/contract/verdict.ts';
import type { Reason } from '#core/safety/rule.ts';
import { capital } from './choice-words.ts';
import { RULE_WORDS } from './verdict/rule-words.ts';
import { written, type VerdictHouse, type Words } from './verdict/sentence.ts';

/** True when an answer has a sentence of its own. */
export function hasSentence(sayKey: string): boolean {
  return wordsOf(sayKey) !== null;
}

/** What one rule said. A key without words of ours is itself said, as not known: nothing is left out in silence. */
export function sayFinding(
  finding: Pick<Finding, 'sayKey' | 'ruleId' | 'numbers'>,
  house: VerdictHouse,
): string {
  const words = wordsOf(finding.sayKey);
  return words === null
    ? `Rule ${finding.ruleId} gave an answer that this version has no words for. Take it as not known.`
    : capital(written(words, finding.numbers, house));
}

/** What a rule is about, in a few words within a sentence; null for a rule of which this version knows nothing. */
export function ruleAbout(ruleId: string): string | null {
  return RULE_WORDS[ruleId]?.about ?? null;
}

function wordsOf(sayKey: string): Words | null {
  const [ruleId = '', reason = ''] = sayKey.split('.');
  const rule = RULE_WORDS[ruleId];
  if (rule === undefined) return null;
  if (reason === 'engine_fault') {
    return `Rule ${ruleId}, on ${rule.about}, could not be worked out here, so it counts as not known.`;
  }
  return rule.says[reason as Reason] ?? null;
}
