import type { Finding, Verdict } from '#core/contract/verdict.ts';
import type { Use } from '#core/safety/rule.ts';
import { SOURCES, type Source } from '#core/safety/sources.ts';
import { sayInstead } from './verdict/instead.ts';
import { sayFindings } from './verdict/looks.ts';
import { sayMeasureNext } from './verdict/measure-next.ts';
import type { VerdictHouse } from './verdict/sentence.ts';

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

const USES: Readonly<Record<Use, string>> = {
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
  startKombucha: 'To start a kombucha',
  pressFruit: 'To press the fruit',
  handleSulfite: 'To handle sulfite powder',
  concentrateAlcohol: 'To distil or freeze out the alcohol',
  makeAlcohol: 'To make alcohol at home',
  closeVessel: 'To close the vessel while it works',
  moveWarmer: 'To move sealed bottles into the warm',
  heatBottles: 'To heat closed bottles',
  enterCellar: 'To go into the cellar',
  useVessel: 'To use this vessel',
  clean: 'To clean',
  titrate: 'To handle sodium hydroxide',
  pasteurise: 'To pasteurise vinegar',
};

/** A use as its heading says it, such as "To dress a salad". */
export function sayUse(use: string): string {
  const uses: Readonly<Record<string, string>> = USES;
  return uses[use] ?? `For a use that this version does not know (${use})`;
}

/**
 * The four lines of a verdict. Of the findings those are told that object, ask or caution; where nothing objects, the
 * rule that is met with its number and date. A finding without words of ours is told as not known, never left out.
 */
export function sayVerdict(verdict: Verdict, rules: VerdictHouse = { dates: 'iso' }): VerdictSaid {
  const told = toldFindings(verdict);
  const why = sayFindings(told, rules);
  return {
    word: VERDICT_WORD_TEXT[verdict.word],
    use: sayUse(verdict.use),
    why: [...reasonsBesideRules(verdict), ...why],
    measureNext: nextLine(verdict),
    sources: sourcesOf(told.some(decides) ? told.filter(decides) : told),
  };
}

function reasonsBesideRules(verdict: Verdict): readonly string[] {
  if (verdict.keptApart) return [KEPT_APART];
  if (!hasNoRule(verdict)) return [];
  return [verdict.measureNext?.quantity === 'product' ? NO_PRODUCT : NO_RULE];
}

const KEPT_APART = 'It is kept apart, so no measurement speaks for it.';
const WHILE_KEPT_APART =
  'Find out why it was kept apart. When that is settled, move it on and measure again.';
const NO_RULE = 'Undercroft has no sourced rule for this. It cannot tell you.';
const NO_PRODUCT = 'What stands in the vessel is not on record, so the rules for it cannot be chosen.';

/** Nothing blocks, and yet it is not known: the rules that would decide this use have not spoken. */
function hasNoRule({ word, findings }: Verdict): boolean {
  const blocks = findings.some(({ verdict }) => verdict === 'unknown_measure_first' || verdict === 'do_not');
  return word !== 'meetsTheRule' && !blocks;
}

/** A rule of the use itself decides; the measurement rules only explain why a number may or may not be used. */
const decides = ({ ruleId }: Finding): boolean => !ruleId.startsWith('MEAS-');

function toldFindings({ word, findings }: Verdict): readonly Finding[] {
  // That a reading is too close to call is said once, by the rule whose limit it is too close to.
  const once = findings.filter(({ sayKey }) => sayKey !== 'MEAS-01.straddles');
  const objecting = (once.length === 0 ? findings : once).filter(({ verdict }) => verdict !== 'ok');
  if (word !== 'meetsTheRule') return objecting;
  return [...findings.filter((finding) => finding.verdict === 'ok' && decides(finding)), ...objecting];
}

function nextLine(verdict: Verdict): string {
  const { use, word, measureNext, findings } = verdict;
  if (measureNext !== null) return sayMeasureNext(measureNext);
  if (verdict.keptApart && word !== 'doNotUse') return WHILE_KEPT_APART;
  if (word === 'meetsTheRule')
    return AFTERWARDS[use] ?? 'Nothing now. Measure again after anything is put in.';
  if (hasNoRule(verdict)) return 'Nothing that would help: there is no rule to hold it against.';
  const instead = sayInstead(findings);
  if (instead !== null) return instead;
  return word === 'doNotUse'
    ? 'No measurement changes this.'
    : 'Take a new reading, and note how it was measured.';
}

/** What to do later where a use is not about a liquid that stays as it is. */
const AFTERWARDS: Readonly<Record<string, string>> = {
  weakJars: 'Nothing now. Note the hour at which they went into the refrigerator.',
  enterCellar: 'Nothing now. Measure again each time before you go in.',
  pressFruit: 'Nothing now. Sort the next load as well.',
  handleSulfite: 'Nothing now. Look again who is near before the next time.',
  makeAlcohol: 'Nothing now. Add to the litres of the year with each new batch.',
  closeVessel: 'Nothing now. Look again when it is topped up or closed in another way.',
  moveWarmer: 'Measure gravity in one of the bottles after a few days in the warm.',
  heatBottles: 'Nothing now. Look again before the next bath.',
  useVessel: 'Nothing now. Look the vessel over again before its next filling.',
  clean: 'Nothing now. Go through it again before the next cleaning.',
  titrate: 'Nothing now. Check the sodium hydroxide again within half a year.',
  pasteurise: 'Measure acidity once more when it has cooled; heat drives some off.',
};

function sourcesOf(findings: readonly Finding[]): readonly { readonly id: string; readonly title: string }[] {
  const sources: Readonly<Record<string, Source>> = SOURCES;
  const ids = new Set(findings.flatMap(({ sourceIds }) => sourceIds));
  return [...ids].map((id) => {
    const source = sources[id];
    if (source === undefined) return { id, title: `Source ${id}, not listed in this version` };
    return { id, title: `${source.title}${STATUS_WORDS[source.status]}` };
  });
}

/** How far a source was read, as it stands behind its title. Nothing where a copy of it was read. */
export const STATUS_WORDS: Readonly<Record<Source['status'], string>> = {
  seen: '',
  'seen in part': ' (read in part)',
  'seen (secondary)': ' (as quoted by others)',
  memory: ' (from memory, still to be confirmed)',
  policy: '',
  'common practice': '',
};
