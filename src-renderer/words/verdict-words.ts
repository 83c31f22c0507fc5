import type { HouseRules } from '#core/contract/house-rules.ts';
import type { Finding, Verdict } from '#core/contract/verdict.ts';
import { SOURCES, type Source } from '#core/safety/sources.ts';
import { sayFinding, sayMeasureNext } from './verdict-sentences.ts';

/** A verdict as four lines: the word, why, what to measure next, and where the rule stands written. */
export interface VerdictSaid {
  readonly word: string;
  /** What the verdict is for, such as "For canning and pickling". */
  readonly use: string;
  readonly why: readonly string[];
  readonly measureNext: string;
  readonly sources: readonly { readonly id: string; readonly title: string }[];
}

export const VERDICT_WORD_TEXT: Readonly<Record<Verdict['word'], string>> = {
  notKnown: 'Not known',
  notShownSafeYet: 'Not shown safe yet',
  meetsTheRule: 'Meets the rule',
  doNotUse: 'Do not use',
};

const USES: Readonly<Record<string, string>> = {
  labelAsVinegar: 'To be called vinegar',
  can: 'For canning and shelf pickles',
  weakJars: 'For jars already made with weak vinegar',
  keep: 'To keep on the shelf',
  drink: 'To drink',
  eat: 'To eat',
  dressSalad: 'To dress a salad',
  giveAway: 'To give away',
  refrigeratePickle: 'For pickles kept in the refrigerator',
  sealInBottle: 'To seal in a bottle',
  keepAsCulture: 'To keep as a culture',
};

/** A use as its heading says it, such as "To dress a salad". */
export function sayUse(use: string): string {
  return USES[use] ?? use;
}

/**
 * The four lines of a verdict. Of the findings those are told that object, ask or caution; where nothing objects, the
 * rule that is met with its number and date. A finding without words of ours is told as not known, never left out.
 */
export function sayVerdict(
  verdict: Verdict,
  rules: Pick<HouseRules, 'dates'> = { dates: 'iso' },
): VerdictSaid {
  const told = toldFindings(verdict);
  const why = told.map((finding) => sayFinding(finding, rules));
  return {
    word: VERDICT_WORD_TEXT[verdict.word],
    use: sayUse(verdict.use),
    why:
      why.length === 0 ? ['Undercroft has no sourced rule for this. It cannot tell you.'] : [...new Set(why)],
    measureNext: nextLine(verdict),
    sources: sourcesOf(told.some(decides) ? told.filter(decides) : told),
  };
}

/** A rule of the use itself decides; the measurement rules only explain why a number may or may not be used. */
const decides = ({ ruleId }: Finding): boolean => !ruleId.startsWith('MEAS-');

function toldFindings({ word, findings }: Verdict): readonly Finding[] {
  // That a reading is too close to call is said once, by the rule whose limit it is too close to.
  const once = findings.filter(({ sayKey }) => sayKey !== 'MEAS-01.straddles');
  const objecting = (once.length === 0 ? findings : once).filter(({ verdict }) => verdict !== 'ok');
  if (word !== 'meetsTheRule' && objecting.length > 0) return objecting;
  return [...findings.filter((finding) => finding.verdict === 'ok' && decides(finding)), ...objecting];
}

function nextLine({ word, measureNext, findings }: Verdict): string {
  if (measureNext !== null) return sayMeasureNext(measureNext);
  if (word === 'meetsTheRule') return 'Nothing now. Measure again after anything is put in.';
  if (word === 'doNotUse') return 'No measurement changes this.';
  return findings.length === 0
    ? 'Nothing that would help: there is no rule to hold it against.'
    : 'Take a new reading, and note how it was measured.';
}

function sourcesOf(findings: readonly Finding[]): readonly { readonly id: string; readonly title: string }[] {
  const sources: Readonly<Record<string, Source>> = SOURCES;
  const ids = new Set(findings.flatMap(({ sourceIds }) => sourceIds));
  return [...ids].map((id) => {
    const source = sources[id];
    if (source === undefined) return { id, title: `Source ${id}, not listed in this version` };
    return { id, title: `${source.title}${STATUS_WORDS[source.status]}` };
  });
}

const STATUS_WORDS: Readonly<Record<Source['status'], string>> = {
  seen: '',
  'seen in part': ' (read in part)',
  'seen (secondary)': ' (as quoted by others)',
  memory: ' (from memory, still to be confirmed)',
  policy: '',
  'common practice': '',
};
