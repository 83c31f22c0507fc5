import { VINEGAR_DENSITY } from '../../acid/acid-equivalents.ts';
import { byFact } from '../ask.ts';
import { checkLimit, LIMIT_REASONS } from '../check-limit.ts';
import type { Jurisdiction, SafetyFacts } from '../facts.ts';
import {
  cautionBecause,
  defineRule,
  doNotBecause,
  graver,
  okBecause,
  unknownBecause,
  type Answer,
  type Limit,
  type Rule,
  type RuleContext,
} from '../rule.ts';

/** Acetic acid that a vinegar must reach in the US, g/100 mL at 20 °C. Source: FDA CPG 525.825 (S1); S2, S3. */
export const US_VINEGAR: Limit = {
  quantity: 'acidity',
  side: 'lower',
  value: 4,
  unit: 'g/100 mL',
  inclusive: true,
};

/** Rules VIN-01, 02 and 05: strength that a label may claim. */
export const FIRST_VINEGAR_RULES: readonly Rule[] = [
  defineRule({
    id: 'VIN-01',
    kind: 'labelling',
    uses: ['labelAsVinegar', 'giveAway'],
    needs: ['acidity'],
    limit: US_VINEGAR,
    reasons: [...LIMIT_REASONS, 'own_use_about', 'jurisdiction_unset'],
    sourceIds: ['S1', 'S2', 'S3'],
    evidence: ['seen'],
    appliesBy: 'jurisdiction',
    applies: ({ use, facts }) => {
      if (use === 'giveAway' && facts.product !== 'vinegar') return 'no';
      return facts.jurisdiction === 'us' ? 'yes' : facts.jurisdiction === null ? 'unknown' : 'no';
    },
    check: usVinegar,
  }),
  defineRule({
    id: 'VIN-02',
    kind: 'labelling',
    uses: ['labelAsVinegar', 'giveAway'],
    needs: ['acidity'],
    limit: US_VINEGAR,
    reasons: [...LIMIT_REASONS, 'own_use_about'],
    sourceIds: ['S4'],
    evidence: ['seen'],
    appliesBy: 'addedWater',
    applies: ({ use, facts }) => {
      if (use === 'giveAway' && facts.product !== 'vinegar') return 'no';
      return wasWatered(facts) ? 'yes' : facts.addedWater === null ? 'unknown' : 'no';
    },
    check: wateredVinegar,
  }),
  defineRule({
    id: 'VIN-05',
    kind: 'labelling',
    uses: ['labelAsVinegar', 'giveAway'],
    needs: ['acidity'],
    reasons: [...LIMIT_REASONS, 'own_use_about', 'jurisdiction_unset'],
    sourceIds: ['S7', 'S8', 'S10', 'CAB19', 'FSANZ', 'CODEX162', 'S6'],
    evidence: ['seen', 'memory'],
    appliesBy: 'jurisdiction',
    applies: ({ use, facts }) => {
      if (use === 'giveAway' && facts.product !== 'vinegar') return 'no';
      return facts.jurisdiction === null ? 'unknown' : facts.jurisdiction === 'us' ? 'no' : 'yes';
    },
    check: vinegarElsewhere,
  }),
];

/** EU member states among the places, where EU law on wine vinegar and residual alcohol holds. */
const EU_PLACES: ReadonlySet<Jurisdiction> = new Set(['eu', 'de', 'fr']);

/** Acetic acid of a wine vinegar in the EU: 60 g/L. Source: Regulation (EU) 1308/2013, from memory; 6 % seen in S8, S9. */
const EU_WINE_VINEGAR: Limit = { ...US_VINEGAR, value: 6 };

/** Residual alcohol, % vol, by what the alcohol was. Source: S8, French and EU practice; Codex from memory. */
const EU_ALCOHOL: Readonly<Record<'wine' | 'fortifiedWine' | 'other', number>> = {
  wine: 1.5,
  fortifiedWine: 3,
  other: 0.5,
};

