import { firstUnknown, forProducts, fullDaysSince, hoursSince, numbersOf } from '../ask.ts';
import { checkLimit, LIMIT_REASONS } from '../check-limit.ts';
import type { SafetyFacts } from '../facts.ts';
import { highOf, intervalOf, intervalOfGauged, lowOf, type Interval } from '../interval.ts';
import { compareWithLimit } from '../limit.ts';
import { changesComposition, DAY_MS } from '../measurement.ts';
import { isSound } from '../sound.ts';
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

/** pH of finished kombucha. Sources: S38 (4.2, bottled fermented drinks); Nummer 2013 for the day and the floor, from memory. */
const KOMBUCHA_MAX: Limit = { quantity: 'pH', side: 'upper', value: 4.2, unit: 'pH', inclusive: true };
const KOMBUCHA_MIN: Limit = { quantity: 'pH', side: 'lower', value: 2.5, unit: 'pH', inclusive: true };
const KOMBUCHA_DAYS = 7;
/** pH that water kefir must be under to be kept at all. Source: S38. */
const KEFIR_MAX: Limit = { quantity: 'pH', side: 'upper', value: 4.6, unit: 'pH', inclusive: true };
const KEFIR_HOURS = 72;
/** Starter in per cent of the whole, and pH at the start. Sources: S40; the pH is common practice. */
const STARTER = { low: 5, enough: 10, ph: 4.6, phTooHigh: 5 };
/** % vol: an alcoholic drink in the US at or above; the EU must state it above. Sources: S41, S42. */
const US_ALCOHOL: Limit = { quantity: 'alcohol', side: 'upper', value: 0.5, unit: '% vol', inclusive: false };
/** Days warm that a second ferment in a rated bottle may last. Common practice. */
const WARM_DAYS = 3;
/** Hours after which a kefir of sugar water is taken to be as strong as one of juice. Source: rule KEF-02. */
const WEAK_KEFIR_HOURS = 48;

const NOT_FOR: ReadonlySet<string> = new Set([
  'infant',
  'child',
  'pregnant',
  'weakImmunity',
  'liverOrKidneyIllness',
  'avoidsAlcohol',
]);

/** Rules KOM-01 to KOM-06, KEF-01 and KEF-02: kombucha and water kefir. */
export const KOMBUCHA_RULES: readonly Rule[] = [
  defineRule({
    id: 'KOM-01',
    uses: ['drink', 'giveAway', 'keepAsCulture'],
    needs: ['pH'],
    limit: KOMBUCHA_MAX,
    reasons: ['met', 'missing', 'straddles', 'calculated_only', 'not_yet', 'deadline'],
    sourceIds: ['S38', 'S39', 'NUMMER'],
    evidence: ['seen', 'seen (secondary)', 'memory'],
    applies: forProducts('kombucha'),
    check: acidInAWeek,
  }),
  defineRule({
    id: 'KOM-02',
    uses: ['drink', 'giveAway'],
    needs: ['pH'],
    limit: KOMBUCHA_MIN,
    reasons: LIMIT_REASONS,
    sourceIds: ['NUMMER', 'BCCDC', 'S39'],
    evidence: ['memory', 'seen (secondary)'],
    applies: forProducts('kombucha'),
    check: (context) => checkLimit(KOMBUCHA_MIN, context),
  }),
  defineRule({
    id: 'KOM-03',
    uses: ['startKombucha'],
    reasons: ['met', 'condition', 'wrong_side', 'category', 'missing'],
    sourceIds: ['S40', 'COMMON'],
    evidence: ['seen', 'common practice'],
    check: starter,
  }),
  defineRule({
    id: 'KOM-04',
    kind: 'labelling',
    uses: ['giveAway'],
    needs: ['alcohol'],
    reasons: ['met', 'missing', 'print_on_label', 'category', 'condition'],
    sourceIds: ['S41', 'S42', 'S43', 'S44'],
    evidence: ['seen'],
    printsOnLabel: true,
    applies: forProducts('kombucha', 'waterKefir'),
    check: alcoholOnTheLabel,
  }),
  defineRule({
    id: 'KOM-05',
    uses: ['drink', 'giveAway'],
    reasons: ['met', 'print_on_label', 'category'],
    sourceIds: ['S42', 'S43', 'S45'],
    evidence: ['seen'],
    printsOnLabel: true,
    applies: ({ use, facts }) => {
      const raw = facts.pasteurised !== true;
      const drunk = facts.product === 'kombucha' || (facts.product === 'vinegar' && use === 'drink');
      return drunk && raw ? 'yes' : facts.product === 'vinegar' && use === 'drink' ? 'yes' : 'no';
    },
    check: ({ facts }) => {
      const recipient = facts.recipient ?? null;
      if (recipient === 'healthyAdult') return okBecause({});
      if (recipient !== null && NOT_FOR.has(recipient)) return doNotBecause('category', { recipient });
      return cautionBecause('print_on_label', { recipient });
    },
  }),
  defineRule({
    id: 'KOM-06',
    uses: ['sealInBottle'],
    reasons: ['met', 'missing', 'condition', 'category'],
    sourceIds: ['S46', 'S47', 'COMMON'],
    evidence: ['seen', 'common practice'],
    applies: forProducts('kombucha', 'waterKefir'),
    check: secondFerment,
  }),
  defineRule({
    id: 'KEF-01',
    uses: ['drink', 'giveAway'],
    needs: ['pH'],
    limit: KEFIR_MAX,
    reasons: [...LIMIT_REASONS, 'not_yet', 'condition'],
    sourceIds: ['S38', 'S48'],
    evidence: ['seen'],
    applies: forProducts('waterKefir'),
    check: kefirAcidity,
  }),
  defineRule({
    id: 'KEF-02',
    kind: 'labelling',
    uses: ['giveAway'],
    needs: ['alcohol'],
    reasons: ['met', 'missing', 'print_on_label', 'category'],
    sourceIds: ['S42'],
    evidence: ['seen'],
    printsOnLabel: true,
    applies: forProducts('waterKefir'),
    check: kefirAlcohol,
  }),
];

