import { byFact, forProducts, numbersOf } from '../ask.ts';
import { checkLimit, LIMIT_REASONS } from '../check-limit.ts';
import type { SafetyFacts } from '../facts.ts';
import { highOf, lowOf } from '../interval.ts';
import {
  cautionBecause,
  defineRule,
  doNotBecause,
  okBecause,
  unknownBecause,
  type Answer,
  type Limit,
  type Rule,
  type RuleContext,
} from '../rule.ts';
import { wasWatered } from './vinegar.ts';

/** Per cent on the label of a bought vinegar for canning. Source: NCHFP notice 2023 (S13, S14). */
const CANNING_LABEL_MIN_PERCENT = 5;
/** Above this a tested recipe was not written for it; no danger. Same source. */
const CANNING_LABEL_USUAL_MAX_PERCENT = 6;
/** Hours after which jars processed with weak vinegar are thrown out. Same source. */
const WEAK_JAR_LIMIT_HOURS = 24;
/** How well a keeper knows when jars came out of the canner. Policy. */
const PROCESSING_TIME_UNCERTAINTY_HOURS = 1;

/** Rules CAN-01 to CAN-03: home canning. A good number never cancels CAN-01. */
export const FIRST_CANNING_RULES: readonly Rule[] = [
  defineRule({
    id: 'CAN-01',
    uses: ['can'],
    reasons: ['category'],
    sourceIds: ['S11', 'USDA2015', 'S82'],
    evidence: ['seen', 'memory'],
    mayBeOverruled: false,
    // An origin that nobody recorded is treated as home-made.
    applies: ({ facts }) => (facts.origin === 'bought' ? 'no' : 'yes'),
    check: ({ facts }) => doNotBecause('category', { origin: facts.origin }),
  }),
  defineRule({
    id: 'CAN-02',
    uses: ['can'],
    reasons: ['met', 'missing', 'implausible', 'wrong_side', 'diluted_at_home', 'stronger_than_recipe'],
    sourceIds: ['S13', 'S14', 'USDA2015', 'S15'],
    evidence: ['seen', 'memory'],
    mayBeOverruled: false,
    applies: ({ facts }) => (facts.origin === 'bought' ? 'yes' : 'no'),
    check: ({ facts }) => boughtVinegar(facts),
  }),
  defineRule({
    id: 'CAN-03',
    uses: ['weakJars'],
    reasons: ['missing', 'deadline', 'refrigerate_now', 'implausible'],
    sourceIds: ['S13', 'S14'],
    evidence: ['seen'],
    mayBeOverruled: false,
    check: ({ facts }) => weakJars(facts),
  }),
];

/** Equilibrium pH of acidified vegetables. Source: 21 CFR 114.3 (S16): 4.6 or below. */
const ACIDIFIED_PH: Limit = { quantity: 'pH', side: 'upper', value: 4.6, unit: 'pH', inclusive: true };
/** Acid for pickles in the refrigerator, and for dressings. Source: OSU HYG-5346, from memory. */
const PICKLING_PERCENT = 5;
const DRESSING_PERCENT = 4;

/** Rules CAN-01 to CAN-06. */
export const CANNING_RULES: readonly Rule[] = [
  ...FIRST_CANNING_RULES,
  defineRule({
    id: 'CAN-04',
    uses: ['can'],
    reasons: ['met', 'condition', 'category', 'missing'],
    sourceIds: ['S17', 'USDA2015'],
    evidence: ['seen', 'memory'],
    mayBeOverruled: false,
    check: ({ facts }) =>
      byFact('recipe', facts.recipe, {
        testedExactly: okBecause({}),
        testedSpicesAltered: cautionBecause('condition'),
        own: doNotBecause('category'),
      }),
  }),
  defineRule({
    id: 'CAN-05',
    uses: ['refrigeratePickle', 'dressSalad'],
    needs: ['acidity'],
    reasons: [
      'missing',
      'condition',
      'refrigerate_now',
      'straddles',
      'wrong_side',
      'category',
      'calculated_only',
    ],
    sourceIds: ['S82', 'POLICY'],
    evidence: ['memory', 'policy'],
    mayBeOverruled: false,
    printsOnLabel: true,
    applies: ({ facts, ...context }) =>
      facts.origin === 'bought' ? 'no' : forProducts('vinegar')({ ...context, facts }),
    check: homeMadeInTheKitchen,
  }),
  defineRule({
    id: 'CAN-06',
    uses: ['eat', 'keep'],
    needs: ['pH'],
    limit: ACIDIFIED_PH,
    reasons: [...LIMIT_REASONS, 'category'],
    sourceIds: ['S16', 'S17', 'S18'],
    evidence: ['seen'],
    mayBeOverruled: false,
    applies: forProducts('refrigeratorPickle'),
    check: acidifiedVegetables,
  }),
];

