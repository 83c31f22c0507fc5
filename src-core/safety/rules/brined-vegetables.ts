import { forProducts, firstUnknown, fullDaysSince, hoursSince, liesWithin, numbersOf } from '../ask.ts';
import { checkLimit } from '../check-limit.ts';
import { compareWithLimit } from '../limit.ts';
import { highOf, intervalOf, intervalOfGauged, lowOf, type Interval } from '../interval.ts';
import { DAY_MS, HOUR_MS, isInRange } from '../measurement.ts';
import { saltPercentOfTotal } from '../../brine/brine-strength.ts';
import { defaultUncertainty } from '../../quantities/uncertainty.ts';
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

/** pH of fermented vegetables: below, not at. Source: UMN Extension 2021 (S24), S25. */
export const SOURED: Limit = { quantity: 'pH', side: 'upper', value: 4.6, unit: 'pH', inclusive: false };
/** Days to reach it at 18–24 °C, and at 13–18 °C. Sources: S24; the second is policy. */
const DEADLINE_DAYS = 7;
const COOL_DEADLINE_DAYS = 14;
const COOL = { low: 13, high: 18 };
/** Hours for kimchi at 20–22 °C, and in the refrigerator. Source: S24. */
const KIMCHI_HOURS = 48;
const KIMCHI_COLD_HOURS = 96;
/** Per cent of salt of the whole. Sources: S26, S27, S28, S35; the floor is policy. */
export const SALT = { floor: 1.5, low: 2, high: 5 };
/** Per cent of salt over which no rule speaks: brine so strong hardly sours, and the weights are looked at again. */
const SALT_MOST = 10;
/** °C. Sources: S27, S28. */
const WARMTH = { low: 15.5, high: 24, tooWarm: 27, tooCold: 10 };
/** Days after which a jar in its first two weeks must have been looked at; hours that solids may stand bare. S27, S36; policy. */
const CHECK_DAYS = 4;
const BARE_HOURS = 24;
/** Days before which very young raw cabbage is kept from people at risk. Source: S37; policy. */
const YOUNG_DAYS = 14;
const AT_RISK: ReadonlySet<string> = new Set(['infant', 'pregnant', 'elder', 'weakImmunity']);

const VEGETABLES = forProducts('brinedVegetables', 'kimchi');

