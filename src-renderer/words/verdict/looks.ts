import type { Finding } from '#core/contract/verdict.ts';
import { ruleAbout, sayFinding } from '../verdict-sentences.ts';
import { daysIn, numberIn, type VerdictHouse } from './sentence.ts';

/** A rule that only waits for somebody to look, or to look again. */
const waitsForALook = ({ reason, numbers }: Finding): boolean =>
  numbers['find'] === 'inspection' && (reason === 'missing' || reason === 'stale_age');

/**
 * Why, finding by finding and none twice. Rules that all wait for one and the same look are told in one sentence, which names what
 * each of them looks for.
 */
export function sayFindings(findings: readonly Finding[], house: VerdictHouse): readonly string[] {
  const waiting = findings.filter(waitsForALook);
  const [first] = waiting;
  const together = waiting.length > 1 && first !== undefined;
  const said = findings.flatMap((finding) => {
    if (!together || !waitsForALook(finding)) return [sayFinding(finding, house)];
    return finding === first ? [sayLook(waiting)] : [];
  });
  return [...new Set(said)];
}

function sayLook(waiting: readonly Finding[]): string {
  const about = waiting.map(({ ruleId }) => ruleAbout(ruleId) ?? `rule ${ruleId}`);
  const last = about.at(-1) ?? '';
  const listed = about.length > 1 ? `${about.slice(0, -1).join(', ')} and ${last}` : last;
  const ageMs = Math.max(...waiting.map(({ numbers }) => numberIn(numbers, 'ageMs') ?? Number.NaN));
  return Number.isNaN(ageMs)
    ? `Nobody has looked at it and smelled it yet, for ${listed}.`
    : `The last look was ${daysIn({ days: ageMs / 86_400_000 })} ago, too long for ${listed}: a week is the most while it works or stands open, half a year once it is closed up.`;
}