function boughtVinegar(facts: SafetyFacts): Answer {
  const label = facts.boughtLabelPercent;
  const numbers = { label, limit: CANNING_LABEL_MIN_PERCENT, unit: '%' };
  if (wasWatered(facts)) return doNotBecause('diluted_at_home', numbers);
  if (label === null) return unknownBecause('missing', 'boughtLabelPercent', numbers);
  if (!Number.isFinite(label) || label < 0 || label > 100) {
    return unknownBecause('implausible', 'boughtLabelPercent', numbers);
  }
  if (label < CANNING_LABEL_MIN_PERCENT) return doNotBecause('wrong_side', numbers);
  if (facts.addedWater === null) return unknownBecause('missing', 'addedWater', numbers);
  return label > CANNING_LABEL_USUAL_MAX_PERCENT
    ? cautionBecause('stronger_than_recipe', numbers)
    : okBecause(numbers);
}

/** Time not known counts as over the limit. Exactly 24 h, with its ±1 h, counts as over. */
function weakJars(facts: SafetyFacts): Answer {
  const hours = facts.hoursSinceProcessing;
  const numbers = { hours, limit: WEAK_JAR_LIMIT_HOURS, uncertainty: PROCESSING_TIME_UNCERTAINTY_HOURS };
  if (hours === null) return doNotBecause('missing', numbers);
  if (!Number.isFinite(hours) || hours < 0) return doNotBecause('implausible', numbers);
  return hours + PROCESSING_TIME_UNCERTAINTY_HOURS < WEAK_JAR_LIMIT_HOURS
    ? cautionBecause('refrigerate_now', numbers)
    : doNotBecause('deadline', numbers);
}

/**
 * Home-made vinegar in the refrigerator and on salads: the best answer is a caution. For pickles it must clear 5 % and stay
 * cold, which the use itself says; for a dressing it need not.
 */
function homeMadeInTheKitchen({ use, facts, inspect }: RuleContext): Answer {
  const { usable, measurement, worst } = inspect('acidity');
  if (use === 'refrigeratePickle' && facts.storage?.place === 'warmShelf') return doNotBecause('category');
  if (usable === null) return unknownBecause(worst.reason, 'acidity', worst.numbers);
  const numbers = { ...numbersOf(usable), limit: PICKLING_PERCENT, unit: 'g/100 mL' };
  if (use === 'dressSalad') return cautionBecause('condition', { ...numbers, limit: DRESSING_PERCENT });
  if (highOf(usable) < PICKLING_PERCENT) return doNotBecause('wrong_side', numbers);
  if (lowOf(usable) < PICKLING_PERCENT) return unknownBecause('straddles', 'acidity', numbers);
  return measurement?.provenance === 'calculated'
    ? unknownBecause('calculated_only', 'acidity', numbers)
    : cautionBecause('refrigerate_now', numbers);
}

function acidifiedVegetables(context: RuleContext): Answer {
  const answer = checkLimit(ACIDIFIED_PH, context);
  if (answer.verdict !== 'ok') return answer;
  const { storage } = context.facts;
  if (storage?.testedProcess === true) return answer;
  const place = storage?.place ?? null;
  if (place === null) return unknownBecause('missing', 'storage.place', answer.numbers);
  return place === 'refrigerator' ? answer : doNotBecause('category', answer.numbers);
}
