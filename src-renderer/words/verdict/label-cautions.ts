import type { Finding, Verdict } from '#core/contract/verdict.ts';
import { numberIn } from './sentence.ts';

/** What a rule prints on the jar while it does not say ok. Fixed texts, each a whole sentence or two, to be translated as such. */
type Printed = string | ((finding: Finding, all: readonly Finding[]) => string);

const NOT_STRONG = 'Do not use for pickling or canning. Not shown to be 5\u00A0% or more. Test before use.';
const RAW = 'Not pasteurised: keep cold, may build pressure.';
const NOT_FOR_THE_WEAK = 'Not for infants, in pregnancy, in old age or with weak immunity.';

const PRINTED: Readonly<Record<string, Printed>> = {
  'CAN-01': 'Do not use for canning or shelf pickles.',
  'CAN-05': ({ reason }) => {
    if (reason === 'refrigerate_now') {
      return 'Home-made: for pickles in the refrigerator only, eaten within 4 weeks. Not for canning.';
    }
    return reason === 'condition'
      ? 'Home-made: for dressings only. Not for pickling or canning.'
      : NOT_STRONG;
  },
  'HON-01': 'Contains honey: not for children under 1 year.',
  'WIN-01': 'Contains sulfites.',
  'KOM-04': ({ numbers }) =>
    numberIn(numbers, 'value') === null ? 'May contain alcohol.' : 'Contains alcohol.',
  'KEF-02': ({ numbers }) =>
    numberIn(numbers, 'value') === null ? 'May contain alcohol.' : 'Contains alcohol.',
  'KOM-05': (_, all) =>
    // The rule speaks of kombucha only while it is raw, and of vinegar to drink always.
    `${all.some(({ ruleId }) => ruleId === 'KOM-01') ? `${RAW} ` : ''}Keep from small children, and leave it alone when pregnant or with weak immunity.`,
  'KOM-06': 'Keep cold, may build pressure.',
  'CID-03':
    'Juice not heated: children, old people and anyone with weak immunity can fall gravely ill from it.',
  'VEG-09': ({ numbers }) =>
    (numberIn(numbers, 'days') ?? 0) < 14
      ? `Young: under 14 days old, or its age is not known. ${NOT_FOR_THE_WEAK}`
      : `pH under 4.6 not shown. ${NOT_FOR_THE_WEAK}`,
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
export function labelCautions(verdict: Pick<Verdict, 'findings'>): readonly string[] {
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
      ...(spoiled ? ['Kept apart: do not use.'] : []),
      ...(unmeasured ? ['pH not measured.'] : []),
      ...printed,
    ]),
  ];
}
