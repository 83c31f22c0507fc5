import type { Leaf } from '#core/contract/book.ts';
import type { HouseRules } from '#core/contract/house-rules.ts';
import { STAGE_MARKS } from '../marks/stages.ts';
import { usesInOrder } from '../uses/uses-in-order.ts';
import { capital, FERMENT_KIND_WORDS } from '../words/choice-words.ts';
import { sayAtLeast, sayCostBasis, sayCostParts, sayCostPer } from '../words/cost-words.ts';
import { sayAcidity, sayAlcohol, sayGravity, sayMass, sayPh, sayVolume } from '../words/quantity-words.ts';
import { sayDate, sayDays } from '../words/time-words.ts';
import { sayUse, VERDICT_WORD_TEXT } from '../words/verdict-words.ts';
import { stageBand } from './stage-band.ts';
import { MS_PER_DAY } from './time-axis.ts';

/** One line of the comparison: for each batch the lines of text of its cell; none where nothing is known. */
export interface CompareRow {
  readonly title: string;
  readonly cells: readonly (readonly string[])[];
}

export interface CompareGroup {
  readonly title: string;
  readonly rows: readonly CompareRow[];
}

const LITRE_UL = 1_000_000;
type Cell = (leaf: Leaf) => readonly string[];

/** The batches side by side: numbers, what went in, stages with their days, what the rules say. Rows with nothing are left out. */
export function compareGroups(
  leaves: readonly Leaf[],
  { rules, nowMs }: { readonly rules: HouseRules; readonly nowMs: number },
): readonly CompareGroup[] {
  const group = (title: string, rows: readonly (readonly [string, Cell])[]): CompareGroup => ({
    title,
    rows: rows
      .map(([name, cell]) => ({ title: name, cells: leaves.map(cell) }))
      .filter(({ cells }) => cells.some((lines) => lines.length > 0)),
  });
  const when = (atMs: number, leaf: Leaf): string => `day ${dayOf(atMs, leaf)}`;
  return [
    group('The batch', [
      ['Ferment', ({ ferment }) => [capital(FERMENT_KIND_WORDS[ferment])]],
      ['Started', (leaf) => started(leaf, rules)],
      ['How long', (leaf) => [sayDays(dayOf(untilMs(leaf, nowMs), leaf))]],
      ['Started with', ({ startedUl }) => [sayVolume(startedUl, rules)]],
      ['Stands now', (leaf) => standsNow(leaf, rules)],
      ['Culture', ({ culture }) => (culture === null ? [] : [culture.name])],
    ]),
    group('Readings', [
      ['First gravity', gravityCell('first', rules, when)],
      ['Last gravity', gravityCell('last', rules, when)],
      ['Alcohol', (leaf) => alcohol(leaf)],
      ['Last acidity', (leaf) => lastAcidity(leaf, when)],
      ['Last pH', (leaf) => lastPh(leaf, when)],
      ['Readings', ({ readings }) => [String(readings.length)]],
    ]),
    group('What went in', [['Ingredients', (leaf) => leaf.ingredients.map((one) => ingredient(one, rules))]]),
    group('Stages', [['Stage by stage', (leaf) => stages(leaf, nowMs)]]),
    group('What came of it', [
      [
        'Bottled',
        ({ lots }) => lots.map(({ bottles, bottleUl }) => `${bottles} of ${sayVolume(bottleUl, rules)}`),
      ],
      ['Cost so far', (leaf) => costSoFar(leaf, rules)],
      ['A litre of what stands', (leaf) => costOfALitre(leaf, rules)],
      ['A bottle', (leaf) => costOfABottle(leaf, rules)],
    ]),
    group('What the rules say', [
      [
        'Now',
        ({ verdicts }) =>
          usesInOrder(verdicts).map(({ use, word }) => `${capital(sayUse(use))}: ${VERDICT_WORD_TEXT[word]}`),
      ],
    ]),
  ].filter(({ rows }) => rows.length > 0);
}

/** Up to when a batch is told of: now while it stands, else the last that is known of it. */
export function untilMs(leaf: Leaf, nowMs: number): number {
  if (leaf.standing.length > 0) return nowMs;
  const known = [
    leaf.startedAtMs,
    ...leaf.readings.map(({ atMs }) => atMs),
    ...leaf.spans.map(({ fromMs }) => fromMs),
    ...leaf.lots.map(({ atMs }) => atMs),
  ];
  return Math.max(...known);
}

/** When the liquid of a batch was started: that of the batch it was taken from, where it was. Day 0 of its curve. */
export function dayZeroOf({ startedAtMs, spans }: Pick<Leaf, 'startedAtMs' | 'spans'>): number {
  return Math.min(startedAtMs, ...spans.map(({ fromMs }) => fromMs));
}

