import type { RuleVerdict } from '../safety/rule.ts';
import type { VerdictWord } from '../safety/verdict.ts';

/** What a caution needs of a rule that spoke. */
export interface PrintedFinding {
  readonly ruleId: string;
  readonly verdict: RuleVerdict;
  readonly numbers: Readonly<Record<string, number | string | null>>;
  readonly reason: string | null;
}

/** What a caution needs of a verdict. */
export interface PrintedVerdict {
  readonly use: string;
  readonly word: VerdictWord;
  readonly keptApart: boolean;
  readonly findings: readonly PrintedFinding[];
}

/** Nothing that is measured or counted here is larger; a number beyond it is noise. */
const LARGEST = 1e15;
const numberIn = (value: number | string | null | undefined): number | null =>
  typeof value === 'number' && Math.abs(value) < LARGEST ? value : null;

/** What a rule prints on the jar while it does not say ok. Fixed texts, each a whole sentence or two, to be translated as such. */
type Printed = string | ((finding: PrintedFinding, all: readonly PrintedFinding[]) => string);

const NOT_STRONG = 'Do not use for pickling or canning. Not shown to be 5\u00A0% or more. Test before use.';
const DRESSINGS_ONLY = 'Home-made: for dressings only. Not for pickling or canning.';
const REFRIGERATOR_ONLY =
  'Home-made: for pickles in the refrigerator only, eaten within 4 weeks. Not for canning.';
const NOT_FOR_CANNING = 'Do not use for canning or shelf pickles.';
const KEPT_APART = 'Kept apart: do not use.';
const RAW = 'Not pasteurised: keep cold, may build pressure.';
const COLD = 'Keep cold, may build pressure.';
const NOT_FOR_THE_WEAK = 'Not for infants, in pregnancy, in old age or with weak immunity.';

const FOR_GROUPS = 'Keep from small children, and leave it alone when pregnant or with weak immunity.';
const NOT_HEATED =
  'Juice not heated: children, old people and anyone with weak immunity can fall gravely ill from it.';
const HONEY = 'Contains honey: not for children under 1 year.';
const YOUNG = `Young: under 14 days old, or its age is not known. ${NOT_FOR_THE_WEAK}`;
const NOT_SOUR = `pH under 4.6 not shown. ${NOT_FOR_THE_WEAK}`;

/** The same in fewer words, for small labels: nothing to do or to beware of is left away. */
const BRIEFLY: ReadonlyMap<string, string> = new Map([
  [NOT_STRONG, 'Not for pickling or canning: not shown to be 5\u00A0% or more. Test before use.'],
  [DRESSINGS_ONLY, 'Dressings only: not for pickling or canning.'],
  [REFRIGERATOR_ONLY, 'Refrigerator pickles only, eaten within 4 weeks. Not for canning.'],
  [NOT_FOR_CANNING, 'Not for canning or shelf pickles.'],
  [HONEY, 'Honey: not for children under 1 year.'],
  [
    `${RAW} ${FOR_GROUPS}`,
    'Raw: keep cold, may build pressure. Not for small children, in pregnancy or with weak immunity.',
  ],
  [FOR_GROUPS, 'Not for small children, in pregnancy or with weak immunity.'],
  [NOT_HEATED, 'Juice not heated: grave danger to children, old people, weak immunity.'],
  [
    YOUNG,
    'Young (under 14 days, or age not known): not for infants, in pregnancy, old age or weak immunity.',
  ],
  [NOT_SOUR, 'pH under 4.6 not shown: not for infants, in pregnancy, old age or weak immunity.'],
]);

/** A caution in fewer words that say the same; itself when it is short already. */
export function briefly(caution: string): string {
  return BRIEFLY.get(caution) ?? caution;
}

const PRINTED: Readonly<Record<string, Printed>> = {
  'CAN-01': NOT_FOR_CANNING,
  'CAN-05': ({ reason }) => {
    if (reason === 'refrigerate_now') {
      return REFRIGERATOR_ONLY;
    }
    return reason === 'condition' ? DRESSINGS_ONLY : NOT_STRONG;
  },
  'HON-01': HONEY,
  'WIN-01': 'Contains sulfites.',
  'KOM-04': ({ numbers }) =>
    numberIn(numbers['value']) === null ? 'May contain alcohol.' : 'Contains alcohol.',
  'KEF-02': ({ numbers }) =>
    numberIn(numbers['value']) === null ? 'May contain alcohol.' : 'Contains alcohol.',
  'KOM-05': (_, all) =>
    // The rule speaks of kombucha only while it is raw, and of vinegar to drink always.
    `${all.some(({ ruleId }) => ruleId === 'KOM-01') ? `${RAW} ` : ''}${FOR_GROUPS}`,
  'KOM-06': COLD,
  'CID-03': NOT_HEATED,
  'VEG-09': ({ numbers }) => ((numberIn(numbers['days']) ?? 0) < 14 ? YOUNG : NOT_SOUR),
};