/** Rules VEG-01 to VEG-09: vegetables in salt or brine. */
export const BRINED_VEGETABLE_RULES: readonly Rule[] = [
  defineRule({
    id: 'VEG-01',
    uses: ['eat', 'keep', 'giveAway'],
    needs: ['pH'],
    limit: SOURED,
    reasons: ['met', 'missing', 'calculated_only', 'not_yet', 'deadline'],
    sourceIds: ['S24', 'S25', 'POLICY'],
    evidence: ['seen', 'policy'],
    mayBeOverruled: false,
    applies: forProducts('brinedVegetables'),
    check: souredInTime,
  }),
  defineRule({
    id: 'VEG-02',
    uses: ['eat', 'keep', 'giveAway'],
    needs: ['pH'],
    reasons: ['met', 'missing', 'falling', 'condition', 'wrong_side'],
    sourceIds: ['S24'],
    evidence: ['seen'],
    mayBeOverruled: false,
    applies: VEGETABLES,
    check: staysSour,
  }),
  defineRule({
    id: 'VEG-03',
    uses: ['eat', 'keep', 'giveAway'],
    reasons: ['met', 'missing', 'condition', 'wrong_side', 'straddles', 'implausible'],
    sourceIds: ['S26', 'S27', 'S28', 'S35', 'POLICY'],
    evidence: ['seen', 'policy'],
    applies: VEGETABLES,
    check: saltOfTheWhole,
  }),
  defineRule({
    id: 'VEG-04',
    uses: ['eat', 'keep', 'giveAway'],
    reasons: ['met', 'missing', 'condition', 'category'],
    sourceIds: ['S27', 'S28'],
    evidence: ['seen'],
    applies: VEGETABLES,
    check: warmth,
  }),
  defineRule({
    id: 'VEG-05',
    uses: ['eat', 'keep', 'giveAway'],
    reasons: ['met', 'missing', 'stale_age', 'condition', 'category'],
    sourceIds: ['S27', 'S36', 'POLICY'],
    evidence: ['seen', 'policy'],
    applies: VEGETABLES,
    check: submerged,
  }),
  defineRule({
    id: 'VEG-06',
    uses: ['eat', 'keep', 'giveAway'],
    reasons: ['met', 'missing', 'condition', 'category'],
    sourceIds: ['S28', 'S36'],
    evidence: ['seen'],
    applies: VEGETABLES,
    check: ({ facts }) => {
      const texture = facts.inspection?.texture ?? null;
      if (texture === null) return unknownBecause('missing', 'inspection.texture');
      if (texture === 'sound') return okBecause({});
      return texture === 'cloudyBrine' ? cautionBecause('condition') : doNotBecause('category');
    },
  }),
  defineRule({
    id: 'VEG-07',
    uses: ['keep'],
    reasons: ['met', 'missing', 'condition', 'category'],
    sourceIds: ['S27', 'S28', 'POLICY'],
    evidence: ['seen', 'policy'],
    applies: VEGETABLES,
    check: ({ facts }) => {
      const { storage } = facts;
      if (storage?.testedProcess === true) return okBecause({});
      const place = storage?.place ?? null;
      if (place === null) return unknownBecause('missing', 'storage.place');
      if (place === 'refrigerator') return okBecause({});
      return place === 'warmShelf' ? doNotBecause('category') : cautionBecause('condition');
    },
  }),
  defineRule({
    id: 'VEG-08',
    uses: ['eat', 'keep', 'giveAway'],
    needs: ['pH'],
    limit: SOURED,
    reasons: ['met', 'missing', 'calculated_only', 'not_yet', 'deadline'],
    sourceIds: ['S24'],
    evidence: ['seen'],
    mayBeOverruled: false,
    applies: forProducts('kimchi'),
    check: kimchiInTime,
  }),
  defineRule({
    id: 'VEG-09',
    uses: ['eat', 'giveAway'],
    reasons: ['met', 'missing', 'print_on_label', 'category'],
    sourceIds: ['S37', 'POLICY'],
    evidence: ['seen', 'policy'],
    printsOnLabel: true,
    applies: VEGETABLES,
    check: youngFerment,
  }),
];

function souredInTime(context: RuleContext): Answer {
  const { facts } = context;
  const mean = intervalOfGauged(facts.ferment?.meanCelsius, 'temperature');
  const cool = mean !== null && liesWithin(mean, COOL.low, COOL.high);
  const deadline = cool ? COOL_DEADLINE_DAYS : DEADLINE_DAYS;
  return soured(context, fullDaysSince(facts.ferment?.startedAtMs, facts.nowMs), deadline, DAY_MS);
}

function kimchiInTime(context: RuleContext): Answer {
  const { facts } = context;
  const deadline = facts.ferment?.inRefrigerator === true ? KIMCHI_COLD_HOURS : KIMCHI_HOURS;
  return soured(context, hoursSince(facts.ferment?.startedAtMs, facts.nowMs), deadline, HOUR_MS);
}

/**
 * Clear of the limit is met. Until the deadline it is "not yet": a caution for the jar that works on, and no more than that for
 * eating or giving. After it, anything that is not clear is thrown out; a reading that is missing must be taken today. A jar
 * that once was to be thrown out is not rescued by a later reading.
 */
function soured(context: RuleContext, elapsed: number | null, deadline: number, unitMs: number): Answer {
  const answer = checkLimit(SOURED, context);
  const startedAtMs = context.facts.ferment?.startedAtMs ?? null;
  const late = missedAt(context, (startedAtMs ?? -Infinity) + deadline * unitMs);
  if (late !== null && startedAtMs === null) {
    return unknownBecause('missing', 'ferment.startedAtMs', { ...answer.numbers, elapsed, deadline });
  }
  if (late !== null && startedAtMs !== null) {
    const elapsedThen = Math.floor((late.takenAtMs - startedAtMs) / unitMs);
    return doNotBecause('deadline', { ...late, limit: SOURED.value, elapsed: elapsedThen, deadline });
  }
  if (answer.verdict === 'ok') return answer;
  const numbers = { ...answer.numbers, elapsed, deadline };
  const measured = answer.reason === 'wrong_side' || answer.reason === 'straddles';
  if (!measured) return { ...answer, numbers };
  if (elapsed === null) return unknownBecause('missing', 'ferment.startedAtMs', numbers);
  if (elapsed >= deadline) return doNotBecause('deadline', numbers);
  return context.use === 'keep'
    ? cautionBecause('not_yet', numbers)
    : unknownBecause('not_yet', 'pH', numbers);
}

