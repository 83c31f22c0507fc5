import type { Finding, Verdict } from '#core/contract/verdict.ts';
import { RULES } from '#core/safety/rule-book.ts';
import { isFactPath, type FactPath } from '../words/fact-words.ts';
import { FACT_PATHS, factsOfUse, RULE_ASKS } from './fact-questions.ts';

/** The facts a use is asked about: those its rules still wait for, and the others they look at. Each in one list only. */
export interface WantedFacts {
  readonly needed: readonly FactPath[];
  readonly others: readonly FactPath[];
}

/** Facts that make a rule speak which otherwise keeps silent, so they are offered wherever a rule of the use looks at them. */
const OPENING: readonly FactPath[] = ['recipient', 'containsHoney', 'infusion.madeAtMs'];

/**
 * What a verdict asks a keeper to tell: the facts of the rules that lack something, the named one first of all, then the facts
 * of every rule that spoke. Where no rule spoke, all that the rules of the use may ask.
 */
export function wantedFacts(verdict: Pick<Verdict, 'use' | 'findings' | 'measureNext'>): WantedFacts {
  const { use, findings, measureNext } = verdict;
  const lacking = findings.filter(lacksSomethingTold);
  const named = measureNext === null ? [] : namedBy(measureNext.quantity, findings.flatMap(asksOf));
  const needed = inOrder(new Set([...named, ...lacking.flatMap(asksOf)]));
  const ofUse = factsOfUse(use);
  const rest =
    findings.length === 0
      ? ofUse
      : [...findings.flatMap(asksOf), ...OPENING.filter((path) => ofUse.includes(path))];
  const others = inOrder(new Set(rest)).filter((path) => !needed.includes(path));
  return { needed, others };
}

/** Rules that hold a reading against a limit: what they lack is that reading, until one of its numbers is with the answer. */
const READING_RULES = new Set(RULES.filter(({ needs }) => needs.length > 0).map(({ id }) => id));

function lacksSomethingTold({ ruleId, verdict, reason, numbers }: Finding): boolean {
  if (verdict !== 'unknown_measure_first' || (reason !== 'missing' && reason !== 'stale_age')) return false;
  return !READING_RULES.has(ruleId) || 'value' in numbers;
}

/** A rule may wait for a whole group, a look or the three weights of salting: of it whatever the rules that spoke look at. */
function namedBy(quantity: string, looked: readonly FactPath[]): readonly FactPath[] {
  if (isFactPath(quantity)) return [quantity];
  return looked.filter((path) => path.startsWith(`${quantity}.`));
}

const asksOf = ({ ruleId }: { readonly ruleId: string }): readonly FactPath[] => RULE_ASKS[ruleId] ?? [];

function inOrder(paths: ReadonlySet<FactPath>): readonly FactPath[] {
  return FACT_PATHS.filter((path) => paths.has(path));
}

/** True when what a verdict waits for is a look at the vessel. */
export function asksToLook(verdict: Pick<Verdict, 'use' | 'findings' | 'measureNext'>): boolean {
  return wantedFacts(verdict).needed.some((path) => path.startsWith('inspection.'));
}

/** The reading a verdict waits for, by the name its rule asks with; null when it waits for something else. */
export function readingWanted(verdict: Pick<Verdict, 'measureNext'>): string | null {
  const quantity = verdict.measureNext?.quantity ?? null;
  return quantity !== null && READ.has(quantity) ? quantity : null;
}

const READ: ReadonlySet<string> = new Set([
  'acidity',
  'pH',
  'gravity',
  'alcohol',
  'temperature',
  'salt',
  'sulfite',
  'normality',
  'endPoint',
  'degassed',
]);
