import { checkLimit, LIMIT_REASONS } from '../check-limit.ts';
import type { Jurisdiction, SafetyFacts } from '../facts.ts';
import { severity, unknownBecause, type Answer, type Limit, type Rule } from '../rule.ts';

/** Acetic acid that a vinegar must reach in the US, g/100 mL at 20 °C. Source: FDA CPG 525.825 (S1); S2, S3. */
const US_VINEGAR: Limit = {
  quantity: 'acidity',
  side: 'lower',
  value: 4,
  unit: 'g/100 mL',
  inclusive: true,
};

/** What may be called vinegar, and how strong the label may say it is. */
export const VINEGAR_RULES: readonly Rule[] = [
  {
    id: 'VIN-01',
    kind: 'labelling',
    uses: ['labelAsVinegar'],
    needs: ['acidity'],
    limit: US_VINEGAR,
    reasons: [...LIMIT_REASONS, 'own_use_about', 'jurisdiction_unset'],
    sourceIds: ['S1', 'S2', 'S3'],
    evidence: ['seen'],
    mayBeOverruled: true,
    applies: (facts) =>
      facts.jurisdiction === 'us' ? 'yes' : facts.jurisdiction === null ? 'unknown' : 'no',
    check: usVinegar,
  },
  {
    id: 'VIN-02',
    kind: 'labelling',
    uses: ['labelAsVinegar'],
    needs: ['acidity'],
    limit: US_VINEGAR,
    reasons: [...LIMIT_REASONS, 'own_use_about'],
    sourceIds: ['S4'],
    evidence: ['seen'],
    mayBeOverruled: true,
    applies: (facts) => (wasWatered(facts) ? 'yes' : facts.addedWater === null ? 'unknown' : 'no'),
    check: wateredVinegar,
  },
  {
    id: 'VIN-05',
    kind: 'labelling',
    uses: ['labelAsVinegar'],
    needs: ['acidity'],
    limit: null,
    reasons: [...LIMIT_REASONS, 'own_use_about', 'jurisdiction_unset'],
    sourceIds: ['S7', 'S8', 'S10', 'CAB19', 'FSANZ', 'CODEX162', 'S6'],
    evidence: ['seen', 'memory'],
    mayBeOverruled: true,
    applies: (facts) =>
      facts.jurisdiction === null ? 'unknown' : facts.jurisdiction === 'us' ? 'no' : 'yes',
    check: vinegarElsewhere,
  },
];

/** Grams in 100 mL for grams in 100 g, at the density of vinegar that the rule itself gives. */
const GRAMS_PER_ML = 1.01;

/**
 * Strength of vinegar in g/100 mL by place, both ends included. Canada B.19.001 and FSANZ 2.10.1 (40 g/kg) from memory;
 * Germany S7; France S8; UK S10, trade practice without a statute; EU as France does and the Codex regional standard did.
 * A wine vinegar, and one whose base nobody recorded, needs 6 in France and the EU.
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
function vinegarElsewhere(facts: SafetyFacts): Answer {
  const { jurisdiction, alcoholicBase } = facts;
  if (jurisdiction === null || jurisdiction === 'us')
    return unknownBecause('jurisdiction_unset', 'jurisdiction');
  const { low, wineLow, high } = PLACES[jurisdiction];
  const atLeast = checkLimit(
    { ...US_VINEGAR, value: alcoholicBase === 'other' ? low : wineLow },
    facts,
    true,
  );
  if (high === null) return atLeast;
  const atMost = checkLimit({ ...US_VINEGAR, side: 'upper', value: high }, facts, true);
  return severity(atMost.verdict) > severity(atLeast.verdict) ? atMost : atLeast;
}

/**
 * With no country chosen a strength that fails here fails everywhere that has a limit; one that passes is still not
 * shown to be enough, because other places ask for more.
 */
function usVinegar(facts: SafetyFacts): Answer {
  const answer = checkLimit(US_VINEGAR, facts, true);
  if (facts.jurisdiction !== null || answer.verdict === 'do_not') return answer;
  if (answer.verdict === 'unknown_measure_first') return answer;
  return unknownBecause('jurisdiction_unset', 'jurisdiction', answer.numbers);
}

/** The label says "diluted with water to X % acid", X the strength measured after the water went in. */
function wateredVinegar(facts: SafetyFacts): Answer {
  if (!wasWatered(facts) && facts.addedWater === null) return unknownBecause('missing', 'addedWater');
  return checkLimit(US_VINEGAR, facts, true);
}

function wasWatered(facts: SafetyFacts): boolean {
  return facts.addedWater === true || facts.compositionEvents.some((event) => event.kind === 'addWater');
}