/** The first sound pH of the jar's deadline or later that was not shown to be sour; null where there is none. */
function missedAt({ facts }: RuleContext, deadlineMs: number): (Interval & { takenAtMs: number }) | null {
  const late = facts.measurements
    .filter(({ quantity, takenAtMs }) => quantity === 'pH' && takenAtMs >= deadlineMs)
    .filter((reading) => isSound(reading, facts))
    .toSorted((a, b) => a.takenAtMs - b.takenAtMs);
  for (const reading of late) {
    const interval = intervalOf(reading);
    if (interval !== null && compareWithLimit(interval, SOURED) !== 'clear') {
      return { ...interval, takenAtMs: reading.takenAtMs };
    }
  }
  return null;
}

/** After it was once sour the pH may not rise: the acid is then being eaten. */
function staysSour({ facts, inspect }: RuleContext): Answer {
  const { usable, measurement, worst } = inspect('pH');
  if (usable === null || measurement === null) return unknownBecause(worst.reason, 'pH', worst.numbers);
  let lowest: Interval = usable;
  let wasSour = false;
  let rose: Interval | null = null;
  for (const earlier of facts.measurements) {
    if (earlier.quantity !== 'pH' || earlier === measurement) continue;
    if (earlier.takenAtMs > measurement.takenAtMs || isInRange(earlier, facts).verdict !== 'ok') continue;
    const interval = intervalOf(earlier);
    if (interval === null) continue;
    if (compareWithLimit(interval, SOURED) === 'clear') wasSour = true;
    if (interval.value < lowest.value) lowest = interval;
    // Each earlier reading is held against it: a coarse low one must not hide a rise above a fine one.
    const beyond = usable.value - interval.value > Math.hypot(usable.uncertainty, interval.uncertainty);
    if (beyond && (rose === null || interval.value < rose.value)) rose = interval;
  }
  const rise = usable.value - lowest.value;
  const numbers = { ...numbersOf(usable), lowest: (rose ?? lowest).value, rise };
  if (wasSour && compareWithLimit(usable, SOURED) !== 'clear') return doNotBecause('wrong_side', numbers);
  if (rose !== null) return doNotBecause('falling', numbers);
  return rise > 0 ? cautionBecause('condition', numbers) : okBecause(numbers);
}

/** Per cent of vegetables, water and salt together; a percentage of the water alone does not count. */
function saltOfTheWhole({ facts }: RuleContext): Answer {
  const { saltGrams, vegetableGrams, waterGrams } = facts.salting ?? {};
  const unknown = firstUnknown({
    'salting.saltGrams': saltGrams,
    'salting.vegetableGrams': vegetableGrams,
    'salting.waterGrams': waterGrams,
  });
  // A percentage of the water alone is none: the vegetables are weighed too.
  const noVegetables = unknown === null && vegetableGrams === 0 ? 'salting.vegetableGrams' : null;
  const salt = saltByWeight({
    saltGrams: saltGrams ?? Number.NaN,
    vegetableGrams: vegetableGrams ?? Number.NaN,
    waterGrams: waterGrams ?? Number.NaN,
  });
  if (salt === null || noVegetables !== null) {
    return unknownBecause('missing', unknown ?? noVegetables ?? 'salting', {});
  }
  const numbers = { ...numbersOf(salt), floor: SALT.floor, low: SALT.low, high: SALT.high };
  if (highOf(salt) > SALT_MOST) return unknownBecause('implausible', 'salting', numbers);
  if (highOf(salt) < SALT.floor) return doNotBecause('wrong_side', numbers);
  if (lowOf(salt) < SALT.floor) return unknownBecause('straddles', 'salting', numbers);
  return liesWithin(salt, SALT.low, SALT.high) ? okBecause(numbers) : cautionBecause('condition', numbers);
}

