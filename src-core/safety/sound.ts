import { inspect } from './inspect.ts';
import { intervalOf } from './interval.ts';
import { isInRange } from './measurement.ts';
import { severity } from './rule.ts';
import type { Measurement, SafetyFacts } from './facts.ts';
import { METHOD_RULES } from './rules/measurement.ts';

/** An earlier reading serves if it was measured, fits its unit and its method does; its age is beside the point. */
export function isSound(reading: Measurement, facts: SafetyFacts): boolean {
  if (reading.provenance !== 'measured' || intervalOf(reading) === null) return false;
  if (isInRange(reading, facts).verdict !== 'ok') return false;
  const { worst } = inspect(reading, facts, METHOD_RULES);
  return severity(worst.verdict) < severity('unknown_measure_first');
}
