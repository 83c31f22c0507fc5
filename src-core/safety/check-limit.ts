import type { SafetyFacts } from './facts.ts';
import { compareWithLimit } from './limit.ts';
import { inspectNewest, type Inspection } from './measurement.ts';
import {
  cautionBecause,
  doNotBecause,
  okBecause,
  unknownBecause,
  type Answer,
  type Limit,
  type Numbers,
} from './rule.ts';

/**
 * Holds the newest usable measurement against a limit. Missing, stale or otherwise withheld gives what withheld it;
 * straddling gives `unknown_measure_first`; on the unsafe side `do_not`. A calculated number that would be clear gives
 * `calculated_only`, or a caution when the label is only for the keeper's own shelf.
 */
export function checkLimit(limit: Limit, facts: SafetyFacts, ownUseMayBeCalculated: boolean): Answer {
  return answerFor(limit, inspectNewest(limit.quantity, facts), facts, ownUseMayBeCalculated);
}

function answerFor(
  limit: Limit,
  inspection: Inspection,
  facts: SafetyFacts,
  ownUseMayBeCalculated: boolean,
): Answer {
  const { usable, measurement, worst } = inspection;
  if (usable === null || measurement === null) {
    return unknownBecause(worst.reason, limit.quantity, {
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
      return ownUseMayBeCalculated && facts.labelAudience === 'own'
        ? cautionBecause('own_use_about', numbers)
        : unknownBecause('calculated_only', limit.quantity, numbers);
  }
}

/** Every reason that {@link checkLimit} can give. */
export const LIMIT_REASONS = [
  'met',
  'missing',
  'stale_event',
  'stale_age',
  'basis',
  'method',
  'implausible',
  'guessed',
  'readings_disagree',
  'straddles',
  'wrong_side',
  'calculated_only',
] as const;