/** Per cent of the whole with the errors of the weighings by a kitchen scale (MEAS-02), each to first order; null for no weights. */
function saltByWeight(grams: {
  readonly saltGrams: number;
  readonly vegetableGrams: number;
  readonly waterGrams: number;
}): Interval | null {
  const percent = saltPercentOfTotal(grams);
  if (!percent.ok) return null;
  const { saltGrams: salt, vegetableGrams, waterGrams } = grams;
  const rest = vegetableGrams + waterGrams;
  const total = salt + rest;
  const weighed = (mass: number): number => (mass === 0 ? 0 : defaultUncertainty('kitchenScale', mass));
  const uncertainty = Math.hypot(
    ((100 * rest) / total ** 2) * defaultUncertainty('kitchenScale', salt),
    ((100 * salt) / total ** 2) * weighed(vegetableGrams),
    ((100 * salt) / total ** 2) * weighed(waterGrams),
  );
  return { value: percent.value, uncertainty };
}

function warmth({ facts }: RuleContext): Answer {
  const mean = intervalOfGauged(facts.ferment?.meanCelsius, 'temperature');
  if (mean === null) return unknownBecause('missing', 'ferment.meanCelsius');
  const numbers = { ...numbersOf(mean), low: WARMTH.low, high: WARMTH.high };
  const hoursTooWarm = facts.ferment?.hoursAbove27Celsius ?? null;
  if (lowOf(mean) > WARMTH.tooWarm || (hoursTooWarm ?? 0) > 24) return doNotBecause('category', numbers);
  if (highOf(mean) < WARMTH.tooCold) return doNotBecause('category', numbers);
  // A mean hides two hot days.
  const unknown = firstUnknown({ 'ferment.hoursAbove27Celsius': hoursTooWarm });
  if (unknown !== null) return unknownBecause('missing', unknown, numbers);
  return liesWithin(mean, WARMTH.low, WARMTH.high)
    ? okBecause(numbers)
    : cautionBecause('condition', numbers);
}

function submerged({ facts }: RuleContext): Answer {
  const { submersion } = facts;
  const checkedHours = hoursSince(submersion?.checkedAtMs, facts.nowMs);
  if (checkedHours === null) return unknownBecause('missing', 'submersion.checkedAtMs');
  const age = fullDaysSince(facts.ferment?.startedAtMs, facts.nowMs);
  const early = age === null || age < 14;
  if (early && checkedHours > 24 * CHECK_DAYS) return unknownBecause('stale_age', 'submersion.checkedAtMs');
  const covered = submersion?.covered ?? null;
  if (covered === null) return unknownBecause('missing', 'submersion.covered');
  if (covered) return okBecause({});
  const hours = submersion?.exposedHours ?? null;
  if (hours === null) return unknownBecause('missing', 'submersion.exposedHours');
  if (hours < BARE_HOURS) return cautionBecause('condition', { hours });
  const spoiled = submersion?.slimeColourOrMould ?? null;
  if (spoiled === null) return unknownBecause('missing', 'submersion.slimeColourOrMould', { hours });
  return spoiled ? doNotBecause('category', { hours }) : cautionBecause('condition', { hours });
}

/** Raw cabbage can carry germs that stand acid: time, and not to people at risk. */
function youngFerment(context: RuleContext): Answer {
  const { facts } = context;
  const days = fullDaysSince(facts.ferment?.startedAtMs, facts.nowMs);
  if (days === null) return unknownBecause('missing', 'ferment.startedAtMs');
  const recipient = facts.recipient ?? null;
  if (days < YOUNG_DAYS) {
    const atRisk = recipient !== null && AT_RISK.has(recipient);
    return atRisk
      ? doNotBecause('category', { days, recipient })
      : cautionBecause('print_on_label', { days });
  }
  return checkLimit(SOURED, context).verdict === 'ok'
    ? okBecause({ days })
    : cautionBecause('print_on_label', { days });
}