/** Whole days since the liquid was started. */
export function dayOf(atMs: number, leaf: Pick<Leaf, 'startedAtMs' | 'spans'>): number {
  return Math.floor((atMs - dayZeroOf(leaf)) / MS_PER_DAY);
}

function started(leaf: Leaf, rules: HouseRules): string[] {
  const own = sayDate(leaf.startedAtMs, rules);
  const before = dayOf(leaf.startedAtMs, leaf);
  return before < 1 ? [own] : [own, `from liquid begun ${sayDate(dayZeroOf(leaf), rules)}`];
}

function standsNow(leaf: Leaf, rules: HouseRules): string[] {
  if (leaf.standing.length === 0) return ['stands nowhere'];
  return leaf.standing.map(
    ({ volumeUl, spot, stage }) =>
      `${sayVolume(volumeUl, rules)}${spot === null ? '' : ` on ${spot}`}, ${STAGE_MARKS[stage].name}`,
  );
}

function gravityCell(
  which: 'first' | 'last',
  rules: HouseRules,
  when: (atMs: number, leaf: Leaf) => string,
): Cell {
  return (leaf) => {
    const read = leaf.readings.filter(({ gravityCorrectedSg }) => gravityCorrectedSg !== null);
    const one = which === 'first' ? read[0] : read[read.length - 1];
    if (one?.gravityCorrectedSg == null) return [];
    return [`${sayGravity(one.gravityCorrectedSg, rules)}, ${when(one.atMs, leaf)}`];
  };
}

function alcohol({ readings, foresight }: Leaf): string[] {
  const measured = [...readings].reverse().find(({ alcoholPercentVolume }) => alcoholPercentVolume !== null);
  if (measured?.alcoholPercentVolume != null)
    return [`${sayAlcohol(measured.alcoholPercentVolume)}, measured`];
  if (foresight?.alcoholNowPercent != null)
    return [`${sayAlcohol(foresight.alcoholNowPercent)}, from the gravities`];
  return foresight === null ? [] : [`${sayAlcohol(foresight.alcoholPlanPercent)}, planned`];
}

function lastAcidity(leaf: Leaf, when: (atMs: number, leaf: Leaf) => string): string[] {
  const last = [...leaf.readings].reverse().find(({ acidityGramsPer100Ml }) => acidityGramsPer100Ml !== null);
  if (last?.acidityGramsPer100Ml == null) return [];
  return [
    `${sayAcidity(last.acidityGramsPer100Ml, last.acidityAs, last.acidityUncertainty)}, ${when(last.atMs, leaf)}`,
  ];
}

function lastPh(leaf: Leaf, when: (atMs: number, leaf: Leaf) => string): string[] {
  const last = [...leaf.readings].reverse().find(({ ph }) => ph !== null);
  return last?.ph == null ? [] : [`${sayPh(last.ph, last.phUncertainty)}, ${when(last.atMs, leaf)}`];
}

function ingredient({ name, amountTyped, massUg }: Leaf['ingredients'][number], rules: HouseRules): string {
  const amount = amountTyped !== '' ? amountTyped : massUg === null ? '' : sayMass(massUg, rules);
  return amount === '' ? name : `${amount} ${name}`;
}

function stages(leaf: Leaf, nowMs: number): string[] {
  const band = stageBand({
    ...{ spans: leaf.spans, batchId: leaf.batchId, startedAtMs: leaf.startedAtMs },
    standingIn: leaf.standing.slice(0, 1).map(({ vesselId }) => vesselId),
    untilMs: untilMs(leaf, nowMs),
  });
  const parts = band?.lines[0]?.parts ?? [];
  return parts.map(
    ({ stage, days, goesOn, inherited }) =>
      `${STAGE_MARKS[stage].name} ${sayDays(days)}${goesOn ? ' so far' : ''}${inherited ? ', before it began' : ''}`,
  );
}

function costSoFar({ cost }: Leaf, rules: HouseRules): string[] {
  if (cost.soFar.priced === 0) return [];
  return [sayAtLeast(cost.soFar, sayCostParts(cost.soFar.parts, rules)), sayCostBasis(cost.soFar)];
}

function costOfALitre({ cost: { standing } }: Leaf, rules: HouseRules): string[] {
  if (standing === null || standing.priced === 0 || standing.volumeUl === 0) return [];
  return [
    sayAtLeast(standing, sayCostPer(standing.parts, { amount: standing.volumeUl, per: LITRE_UL }, rules)),
  ];
}

function costOfABottle({ cost }: Leaf, rules: HouseRules): string[] {
  return cost.lots
    .filter(({ priced }) => priced > 0)
    .map((lot) => sayAtLeast(lot, sayCostPer(lot.parts, { amount: lot.bottles, per: 1 }, rules)));
}
