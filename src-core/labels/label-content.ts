import type { LocalTime } from '../quantities/civil-time.ts';
import type { FilledStage } from '../ledger/stage.ts';
import { ELLIPSIS } from './fit-text.ts';
import { briefly, cautionsOf } from './label-cautions.ts';
import { codeText, labelId } from './label-code.ts';
import type { LabelFacts } from './label-facts.ts';
import { ALWAYS_PRINTED, LABEL_PARTS, type LabelPart } from './label-part.ts';
import {
  cultureWord,
  ROW_WORDS,
  sayAcidity,
  sayAllergens,
  sayAlcohol,
  sayCulture,
  sayDay,
  sayPh,
  sayStages,
  waysToSayWhat,
} from './label-words.ts';
import { printable } from './typesetter.ts';

/** A line with what it tells in front: `Started 2026-10-22`. */
export interface ContentRow {
  readonly part: LabelPart;
  readonly word: string;
  readonly value: string;
  /** Keeper's words that may be long go over several lines. */
  readonly linesMax: number;
  /** The same said shorter, for where it has no room: tried in turn before it is cut. */
  readonly shorter: readonly string[];
  /** Numbers, days and allergens are never cut: where they have no room they are left off whole, and that is told. */
  readonly mayCut: boolean;
}

/** Everything that should stand on one label, in words. */
export interface LabelContent {
  readonly id: string;
  readonly code: string;
  readonly stage: FilledStage | null;
  readonly name: string;
  /** What it is, and the same said shorter and shorter, for where it has no room; empty when it is not wanted. */
  readonly what: readonly string[];
  readonly cautions: readonly string[];
  /** The same cautions in fewer words. */
  readonly cautionsBriefly: readonly string[];
  /** What matters most first. */
  readonly rows: readonly ContentRow[];
  readonly freeLine: string;
  readonly blankLines: number;
  /** Whether the square code was wanted. */
  readonly withCode: boolean;
}

/** What the keeper wants on it, beside what always prints. */
export interface LabelWishes {
  readonly content: 'cellar' | 'gift';
  readonly without: readonly LabelPart[];
  readonly freeLine: string;
  readonly from: string;
  readonly bestKept: string;
  readonly blankLines: number;
}

/** Parts that tell the keeper of the work, and parts that tell somebody who gets it as a present. */
const OF_THE_CELLAR: ReadonlySet<LabelPart> = new Set(['stages', 'culture', 'ph']);
const OF_THE_GIFT: ReadonlySet<LabelPart> = new Set(['ingredients', 'allergens', 'from', 'bestKept']);

/** Half a number, a day or a list of allergens says something else than the whole. */
const NEVER_CUT: ReadonlySet<LabelPart> = new Set([
  ...(['started', 'batchStarted', 'bottled', 'strength', 'ph', 'alcohol', 'allergens'] as const),
]);

/**
 * The content of a label from what the book knows. Cautions come from the verdicts alone and no wish takes them off; of the
 * rest, what the keeper does not want is left away.
 *
 * @param counted `2 of 9` behind what it is; '' for none
 */
export function labelContent(
  facts: LabelFacts,
  wishes: LabelWishes,
  local: LocalTime,
  counted: string,
): LabelContent {
  const always: readonly LabelPart[] = ALWAYS_PRINTED;
  const wanted = (part: LabelPart): boolean => {
    if (always.includes(part)) return true;
    if (wishes.without.includes(part)) return false;
    return wishes.content === 'gift' ? !OF_THE_CELLAR.has(part) : true;
  };
  const id = labelId(facts.target);
  const cautions = facts.verdicts === null ? [] : cautionsOf(facts.verdicts);
  const named = { ...facts, parentName: cleaned(facts.parentName) };
  return {
    ...{ id, code: codeText(id), stage: facts.stage },
    name: printable(facts.name) || id,
    what: wanted('what') ? waysToSayWhat(named, counted) : [],
    ...{ cautions, cautionsBriefly: cautions.map(briefly) },
    rows: rowsOf(facts, wishes, local)
      .filter(({ part, value }) => wanted(part) && value !== '')
      .sort((a, b) => LABEL_PARTS.indexOf(a.part) - LABEL_PARTS.indexOf(b.part)),
    freeLine: wanted('freeLine') ? printable(wishes.freeLine) : '',
    blankLines: wanted('blankLines') ? wishes.blankLines : 0,
    withCode: wanted('code'),
  };
}

function rowsOf(facts: LabelFacts, wishes: LabelWishes, local: LocalTime): ContentRow[] {
  const { acidity, ph, alcohol, culture, ingredients } = facts;
  const day = (atMs: number | null): string => (atMs === null ? '' : sayDay(atMs, local));
  const row = (
    part: keyof typeof ROW_WORDS,
    value: string,
    linesMax = 1,
    shorter: readonly string[] = [],
  ): ContentRow => ({ part, word: ROW_WORDS[part], value, linesMax, shorter, mayCut: !NEVER_CUT.has(part) });
  const made = ingredients.map(printable).filter((name) => name !== '');
  return [
    row('started', day(facts.startedAtMs)),
    row('batchStarted', day(facts.batchStartedAtMs)),
    row('bottled', day(facts.bottledAtMs)),
    row('stages', sayStages(facts.stages, local), 1, fewerStages(facts.stages, local)),
    row('strength', acidity === null ? '' : sayAcidity(acidity, local), 2),
    row('ph', ph === null ? '' : sayPh(ph, local), 2),
    row('alcohol', alcohol === null ? '' : sayAlcohol(alcohol, local), 2),
    ...(culture === null
      ? []
      : [
          {
            part: 'culture' as const,
            word: cultureWord(culture.sort),
            value: sayCulture({ ...culture, name: printable(culture.name) }),
            linesMax: 1,
            shorter: [],
            mayCut: true,
          },
        ]),
    row('ingredients', made.join(', ') || (wishes.content === 'gift' ? 'not on record' : ''), 4),
    ...(facts.verdicts === null || wishes.content === 'cellar'
      ? []
      : [row('allergens', sayAllergens(facts), 3)]),
    row('from', printable(wishes.from)),
    row('bestKept', printable(wishes.bestKept), 2),
  ].filter(({ part }) => wishes.content === 'gift' || part === 'ingredients' || !OF_THE_GIFT.has(part));
}

function cleaned(text: string | null): string | null {
  return text === null ? null : printable(text);
}

/** The newest stages alone, fewer and fewer, with … for those that are not told. */
function fewerStages(stages: LabelFacts['stages'], local: LocalTime): readonly string[] {
  return stages.slice(1).map((_, at) => `${ELLIPSIS} ${sayStages(stages.slice(at + 1), local)}`);
}
