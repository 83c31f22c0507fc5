import { compareWithLimit } from './limit.ts';
import {
  cautionBecause,
  doNotBecause,
  okBecause,
  unknownBecause,
  type Answer,
  type Limit,
  type Numbers,
  type RuleContext,
} from './rule.ts';

/**
 * Holds the newest usable measurement against a limit. Missing, stale or otherwise withheld gives what withheld it;
 * straddling gives `unknown_measure_first`; on the unsafe side `do_not`. A calculated number that would be clear gives
 * `calculated_only`, or a caution when the label is only for the keeper's own shelf.
 */
export function checkLimit(limit: Limit, context: RuleContext, ownUseMayBeCalculated = false): Answer {
  const { usable, measurement, worst } = context.inspect(limit.quantity);
  if (usable === null || measurement === null) {
    return unknownBecause(worst.reason, worst.measureNext?.quantity ?? limit.quantity, {
      ...worst.numbers,
      limit: limit.value,
      unit: limit.unit,
    });
  }
  const numbers: Numbers = {
    value: usable.value,
    uncertainty: usable.uncertainty,
    limit: limit.value,
    unit: limit.unit,
    takenAtMs: measurement.takenAtMs,
  };
  switch (compareWithLimit(usable, limit)) {
    case 'fails':
      return doNotBecause('wrong_side', numbers, { quantity: limit.quantity, why: 'wrong_side' });
    case 'straddles':
      return unknownBecause('straddles', limit.quantity, numbers);
    case 'clear':
      if (measurement.provenance !== 'calculated') return okBecause(numbers);
      return ownUseMayBeCalculated && context.facts.labelAudience === 'own'
        ? cautionBecause('own_use_about', numbers)
        : unknownBecause('calculated_only', limit.quantity, numbers);
  }
}

/**
 * The reasons that {@link checkLimit} gives of itself. Besides them it hands on whatever reason withheld the number, which
 * follows from the measurement rules of the book.
 */
export const LIMIT_REASONS = ['met', 'missing', 'straddles', 'wrong_side', 'calculated_only'] as const;
