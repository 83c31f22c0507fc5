import { forProducts, fullDaysSince, numbersOf } from '../ask.ts';
import { highOf, intervalOf, lowOf } from '../interval.ts';
import { isAfterLastChange } from '../measurement.ts';
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

/** Acid from which a vinegar is an irritant, and from which it is no table product, g/100 mL. Source: S7; handling common practice. */
const IRRITANT = 10;
const NOT_FOR_THE_TABLE = 15;
/** Acid that keeps at room temperature, and below which it does not even when it is closed. Sources: S1; common practice. */
const KEEPS = 4;
const WEAK = 3;
/** Days on an open mother without alcohol after which it is measured again. Common practice, S34. */
const OPEN_DAYS = 30;

/** Rules VIN-08 to VIN-11: very strong, weak and unfinished vinegar, and eels in it. */
export const STRENGTH_RULES: readonly Rule[] = [
  defineRule({
    id: 'VIN-08',
    uses: ['labelAsVinegar', 'dressSalad', 'drink', 'giveAway'],
    needs: ['acidity'],
    reasons: ['met', 'condition', 'category', 'straddles', 'missing'],
    sourceIds: ['S7', 'CAB19', 'COMMON'],
    evidence: ['seen', 'memory', 'common practice'],
    applies: (context) => (context.use === 'labelAsVinegar' ? 'yes' : forProducts('vinegar')(context)),
    check: strongVinegar,
  }),
  defineRule({
    id: 'VIN-09',
    uses: ['keep'],
    needs: ['acidity'],
    reasons: ['met', 'condition', 'category', 'straddles', 'missing', 'calculated_only'],
    sourceIds: ['S1', 'COMMON'],
    evidence: ['seen', 'common practice'],
    applies: forProducts('vinegar'),
    check: vinegarInStore,
  }),
  defineRule({
    id: 'VIN-10',
    uses: ['giveAway', 'keepAsCulture'],
    reasons: ['met', 'condition', 'category', 'missing'],
    sourceIds: ['S1', 'S33'],
    evidence: ['seen', 'seen (secondary)'],
    applies: forProducts('vinegar'),
    check: ({ use, facts }) => {
      const eels = facts.inspection?.eels ?? null;
      if (eels === null) return unknownBecause('missing', 'inspection.eels');
      if (eels === 'absent') return okBecause({});
      return use === 'giveAway' ? doNotBecause('category') : cautionBecause('condition');
    },
  }),
  defineRule({
    id: 'VIN-11',
    kind: 'labelling',
    uses: ['labelAsVinegar', 'keep', 'giveAway'],
    needs: ['acidity'],
    reasons: ['met', 'missing', 'falling', 'ageing'],
    sourceIds: ['S34', 'COMMON'],
    evidence: ['seen', 'common practice'],
    // Not known to be shut or dead counts as open and alive.
    applies: ({ facts }) =>
      facts.openToAir !== false && facts.liveCulture !== false && (facts.alcoholSpentAtMs ?? null) !== null
        ? 'yes'
        : 'no',
    check: leftOnMother,
  }),
];

function strongVinegar(context: RuleContext): Answer {
  const { usable, worst } = context.inspect('acidity');
  if (usable === null) return unknownBecause(worst.reason, 'acidity', worst.numbers);
  const numbers = { ...numbersOf(usable), limit: NOT_FOR_THE_TABLE };
  if (lowOf(usable) > NOT_FOR_THE_TABLE) return doNotBecause('category', numbers);
  if (highOf(usable) > NOT_FOR_THE_TABLE) return unknownBecause('straddles', 'acidity', numbers);
  return highOf(usable) < IRRITANT ? okBecause(numbers) : cautionBecause('condition', numbers);
}

/** Keeps at room temperature from 4 %; from 3 % only cold and for weeks; below that not warm and closed. */
function vinegarInStore(context: RuleContext): Answer {
  const { usable, measurement, worst } = context.inspect('acidity');
  if (usable === null) return unknownBecause(worst.reason, 'acidity', worst.numbers);
  const numbers = { ...numbersOf(usable), limit: KEEPS, weak: WEAK };
  if (lowOf(usable) >= KEEPS) {
    return measurement?.provenance === 'calculated'
      ? unknownBecause('calculated_only', 'acidity', numbers)
      : okBecause(numbers);
  }
  if (lowOf(usable) >= WEAK) return cautionBecause('condition', numbers);
  if (highOf(usable) >= WEAK) return unknownBecause('straddles', 'acidity', numbers);
  const place = context.facts.storage?.place ?? null;
  if (place === null) return unknownBecause('missing', 'storage.place', numbers);
  if (place !== 'warmShelf') return cautionBecause('condition', numbers);
  return context.facts.storage?.closedTight === false
    ? cautionBecause('condition', numbers)
    : doNotBecause('category', numbers);
}

/**
 * With no alcohol left the mother eats the acid: a strength from before then no longer holds. The newest is held against each
 * since the last change, so that a slow fall is seen as well as a quick one.
 */
function leftOnMother({ facts }: RuleContext): Answer {
  const spentAtMs = facts.alcoholSpentAtMs ?? null;
  const days = fullDaysSince(spentAtMs, facts.nowMs);
  if (spentAtMs === null || days === null) return unknownBecause('missing', 'alcoholSpentAtMs');
  const readings = facts.measurements
    .filter(({ quantity, takenAtMs }) => quantity === 'acidity' && takenAtMs <= facts.nowMs)
    .filter(({ provenance }) => provenance === 'measured')
    .toSorted((a, b) => b.takenAtMs - a.takenAtMs);
  const [last, ...before] = readings;
  if (last === undefined || last.takenAtMs < spentAtMs) return unknownBecause('missing', 'acidity', { days });
  const now = intervalOf(last);
  if (now === null) return unknownBecause('missing', 'acidity', { days });
  for (const earlier of before) {
    if (isAfterLastChange(earlier, facts).verdict !== 'ok') break;
    const then = intervalOf(earlier);
    if (then !== null && then.value - now.value > Math.hypot(now.uncertainty, then.uncertainty)) {
      return doNotBecause('falling', { days, value: now.value, before: then.value });
    }
  }
  return days > OPEN_DAYS ? cautionBecause('ageing', { days }) : okBecause({ days });
}
