import { roomCarbonDioxidePerDay } from '../../must/carbon-dioxide.ts';
import { firstUnknown, numbersOf } from '../ask.ts';
import { highOf } from '../interval.ts';
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

/**
 * ppm of CO2 in a room: 8-hour average (OSHA, S73), short term, and danger to life (S73, S74; NIOSH Pocket Guide from memory). An
 * average of 10 000 was struck down and is not used.
 */
export const ROOM_PPM = { workday: 5000, shortTerm: 30_000, danger: 40_000 };

/** Rules CO2-01 to CO2-03: air in the cellar. */
export const GAS_RULES: readonly Rule[] = [
  defineRule({
    id: 'CO2-01',
    uses: ['enterCellar'],
    needs: ['carbonDioxide'],
    reasons: ['met', 'missing', 'condition', 'wrong_side', 'method'],
    sourceIds: ['S73', 'S74', 'NIOSHPG'],
    evidence: ['seen', 'memory'],
    mayBeOverruled: false,
    applies: (context) => (isPredictable(context) && !hasReading(context) ? 'no' : 'yes'),
    check: measuredAir,
  }),
  defineRule({
    id: 'CO2-02',
    uses: ['enterCellar'],
    reasons: ['met', 'missing', 'condition', 'wrong_side'],
    sourceIds: ['S68', 'S75'],
    evidence: ['seen'],
    // A reading taken now says more than a reckoning.
    applies: (context) => (hasReading(context) ? 'no' : 'yes'),
    check: predictedAir,
  }),
  defineRule({
    id: 'CO2-03',
    uses: ['enterCellar'],
    reasons: ['met', 'missing', 'category'],
    sourceIds: ['S76', 'FLAME'],
    evidence: ['seen', 'memory'],
    mayBeOverruled: false,
    check: ({ facts }) => {
      const symptoms = facts.roomAir?.symptoms ?? null;
      if (symptoms === null) return unknownBecause('missing', 'roomAir.symptoms');
      return symptoms ? doNotBecause('category') : okBecause({});
    },
  }),
];

function hasReading(context: RuleContext): boolean {
  return context.facts.measurements.some(({ quantity }) => quantity === 'carbonDioxide');
}

function isPredictable({ facts }: RuleContext): boolean {
  const { activeLitres, pointsPerDay, roomLitres, closedDays } = facts.roomAir ?? {};
  return firstUnknown({ activeLitres, pointsPerDay, roomLitres, closedDays }) === null;
}

function measuredAir({ facts, inspect }: RuleContext): Answer {
  const { usable, worst } = inspect('carbonDioxide');
  if (usable === null) return unknownBecause(worst.reason, 'carbonDioxide', worst.numbers);
  const numbers = { ...numbersOf(usable), limit: ROOM_PPM.workday, shortTerm: ROOM_PPM.shortTerm };
  if (highOf(usable) >= ROOM_PPM.shortTerm) return doNotBecause('wrong_side', numbers);
  // The gas lies near the floor; a reading at head height shows too little.
  if (facts.roomAir?.measuredAtKneeHeight !== true) {
    return unknownBecause('method', 'roomAir.measuredAtKneeHeight', numbers);
  }
  return highOf(usable) < ROOM_PPM.workday ? okBecause(numbers) : cautionBecause('condition', numbers);
}

function predictedAir({ facts }: RuleContext): Answer {
  const { activeLitres, pointsPerDay, roomLitres, closedDays } = facts.roomAir ?? {};
  const unknown = firstUnknown({
    'roomAir.activeLitres': activeLitres,
    'roomAir.pointsPerDay': pointsPerDay,
    'roomAir.roomLitres': roomLitres,
    'roomAir.closedDays': closedDays,
  });
  if (unknown !== null) return unknownBecause('missing', unknown);
  const aDay = roomCarbonDioxidePerDay({
    activeLitres: activeLitres ?? 0,
    pointsPerDay: pointsPerDay ?? 0,
    roomLitres: roomLitres ?? 0,
  });
  if (!aDay.ok) return unknownBecause('missing', `roomAir.${aDay.error.quantity}`);
  // A room aired within the day is reckoned as closed for one: never less.
  const ppm = aDay.value * Math.max(1, closedDays ?? 1);
  const numbers = { ppm, limit: ROOM_PPM.workday, shortTerm: ROOM_PPM.shortTerm };
  if (ppm > ROOM_PPM.shortTerm) return doNotBecause('wrong_side', numbers);
  return ppm < ROOM_PPM.workday ? okBecause(numbers) : cautionBecause('condition', numbers);
}
