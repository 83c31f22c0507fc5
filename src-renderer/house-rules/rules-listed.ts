import { WHOLE_BOOK } from '#core/safety/rule-book.ts';
import { SOURCES, type Source } from '#core/safety/sources.ts';
import { capital } from '../words/choice-words.ts';
import { sayUse, STATUS_WORDS } from '../words/verdict-words.ts';
import { ruleAbout } from '../words/verdict-sentences.ts';

/** One rule as the list of all rules tells it. */
export interface RuleListed {
  readonly id: string;
  /** What it is about, as a heading. */
  readonly about: string;
  /** What it is asked for. */
  readonly uses: readonly string[];
  readonly sources: readonly string[];
}

/** Every rule the program goes by, those on measuring last, with where it stands written. */
export function allRules(): readonly RuleListed[] {
  return [
    ...WHOLE_BOOK.rules.map((rule) => listed(rule, rule.uses.map(sayUse))),
    ...WHOLE_BOOK.measurementRules.map((rule) => listed(rule, ['Whether a measurement counts'])),
  ];
}

/** The rules in which every word of a search stands, wherever in what is told of them. */
export function rulesMatching(rules: readonly RuleListed[], search: string): readonly RuleListed[] {
  const words = search.toLowerCase().split(/\s+/u).filter(Boolean);
  return rules.filter(({ id, about, uses, sources }) => {
    const all = [id, about, ...uses, ...sources].join(' ').toLowerCase();
    return words.every((word) => all.includes(word));
  });
}

function listed(
  { id, sourceIds }: { readonly id: string; readonly sourceIds: readonly string[] },
  uses: readonly string[],
): RuleListed {
  return { id, about: capital(ruleAbout(id) ?? id), uses, sources: sourceIds.map(saySource) };
}

function saySource(id: string): string {
  const source = (SOURCES as Readonly<Record<string, Source>>)[id];
  return source === undefined ? id : `${source.title}${STATUS_WORDS[source.status]}`;
}
