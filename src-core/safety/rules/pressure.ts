import { firstUnknown, forProducts, numbersOf } from '../ask.ts';
import type { BottleKind } from '../facts-of-uses.ts';
import type { Measurement } from '../facts.ts';
import { highOf, intervalOf, lowOf } from '../interval.ts';
import { changesComposition, HOUR_MS, isAfterLastChange } from '../measurement.ts';
import {
  cautionBecause,
  defineRule,
  doNotBecause,
  okBecause,
  unknownBecause,
  type Answer,
  type Rule,
  type RuleContext,
} from '../rule.ts';
import { isSound } from '../sound.ts';

/** When a gravity counts as standing still, and what counts as dry. Sources: S66, S67; 0.001 and 72 h are policy. */
export const STABLE = { spread: 0.001, apartHours: 48, dry: 1.002 };
/**
 * Volumes of CO2 in a still ferment, for each point that may yet go, for each g/L of priming sugar; and the gravity that no
 * ferment is taken to pass below. Sources: S68; floor and 0.7 are policy, on the safe side of 0.6–0.67.
 */
export const GAS = { residual: 0.9, perPoint: 0.7, perPrimingGram: 0.26, floorGravity: 0.996 };
/** Volumes that a vessel holds; sparkling-wine bottles from memory. Source: rule PRS-02. */
export const RATING: Readonly<Record<Exclude<BottleKind, 'makerRated'>, number>> = {
  unrated: 1,
  light: 3,
  heavyBeer: 4,
  sparkling: 6,
};
export const NEAR_RATING = 0.5;
/** °C of warming that can wake yeast. Sources: S71, S72. */
const WARMING = 5;
/** Headspace for foam, per cent. Common practice, S70. */
export const FOAM_HEADSPACE = 10;

const FERMENTED = forProducts('wine', 'cider', 'mead', 'kombucha', 'waterKefir');
const DRY_FERMENTS = forProducts('wine', 'cider', 'mead');

/** Rules PRS-01 to PRS-06: gas shut in. */
export const PRESSURE_RULES: readonly Rule[] = [
  defineRule({
    id: 'PRS-01',
    uses: ['sealInBottle'],
    needs: ['gravity'],
    reasons: ['met', 'missing', 'condition', 'falling', 'category', 'readings_disagree'],
    sourceIds: ['S66', 'S67', 'POLICY'],
    evidence: ['seen', 'policy'],
    applies: DRY_FERMENTS,
    check: standsStill,
  }),
  defineRule({
    id: 'PRS-02',
    uses: ['sealInBottle'],
    needs: ['gravity'],
    reasons: ['met', 'missing', 'condition', 'wrong_side'],
    sourceIds: ['S68', 'POLICY', 'BOTTLE'],
    evidence: ['seen', 'policy', 'memory'],
    applies: (context) => (FERMENTED(context) === 'yes' && !isStillAndUnrated(context) ? 'yes' : 'no'),
    check: bottlePressure,
  }),
  defineRule({
    id: 'PRS-03',
    uses: ['sealInBottle'],
    needs: ['gravity'],
    reasons: ['met', 'missing', 'condition', 'category', 'wrong_side'],
    sourceIds: ['S69'],
    evidence: ['seen'],
    mayBeOverruled: false,
    appliesBy: 'sealing.bottle',
    applies: (context) => {
      if (FERMENTED(context) === 'no') return 'no';
      const bottle = context.facts.sealing?.bottle ?? null;
      return bottle === 'unrated' ? 'yes' : bottle === null ? 'unknown' : 'no';
    },
    check: unratedVessel,
  }),
  defineRule({
    id: 'PRS-04',
    uses: ['closeVessel'],
    reasons: ['met', 'missing', 'condition', 'category'],
    sourceIds: ['COMMON', 'S70'],
    evidence: ['common practice', 'seen (secondary)'],
    check: ({ facts }) => {
      const { closure, headspacePercent } = facts.closing ?? {};
      if (closure === 'gasTight') return doNotBecause('category');
      const unknown = firstUnknown({
        'closing.closure': closure,
        'closing.headspacePercent': headspacePercent,
      });
      if (unknown !== null) return unknownBecause('missing', unknown);
      const room = (headspacePercent ?? 0) >= FOAM_HEADSPACE;
      const numbers = { headspacePercent: headspacePercent ?? null, limit: FOAM_HEADSPACE };
      return room && closure !== 'burpedByHand' ? okBecause(numbers) : cautionBecause('condition', numbers);
    },
  }),
  defineRule({
    id: 'PRS-05',
    uses: ['moveWarmer'],
    needs: [],
    reasons: ['missing', 'condition', 'category'],
    sourceIds: ['S71', 'S72'],
    evidence: ['seen'],
    check: movedWarmer,
  }),
  defineRule({
    id: 'PRS-06',
    uses: ['heatBottles'],
    reasons: ['met', 'missing', 'condition', 'category'],
    sourceIds: ['S66'],
    evidence: ['seen'],
    check: ({ facts }) => {
      const carbonated = facts.sealing?.carbonated ?? null;
      if (carbonated === null) return unknownBecause('missing', 'sealing.carbonated');
      if (carbonated) return doNotBecause('category');
      return facts.sealing?.headspaceAndSlow === true ? okBecause({}) : cautionBecause('condition');
    },
  }),
];