/** Rules VIN-01 to VIN-07: what may be called vinegar. */
export const VINEGAR_RULES: readonly Rule[] = [
  ...FIRST_VINEGAR_RULES,
  defineRule({
    id: 'VIN-03',
    kind: 'labelling',
    uses: ['labelAsVinegar'],
    needs: ['acidity'],
    limit: EU_WINE_VINEGAR,
    reasons: [...LIMIT_REASONS, 'own_use_about'],
    sourceIds: ['EU1308', 'S8', 'S9'],
    evidence: ['memory', 'seen (secondary)'],
    applies: ({ facts }) =>
      facts.jurisdiction !== null && EU_PLACES.has(facts.jurisdiction) && facts.alcoholicBase === 'wine'
        ? 'yes'
        : 'no',
    check: (context) => checkLimit(EU_WINE_VINEGAR, context, true),
  }),
  defineRule({
    id: 'VIN-04',
    kind: 'labelling',
    uses: ['labelAsVinegar'],
    needs: ['alcohol'],
    reasons: LIMIT_REASONS,
    sourceIds: ['S8', 'CODEX162'],
    evidence: ['seen (secondary)', 'memory'],
    appliesBy: 'jurisdiction',
    applies: ({ facts }) =>
      facts.jurisdiction === null ? 'unknown' : EU_PLACES.has(facts.jurisdiction) ? 'yes' : 'no',
    check: (context) =>
      checkLimit(
        {
          quantity: 'alcohol',
          side: 'upper',
          value: EU_ALCOHOL[context.facts.alcoholicBase ?? 'other'],
          unit: '% vol',
          inclusive: true,
        },
        context,
      ),
  }),
  defineRule({
    id: 'VIN-06',
    kind: 'labelling',
    uses: ['labelAsVinegar', 'giveAway'],
    reasons: ['met', 'condition', 'category', 'missing'],
    sourceIds: ['S1', 'S2', 'S3', 'S5'],
    evidence: ['seen'],
    applies: ({ use, facts }) => (use === 'giveAway' && facts.product !== 'vinegar' ? 'no' : 'yes'),
    check: ({ facts }) =>
      byFact('rawMaterial', facts.rawMaterial, {
        juice: okBecause({}),
        scrapAndSugarWater: cautionBecause('condition'),
        aceticAcid: doNotBecause('category'),
      }),
  }),
  defineRule({
    id: 'VIN-07',
    kind: 'labelling',
    uses: ['labelAsVinegar'],
    reasons: ['met', 'unit_ambiguous'],
    sourceIds: ['S12', 'S29'],
    evidence: ['seen'],
    applies: ({ facts }) => (facts.grainClaim ? 'yes' : 'no'),
    check: ({ facts }) => {
      const grain = facts.grainClaim?.grain ?? null;
      if (grain === null || !(grain > 0 && grain < Infinity))
        return unknownBecause('unit_ambiguous', 'grain');
      // Grain is ten times g/100 mL: 40 grain is 4 %.
      return okBecause({ grain, percent: grain / 10 });
    },
  }),
];

/**
 * With no country chosen a strength that fails here fails everywhere that has a limit; one that passes is still not shown to be
 * enough, because other places ask for more.
 */
function usVinegar(context: RuleContext): Answer {
  const answer = checkLimit(US_VINEGAR, context, true);
  if (context.facts.jurisdiction !== null || answer.verdict === 'do_not') return answer;
  if (answer.verdict === 'unknown_measure_first') return answer;
  return unknownBecause('jurisdiction_unset', 'jurisdiction', answer.numbers);
}

/** The label says "diluted with water to X % acid", X the strength measured after the water went in. */
function wateredVinegar(context: RuleContext): Answer {
  const { facts } = context;
  if (!wasWatered(facts) && facts.addedWater === null) return unknownBecause('missing', 'addedWater');
  return checkLimit(US_VINEGAR, context, true);
}

/** Grams in 100 mL for grams in 100 g, at the density of vinegar that the rule itself gives. */
const GRAMS_PER_ML = VINEGAR_DENSITY.gramsPerMl;

/**
 * Strength of vinegar in g/100 mL by place, both ends included. Canada B.19.001 and FSANZ 2.10.1 (40 g/kg) from memory;
 * Germany S7; France S8; UK S10, trade practice without a statute; EU as France does and the Codex regional standard did. A wine
 * vinegar, and one whose base nobody recorded, needs 6 in France and the EU.
 */
const PLACES: Readonly<
  Record<
    Exclude<Jurisdiction, 'us'>,
    { readonly low: number; readonly wineLow: number; readonly high: number | null }
  >
> = {
  ca: { low: 4.1, wineLow: 4.1, high: 12.3 },
  de: { low: 5, wineLow: 5, high: 15.5 },
  fr: { low: 5, wineLow: 6, high: null },
  eu: { low: 5, wineLow: 6, high: null },
  uk: { low: 4, wineLow: 4, high: null },
  anz: { low: 4 * GRAMS_PER_ML, wineLow: 4 * GRAMS_PER_ML, high: null },
};

/** No country chosen is never cleared: strength rules differ. */
function vinegarElsewhere(context: RuleContext): Answer {
  const { jurisdiction, alcoholicBase } = context.facts;
  if (jurisdiction === null || jurisdiction === 'us') {
    return unknownBecause('jurisdiction_unset', 'jurisdiction');
  }
  const { low, wineLow, high } = PLACES[jurisdiction];
  const atLeast = checkLimit(
    { ...US_VINEGAR, value: alcoholicBase === 'other' ? low : wineLow },
    context,
    true,
  );
  if (high === null) return atLeast;
  return graver(atLeast, checkLimit({ ...US_VINEGAR, side: 'upper', value: high }, context, true));
}

/** True when the keeper said so or the book shows it. */
export function wasWatered(facts: SafetyFacts): boolean {
  return facts.addedWater === true || facts.compositionEvents.some((event) => event.kind === 'addWater');
}
