import type { SafetyFacts } from '../facts.ts';
import { cautionBecause, doNotBecause, okBecause, unknownBecause, type Answer, type Rule } from '../rule.ts';

/** Per cent on the label of a bought vinegar for canning. Source: NCHFP notice 2023 (S13, S14). */
const CANNING_LABEL_MIN_PERCENT = 5;
/** Above this a tested recipe was not written for it; no danger. Same source. */
const CANNING_LABEL_USUAL_MAX_PERCENT = 6;
/** Hours after which jars processed with weak vinegar are thrown out. Same source. */
const WEAK_JAR_LIMIT_HOURS = 24;
/** How well a keeper knows when jars came out of the canner. Policy. */
const PROCESSING_TIME_UNCERTAINTY_HOURS = 1;

/** Home canning. A good number never cancels CAN-01. */
export const CANNING_RULES: readonly Rule[] = [
  {
    id: 'CAN-01',
    kind: 'safety',
    uses: ['can'],
    needs: [],
    limit: null,
    reasons: ['category'],
    sourceIds: ['S11', 'USDA2015', 'S82'],
    evidence: ['seen', 'memory'],
    mayBeOverruled: false,
    // An origin that nobody recorded is treated as home-made.
    applies: (facts) => (facts.origin === 'bought' ? 'no' : 'yes'),
    check: (facts) => doNotBecause('category', { origin: facts.origin }),
  },
  {
    id: 'CAN-02',
    kind: 'safety',
    uses: ['can'],
    needs: [],
    limit: null,
    reasons: ['met', 'missing', 'implausible', 'wrong_side', 'diluted_at_home', 'stronger_than_recipe'],
    sourceIds: ['S13', 'S14', 'USDA2015', 'S15'],
    evidence: ['seen', 'memory'],
    mayBeOverruled: false,
    applies: (facts) => (facts.origin === 'bought' ? 'yes' : 'no'),
    check: boughtVinegar,
  },
  {
    id: 'CAN-03',
    kind: 'safety',
    uses: ['weakJars'],
    needs: [],
    limit: null,
    reasons: ['missing', 'deadline', 'refrigerate_now', 'implausible'],
    sourceIds: ['S13', 'S14'],
    evidence: ['seen'],
    mayBeOverruled: false,
    applies: () => 'yes',
    check: weakJars,
  },
];

function boughtVinegar(facts: SafetyFacts): Answer {
  const label = facts.boughtLabelPercent;
  const numbers = { label, limit: CANNING_LABEL_MIN_PERCENT, unit: '%' };
  const watered =
    facts.addedWater === true || facts.compositionEvents.some((event) => event.kind === 'addWater');
  if (watered) return doNotBecause('diluted_at_home', numbers);
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
