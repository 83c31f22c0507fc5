import type { ShelfRow } from '#core/contract/shelves.ts';
import { evaluate } from '#core/safety/evaluate.ts';
import type { Inspection, Product } from '#core/safety/facts-of-uses.ts';
import type { SafetyFacts } from '#core/safety/facts.ts';
import { lookGuide, type LookGuide, type Sight } from '#core/safety/look-guide.ts';
import { WHOLE_BOOK } from '#core/safety/rule-book.ts';
import { nothingKnown } from './nothing-known.ts';

/** What to do with a vessel, from the mildest to the gravest. */
export const LOOK_ACTS = ['leave', 'treat', 'skim', 'hold', 'discard'] as const;
export type LookAct = (typeof LOOK_ACTS)[number];

/** One thing a look has found, by the key its sentence has, and the rules behind it. */
export interface LookSign {
  readonly key: string;
  readonly act: LookAct;
  readonly ruleIds: readonly string[];
}

export interface LookResult {
  readonly guide: LookGuide;
  /** The growth and every other sign, the gravest first. */
  readonly signs: readonly LookSign[];
  readonly act: LookAct;
}

/**
 * What a look at a vessel comes to: the growth by the look guide, and smell, flies, eels and texture by their rules. All of it
 * is answered at once, and the gravest decides.
 */
export function lookAt(given: {
  readonly sight: Sight;
  readonly inspection: Inspection;
  readonly product: Product | null;
  readonly nowMs: number;
}): LookResult {
  const { sight, inspection, product, nowMs } = given;
  const guide = lookGuide(sight, product);
  const growth: LookSign = { key: growthKey(guide, product), act: guide.act, ruleIds: guide.ruleIds };
  // Nothing but the look itself: what was measured is the leaf’s business.
  const facts = { ...nothingKnown(nowMs), product, inspection };
  const found = [...evaluate('keep', facts, WHOLE_BOOK).findings, ...eels(facts)]
    .filter((finding) => !isUnsaidCover(finding, inspection))
    .flatMap(signOf);
  const signs = [growth, ...found].sort((a, b) => rank(b.act) - rank(a.act));
  return { guide, signs, act: signs[0]?.act ?? 'leave' };
}

const rank = (act: LookAct): number => LOOK_ACTS.indexOf(act);

function growthKey(guide: LookGuide, product: Product | null): string {
  if (guide.growth !== 'jellyDisc') return guide.growth;
  return product === 'vinegar' || product === 'kombucha' ? 'mother' : 'strayDisc';
}

type Found = ReturnType<typeof evaluate>['findings'][number];

/** Rules whose word on a look is told besides the look guide, with what each answer asks of the keeper. */
const ACT_OF: Readonly<Record<string, LookAct>> = {
  'MLD-03.deadline': 'discard',
  'FLY-01.category': 'discard',
  'FLY-01.condition': 'treat',
  'OFF-01.category': 'discard',
  'OFF-01.condition': 'treat',
  'ETH-01.condition': 'treat',
  'ETH-01.not_yet': 'hold',
  'ETH-01.deadline': 'discard',
  'VEG-06.condition': 'leave',
  'VEG-06.category': 'discard',
  'VIN-10.condition': 'treat',
};

function signOf({ ruleId, reason }: Found): readonly LookSign[] {
  const key = `${ruleId}.${reason}`;
  const act = ACT_OF[key];
  return act === undefined ? [] : [{ key, act, ruleIds: [ruleId] }];
}

/** With no flies about, a cover that nobody spoke of is not held against it here. */
function isUnsaidCover({ ruleId, reason }: Found, { flies, cover }: Inspection): boolean {
  return ruleId === 'FLY-01' && reason === 'condition' && flies === 'none' && cover === null;
}

const eels = (facts: SafetyFacts): readonly Found[] =>
  evaluate('keepAsCulture', facts, WHOLE_BOOK).findings.filter(({ ruleId }) => ruleId === 'VIN-10');

/**
 * What stands in a vessel as far as a look has to know. A disc is only left alone on what is known to be a vinegar or a tea at
 * work, so anything in doubt is none of the two.
 */
export function productSeen(row: Pick<ShelfRow, 'ferment' | 'stage'>): Product | null {
  const { ferment, stage } = row;
  if (ferment === 'brinedVegetables') return 'brinedVegetables';
  if (ferment === 'kombucha') return 'kombucha';
  if (ferment === null) return null;
  if (stage === 'vinegar' || ferment === 'cultureKeeping') return 'vinegar';
  if (ferment !== 'fruitVinegar') return ferment;
  switch (stage) {
    case 'maturing':
    case 'ready':
      return 'vinegar';
    case 'yeast':
    case 'settling':
      return 'wine';
    case 'waiting':
      return 'juice';
    default:
      return null;
  }
}

/** A look as the book keeps it. Whatever was not said is null. */
export interface LookAnswers {
  readonly surface: 'bare' | 'flat' | 'fuzzy' | 'cannotTell' | null;
  readonly feel: Sight['feel'];
  readonly colour: Sight['colour'];
  readonly shape: Sight['shape'];
  readonly where: Sight['where'];
  readonly smell: Inspection['smell'];
  readonly flies: Inspection['flies'];
  readonly cover: Inspection['cover'];
  readonly eels: Inspection['eels'];
  readonly texture: Inspection['texture'];
  /** Since when a growth that cannot be told, or a smell of varnish, has been there; null for since this look. */
  readonly undecidedSinceMs: number | null;
  readonly solventSinceMs: number | null;
}

/** The signs of a growth; on a bare surface there are none. */
export function sightOf(answers: LookAnswers): Sight {
  const { surface, feel, colour, shape, where } = answers;
  if (surface === 'bare') return { surface, feel: null, colour: null, shape: null, where: null };
  return { surface: surface === 'cannotTell' ? null : surface, feel, colour, shape, where };
}

/** The look as it is told. A growth that could not be told at an earlier look counts from then. */
export function inspectionOf(
  answers: LookAnswers,
  given: {
    readonly atMs: number;
    readonly product: Product | null;
    readonly before: Inspection | null | undefined;
  },
): Inspection {
  const { atMs, product, before } = given;
  const { growth } = lookGuide(sightOf(answers), product);
  const { smell } = answers;
  const undecidedBefore = before?.growth === 'cannotTell' ? before.undecidedSinceMs : null;
  const smelled = smell === 'solventFaint' || smell === 'solventStrong';
  const smelledBefore = before?.smell?.startsWith('solvent') === true ? before.solventSinceMs : null;
  return {
    ...{ atMs, growth, smell, flies: answers.flies, cover: answers.cover },
    undecidedSinceMs: growth === 'cannotTell' ? (answers.undecidedSinceMs ?? undecidedBefore ?? atMs) : null,
    solventSinceMs: smelled ? (answers.solventSinceMs ?? smelledBefore ?? atMs) : null,
    ...{ eels: answers.eels, texture: answers.texture },
  };
}