/**
 * Before a week "not yet" is all that can be said of a reading that is not clear; from then on it is thrown out or measured. A
 * brew that failed after a week is not rescued by a later reading, unless new tea went in meanwhile.
 */
function acidInAWeek(context: RuleContext): Answer {
  const answer = checkLimit(KOMBUCHA_MAX, context);
  const days = fullDaysSince(context.facts.ferment?.startedAtMs, context.facts.nowMs);
  const numbers = { ...answer.numbers, days, deadline: KOMBUCHA_DAYS };
  const failed = failedAfterAWeek(context.facts);
  if (failed !== null) {
    const then = fullDaysSince(context.facts.ferment?.startedAtMs, failed.takenAtMs);
    if (then === null) return unknownBecause('missing', 'ferment.startedAtMs', numbers);
    return doNotBecause('deadline', { ...numbers, ...failed, days: then });
  }
  if (answer.reason !== 'wrong_side' && answer.reason !== 'straddles') return { ...answer, numbers };
  if (days === null) return unknownBecause('missing', 'ferment.startedAtMs', numbers);
  if (days >= KOMBUCHA_DAYS) {
    return answer.reason === 'wrong_side' ? doNotBecause('deadline', numbers) : { ...answer, numbers };
  }
  return context.use === 'keepAsCulture'
    ? cautionBecause('not_yet', numbers)
    : unknownBecause('not_yet', 'pH', numbers);
}

/** A sound pH over the limit, a week or more after the start and after whatever went in last; null where there is none. */
function failedAfterAWeek(facts: SafetyFacts): (Interval & { takenAtMs: number }) | null {
  // Where the start is not known, it may have been a week before any of them.
  const startedAtMs = facts.ferment?.startedAtMs ?? -Infinity;
  const changes = facts.compositionEvents.filter(({ kind }) => changesComposition(kind));
  const fromMs = Math.max(startedAtMs, ...changes.map(({ atMs }) => atMs)) + KOMBUCHA_DAYS * DAY_MS;
  for (const reading of facts.measurements) {
    if (reading.quantity !== 'pH' || !(reading.takenAtMs >= fromMs) || !isSound(reading, facts)) continue;
    const interval = intervalOf(reading);
    if (interval !== null && compareWithLimit(interval, KOMBUCHA_MAX) === 'fails') {
      return { ...interval, takenAtMs: reading.takenAtMs };
    }
  }
  return null;
}

