import type { Heating } from '../facts-of-uses.ts';
import { highOf, intervalOfGauged, lowOf } from '../interval.ts';
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

/** °C and minutes of a vinegar that is called pasteurised. Sources: S100, S101, S34; ten minutes are policy. */
const PASTEURISED = { low: 60, high: 71, minutes: 10 };

/** Rules PAS-01 to PAS-03: heating vinegar for the shelf. */
export const STABILISING_RULES: readonly Rule[] = [
  defineRule({
    id: 'PAS-01',
    uses: ['pasteurise'],
    reasons: ['met', 'missing', 'condition', 'straddles', 'wrong_side', 'category', 'not_yet'],
    sourceIds: ['S100', 'S101', 'S34', 'POLICY'],
    evidence: ['seen', 'policy'],
    check: pasteurised,
  }),
  defineRule({
    id: 'PAS-02',
    uses: ['pasteurise'],
    reasons: ['met', 'missing', 'condition', 'category'],
    sourceIds: ['S101'],
    evidence: ['seen'],
    check: ({ facts }) => {
      const { keptBack, otherHolders } = facts.culture ?? {};
      if (keptBack === true) return okBecause({});
      if ((keptBack ?? null) === null) return unknownBecause('missing', 'culture.keptBack');
      if ((otherHolders ?? null) === null) return unknownBecause('missing', 'culture.otherHolders');
      return otherHolders ? cautionBecause('condition') : doNotBecause('category');
    },
  }),
  defineRule({
    id: 'PAS-03',
    uses: ['pasteurise'],
    reasons: ['met', 'missing', 'condition', 'category'],
    sourceIds: ['COMMON'],
    evidence: ['common practice'],
    applies: ({ facts }) => ((facts.heating?.bottleGlass ?? null) === null ? 'no' : 'yes'),
    check: ({ facts }) => {
      const glass = facts.heating?.bottleGlass ?? null;
      if (glass === null) return unknownBecause('missing', 'heating.bottleGlass');
      if (glass === 'warm') return okBecause({});
      return glass === 'coldOrdinary' ? cautionBecause('condition') : doNotBecause('category');
    },
  }),
];

/** True when a told heating was surely hot and long enough for PAS-01; how far above the range it went is another matter. */
export function reachedPasteurising(heating: Pick<Heating, 'reachedCelsius' | 'minutes'>): boolean {
  const reached = intervalOfGauged(heating.reachedCelsius, 'temperature');
  const longEnough = (heating.minutes ?? 0) >= PASTEURISED.minutes;
  return reached !== null && lowOf(reached) >= PASTEURISED.low && longEnough;
}

function pasteurised({ facts }: RuleContext): Answer {
  const { reachedCelsius, minutes, pot, calledPasteurised } = facts.heating ?? {};
  if (pot === 'reactive') return doNotBecause('category');
  const reached = intervalOfGauged(reachedCelsius, 'temperature');
  if (reached === null) return unknownBecause('missing', 'heating.reachedCelsius');
  const numbers = {
    value: reached.value,
    uncertainty: reached.uncertainty,
    low: PASTEURISED.low,
    high: PASTEURISED.high,
    minutes: minutes ?? null,
  };
  if (highOf(reached) < PASTEURISED.low) {
    return calledPasteurised === false
      ? unknownBecause('not_yet', 'heating.reachedCelsius', numbers)
      : doNotBecause('wrong_side', numbers);
  }
  if (lowOf(reached) < PASTEURISED.low) return unknownBecause('straddles', 'heating.reachedCelsius', numbers);
  if ((pot ?? null) === null) return unknownBecause('missing', 'heating.pot', numbers);
  if (typeof minutes !== 'number' || minutes === Infinity)
    return unknownBecause('missing', 'heating.minutes', numbers);
  if (!(minutes >= PASTEURISED.minutes)) return unknownBecause('not_yet', 'heating.minutes', numbers);
  return highOf(reached) <= PASTEURISED.high ? okBecause(numbers) : cautionBecause('condition', numbers);
}