/** Rules that, when they forbid, say that the jar itself is spoiled or may be. */
const SPOILED: ReadonlySet<string> = new Set([
  ...['MLD-01', 'MLD-02', 'MLD-03', 'FLY-01', 'ETH-01', 'OFF-01'],
  ...['VEG-01', 'VEG-02', 'VEG-05', 'VEG-06', 'VEG-08', 'KOM-01', 'KEF-01', 'CAN-06', 'INF-01', 'INF-02'],
]);
/** Rules that go by the pH of what is in the jar. */
const BY_PH: ReadonlySet<string> = new Set([
  'VEG-01',
  'VEG-02',
  'VEG-08',
  'KOM-01',
  'KOM-02',
  'KEF-01',
  'CAN-06',
]);

/** The rules whose cautions have a text for the label. */
export const PRINTED_RULES: readonly string[] = Object.keys(PRINTED);

/**
 * The cautions of one verdict that print on the jar's label, the gravest first, none twice. They are the same whether or not the
 * keeper goes against the verdict: an overruled jar prints them all. Empty only when no rule that prints objects.
 */
export function labelCautions(verdict: Pick<PrintedVerdict, 'findings'>): readonly string[] {
  const { findings } = verdict;
  const open = findings.filter((finding) => finding.verdict !== 'ok');
  const spoiled = open.some(({ ruleId, verdict: said }) => said === 'do_not' && SPOILED.has(ruleId));
  const unmeasured = open.some(
    ({ ruleId, numbers }) => BY_PH.has(ruleId) && numbers['find'] === 'pH' && numbers['value'] === undefined,
  );
  const printed = open.flatMap((finding) => {
    const text = PRINTED[finding.ruleId];
    return text === undefined ? [] : [typeof text === 'string' ? text : text(finding, findings)];
  });
  return [
    ...new Set([
      ...(spoiled ? [KEPT_APART] : []),
      ...(unmeasured ? ['No fresh pH reading.'] : []),
      ...printed,
    ]),
  ];
}

/** Said where nothing was shown to be met and no rule has a text of its own: a label is never without a word then. */
const NOT_KNOWN = 'Not known whether it may be used. Test before use.';
const DO_NOT_USE = 'Do not use.';

/** Uses that are about what is in the jar and not about the jar or a step of the work. */
const OF_THE_CONTENT: ReadonlySet<string> = new Set(['drink', 'eat', 'dressSalad', 'keepAsCulture']);

/** Texts on one matter, the strictest first: what a stricter one says covers the others. */
const STRICTEST_FIRST: readonly string[] = [NOT_STRONG, DRESSINGS_ONLY, REFRIGERATOR_ONLY, NOT_FOR_CANNING];

/**
 * Everything that has to stand on the label of one liquid, from the verdicts on all its uses, the gravest first. Texts that a
 * stricter one covers are not printed beside it. Empty only when eating or drinking it meets the rules and no rule that prints objects.
 */
export function cautionsOf(verdicts: readonly PrintedVerdict[]): readonly string[] {
  const apart = verdicts.some(({ keptApart }) => keptApart) ? [KEPT_APART] : [];
  const printed = [...new Set([...apart, ...verdicts.flatMap((verdict) => labelCautions(verdict))])];
  const strictest = STRICTEST_FIRST.find((text) => printed.includes(text));
  const raw = printed.some((text) => text.startsWith(RAW));
  const kept = printed.filter(
    (text) => (text === strictest || !STRICTEST_FIRST.includes(text)) && !(raw && text === COLD),
  );
  return inOrder([...kept, ...fallback(verdicts, kept)]);
}

/** The word that is still missing: what may not be used says so, and what nobody has shown to be in order does too. */
function fallback(verdicts: readonly PrintedVerdict[], printed: readonly string[]): readonly string[] {
  if (printed.includes(KEPT_APART)) return [];
  const content = verdicts.filter(({ use }) => OF_THE_CONTENT.has(use));
  if (content.some(({ word }) => word === 'doNotUse')) return [DO_NOT_USE];
  if (printed.length > 0) return [];
  return content.length > 0 && content.every(({ word }) => word === 'meetsTheRule') ? [] : [NOT_KNOWN];
}

function inOrder(texts: readonly string[]): readonly string[] {
  const rank = (text: string): number => {
    if (text === KEPT_APART || text === DO_NOT_USE) return 0;
    return text === STRICTEST_FIRST[0] || text === NOT_KNOWN ? 1 : 2;
  };
  return [...texts].sort((a, b) => rank(a) - rank(b));
}