function starter({ facts }: RuleContext): Answer {
  const { percent, mature, startPh } = facts.starter ?? {};
  if (mature === false) return doNotBecause('category');
  const ph = intervalOfGauged(startPh, 'pH');
  const unknown = firstUnknown({ 'starter.percent': percent, 'starter.mature': mature });
  if (unknown !== null) return unknownBecause('missing', unknown);
  const numbers = { percent: percent ?? null, ph: ph?.value ?? null };
  if ((percent ?? 0) < STARTER.low) return doNotBecause('wrong_side', numbers);
  if (ph === null) return unknownBecause('missing', 'starter.startPh', numbers);
  if (lowOf(ph) > STARTER.phTooHigh) return doNotBecause('wrong_side', numbers);
  const good = (percent ?? 0) >= STARTER.enough && highOf(ph) <= STARTER.ph;
  return good ? okBecause(numbers) : cautionBecause('condition', numbers);
}

/** It makes more alcohol in the bottle, so only a measured strength clear of 0.5 % that is kept cold says less. */
function alcoholOnTheLabel({ facts, inspect }: RuleContext): Answer {
  const { usable, measurement } = inspect('alcohol');
  const called = facts.calledAlcoholFree ?? null;
  if (usable === null || measurement === null) {
    return called === true ? doNotBecause('category') : unknownBecause('missing', 'alcohol');
  }
  const numbers = { ...numbersOf(usable), limit: US_ALCOHOL.value, unit: '% vol' };
  const below = highOf(usable) < US_ALCOHOL.value;
  if (called === true && !below) return doNotBecause('category', numbers);
  if (!below || measurement.provenance === 'calculated') return cautionBecause('print_on_label', numbers);
  return facts.storage?.place === 'refrigerator' ? okBecause(numbers) : cautionBecause('condition', numbers);
}

function secondFerment({ facts }: RuleContext): Answer {
  const bottle = facts.sealing?.bottle ?? null;
  if (bottle === 'unrated') return doNotBecause('category');
  const { sugarGramsPerLitre, daysWarm } = facts.secondFerment ?? {};
  const unknown = firstUnknown({
    'sealing.bottle': bottle,
    'secondFerment.sugarGramsPerLitre': sugarGramsPerLitre,
    'secondFerment.daysWarm': daysWarm,
    'storage.place': facts.storage?.place,
  });
  if (unknown !== null) return unknownBecause('missing', unknown);
  const numbers = { sugar: sugarGramsPerLitre ?? null, days: daysWarm ?? null, limit: WARM_DAYS };
  const onTime = (daysWarm ?? 0) <= WARM_DAYS && facts.storage?.place === 'refrigerator';
  return onTime ? okBecause(numbers) : cautionBecause('condition', numbers);
}

/** Aim 4.2, limit 4.6 at 72 hours. */
function kefirAcidity(context: RuleContext): Answer {
  const aim = checkLimit(KOMBUCHA_MAX, context);
  if (aim.verdict === 'ok') return aim;
  const answer = checkLimit(KEFIR_MAX, context);
  if (answer.verdict === 'ok') return cautionBecause('condition', answer.numbers);
  const hours = hoursSince(context.facts.ferment?.startedAtMs, context.facts.nowMs);
  const numbers = { ...answer.numbers, hours, deadline: KEFIR_HOURS };
  if (answer.reason !== 'wrong_side' && answer.reason !== 'straddles') return { ...answer, numbers };
  if (hours === null) return unknownBecause('missing', 'ferment.startedAtMs', numbers);
  if (hours < KEFIR_HOURS) return unknownBecause('not_yet', 'pH', numbers);
  return { ...answer, numbers };
}

function kefirAlcohol({ facts, inspect }: RuleContext): Answer {
  const { usable, measurement } = inspect('alcohol');
  const hours = hoursSince(facts.ferment?.startedAtMs, facts.nowMs);
  const strong = facts.kefirBase === 'juice' || (hours !== null && hours > KEFIR_HOURS);
  if (usable !== null && measurement?.provenance !== 'calculated') {
    const numbers = { ...numbersOf(usable), limit: US_ALCOHOL.value };
    if (highOf(usable) < US_ALCOHOL.value) return okBecause(numbers);
    return facts.calledAlcoholFree === true
      ? doNotBecause('category', numbers)
      : cautionBecause('print_on_label', numbers);
  }
  if (strong && facts.calledAlcoholFree === true) return doNotBecause('category', { hours });
  if (facts.kefirBase === 'sugarWater' && hours !== null && hours <= WEAK_KEFIR_HOURS) {
    return cautionBecause('print_on_label', { hours });
  }
  return unknownBecause('missing', 'alcohol', { hours });
}