/**
 * Two corrected readings at least 48 h apart, the last at most 72 h old, within 0.001 of each other, nothing sweet and no warmth
 * since the first, and no bubbles. Bubbles, sugar since, or a falling gravity forbid it whatever else is known.
 */
function standsStill(context: RuleContext): Answer {
  const { facts } = context;
  const { bubbling, warmedSinceFirstReading } = facts.sealing ?? {};
  if (bubbling === true || warmedSinceFirstReading === true) return doNotBecause('category');
  const { usable, measurement, worst } = context.inspect('gravity');
  if (usable === null || measurement === null) {
    const sweetened = worst.reason === 'stale_event';
    return sweetened
      ? doNotBecause('category', worst.numbers)
      : unknownBecause(worst.reason, 'gravity', worst.numbers);
  }
  const run = readingsBackTo48Hours(context, measurement);
  if (run === null) return unknownBecause('missing', 'gravity', { readings: 1 });
  const values = run.map(({ value }) => value);
  const spread = Math.max(...values) - Math.min(...values);
  const numbers = { ...numbersOf(usable), spread, limit: STABLE.spread, dry: STABLE.dry };
  // Half a thousandth of a point keeps 1.001 − 1.000 from counting as more than 0.001.
  if (spread > STABLE.spread + 5e-7) {
    const first = run.at(0)?.value ?? Number.NaN;
    return usable.value < first
      ? doNotBecause('falling', numbers)
      : unknownBecause('readings_disagree', 'gravity', numbers);
  }
  const unknown = firstUnknown({
    'sealing.bubbling': bubbling,
    'sealing.warmedSinceFirstReading': warmedSinceFirstReading,
  });
  if (unknown !== null) return unknownBecause('missing', unknown, numbers);
  return highOf(usable) <= STABLE.dry ? okBecause(numbers) : cautionBecause('condition', numbers);
}

/** Readings since the last change, from the latest that is 48 h before the last; null when there is none so early. */
function readingsBackTo48Hours(context: RuleContext, last: Measurement): readonly Measurement[] | null {
  const { facts } = context;
  const changedAtMs = Math.max(
    -Infinity,
    ...facts.compositionEvents.filter(({ kind }) => changesComposition(kind)).map(({ atMs }) => atMs),
  );
  const earlier = facts.measurements
    .filter(({ quantity, takenAtMs }) => quantity === 'gravity' && takenAtMs <= last.takenAtMs)
    .filter(({ takenAtMs }) => takenAtMs > changedAtMs)
    .filter((reading) => isSound(reading, facts))
    .toSorted((a, b) => a.takenAtMs - b.takenAtMs);
  const first = earlier.findLastIndex(
    ({ takenAtMs }) => last.takenAtMs - takenAtMs >= STABLE.apartHours * HOUR_MS,
  );
  return first < 0 ? null : earlier.slice(first);
}

