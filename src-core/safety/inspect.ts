import type { Measurement, Quantity, SafetyFacts } from './facts.ts';
import { intervalOf } from './interval.ts';
import {
  okBecause,
  severity,
  unknownBecause,
  type Answer,
  type Inspection,
  type MeasurementRule,
} from './rule.ts';

/** Inspects the newest measurement of a quantity by every measurement rule of the book. */
export function inspectNewest(
  quantity: Quantity,
  facts: SafetyFacts,
  rules: readonly MeasurementRule[],
): Inspection {
  const measurement = newest(quantity, facts);
  if (measurement !== null) return inspect(measurement, facts, rules);
  const standIn = quantity === 'acidity' ? newest('pH', facts) : null;
  const strengthRule = rules.find((rule) => rule.id === 'MEAS-11');
  if (standIn === null || strengthRule === undefined) {
    return { measurement, answers: [], usable: null, worst: unknownBecause('missing', quantity) };
  }
  // A pH is there and no strength: it may never stand in for one.
  const worst = unknownBecause('missing', quantity, { pH: standIn.value });
  return { measurement, answers: [{ rule: strengthRule, answer: worst }], usable: null, worst };
}

/** Inspects one measurement by every measurement rule of the book. */
export function inspect(
  measurement: Measurement,
  facts: SafetyFacts,
  rules: readonly MeasurementRule[],
): Inspection {
  const answers: { readonly rule: MeasurementRule; readonly answer: Answer }[] = [];
  let worst = okBecause({});
  let usable = intervalOf(measurement);
  for (const rule of rules) {
    if (rule.quantities !== 'every' && !rule.quantities.includes(measurement.quantity)) continue;
    const answer = rule.check(measurement, facts);
    if (answer === null) continue;
    answers.push({ rule, answer });
    if (severity(answer.verdict) > severity(worst.verdict)) worst = answer;
    if (usable !== null && rule.widen && answer.verdict === 'caution') {
      usable = { value: usable.value, uncertainty: rule.widen(usable) };
    }
  }
  const withheld = severity(worst.verdict) >= severity('unknown_measure_first');
  return { measurement, answers, usable: withheld ? null : usable, worst };
}

/** The newest measurement of a quantity; of two taken at the same moment the later in the list. */
export function newest(quantity: Quantity, facts: SafetyFacts): Measurement | null {
  let found: Measurement | null = null;
  for (const measurement of facts.measurements) {
    if (measurement.quantity !== quantity) continue;
    if (found === null || measurement.takenAtMs >= found.takenAtMs) found = measurement;
  }
  return found;
}