/** A dry, still drink in a bottle that is not rated is the business of PRS-03 alone: it is closed, not under pressure. */
function isStillAndUnrated(context: RuleContext): boolean {
  const { sealing } = context.facts;
  if (sealing?.bottle !== 'unrated' || sealing.primingGramsPerLitre !== 0) return false;
  return DRY_FERMENTS(context) === 'yes' && standsStill(context).verdict === 'ok';
}

/** The gas that could yet be made, against what the bottle holds. */
function bottlePressure(context: RuleContext): Answer {
  const { sealing } = context.facts;
  const rating = ratingOf(sealing?.bottle ?? null, sealing?.makerRatingVolumes ?? null);
  if (rating === null) return unknownBecause('missing', 'sealing.bottle');
  const priming = sealing?.primingGramsPerLitre ?? null;
  if (priming === null || !(priming >= 0)) return unknownBecause('missing', 'sealing.primingGramsPerLitre');
  const { usable, worst } = context.inspect('gravity');
  if (usable === null) return unknownBecause(worst.reason, 'gravity', worst.numbers);
  const settled = DRY_FERMENTS(context) === 'yes' && standsStill(context).verdict === 'ok';
  const points = settled ? 1 : Math.max(1, 1000 * (highOf(usable) - GAS.floorGravity));
  const volumes = GAS.residual + GAS.perPoint * points + GAS.perPrimingGram * priming;
  const numbers = { ...numbersOf(usable), points, volumes, rating };
  if (volumes > rating) return doNotBecause('wrong_side', numbers);
  return volumes > rating - NEAR_RATING ? cautionBecause('condition', numbers) : okBecause(numbers);
}

function ratingOf(bottle: BottleKind | null, makerRatingVolumes: number | null): number | null {
  if (bottle === null) return null;
  if (bottle !== 'makerRated') return RATING[bottle];
  return makerRatingVolumes !== null && makerRatingVolumes > 0 ? makerRatingVolumes : null;
}

/** Jars, jugs, demijohns and wine bottles are not made for pressure. */
function unratedVessel(context: RuleContext): Answer {
  const { facts, inspect } = context;
  if (facts.sealing?.bubbling === true) return doNotBecause('category');
  const { usable, worst } = inspect('gravity');
  if (usable === null) return unknownBecause(worst.reason, 'gravity', worst.numbers);
  const numbers = { ...numbersOf(usable), limit: STABLE.dry };
  const proven = DRY_FERMENTS(context) === 'yes' && standsStill(context).verdict === 'ok';
  if (proven) return okBecause(numbers);
  if (lowOf(usable) > STABLE.dry) return doNotBecause('wrong_side', numbers);
  return highOf(usable) <= STABLE.dry
    ? cautionBecause('condition', numbers)
    : unknownBecause('missing', 'gravity', numbers);
}

/** Warmth can wake the yeast: the best answer is a caution. A gravity from before priming says nothing of the bottle. */
function movedWarmer({ facts }: RuleContext): Answer {
  const { riseCelsius, gushed, bottle } = facts.sealing ?? {};
  if (gushed === true) return doNotBecause('category');
  const bottled = facts.measurements
    .filter(({ quantity, takenAtMs }) => quantity === 'gravity' && takenAtMs <= facts.nowMs)
    .toSorted((a, b) => a.takenAtMs - b.takenAtMs)
    .at(-1);
  const counts =
    bottled !== undefined && isSound(bottled, facts) && isAfterLastChange(bottled, facts).verdict === 'ok';
  const gravity = counts ? intervalOf(bottled) : null;
  if (gravity === null) return unknownBecause('missing', 'gravity');
  const unknown =
    firstUnknown({ 'sealing.riseCelsius': riseCelsius, 'sealing.bottle': bottle }) ??
    firstUnknown({ 'sealing.gushed': gushed });
  if (unknown !== null) return unknownBecause('missing', unknown);
  const numbers = { ...numbersOf(gravity), rise: riseCelsius ?? null, limit: STABLE.dry };
  const sweet = highOf(gravity) > STABLE.dry;
  const warms = (riseCelsius ?? 0) >= WARMING;
  return warms && sweet && bottle === 'unrated'
    ? doNotBecause('category', numbers)
    : cautionBecause('condition', numbers);
}
