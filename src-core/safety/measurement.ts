import type { EpochMs } from '../base/ports.ts';
import { acidityFactor } from '../acid/acid-equivalents.ts';
import { PLAUSIBLE } from '../quantities/plausible.ts';
import { effectiveUncertainty } from '../quantities/uncertainty.ts';
import type { EventKind, Measurement, Quantity, SafetyFacts } from './facts.ts';
import { cautionBecause, okBecause, severity, unknownBecause, type Answer } from './rule.ts';

/** What the measurement rules say of one measurement, and the number they leave to be used. */
export interface Inspection {
  /** Null when no measurement of the quantity exists. */
  readonly measurement: Measurement | null;
  readonly answers: readonly { readonly ruleId: string; readonly answer: Answer }[];
  /** The number to hold against a limit; null when any measurement rule withholds it. */
  readonly usable: { readonly value: number; readonly uncertainty: number } | null;
  /** The worst answer, which explains a withheld number. */
  readonly worst: Answer;
}

/** Inspects the newest measurement of a quantity by rules MEAS-01 (two readings of one thing), MEAS-02 to
 * MEAS-05, MEAS-09 and MEAS-13. */
export function inspectNewest(quantity: Quantity, facts: SafetyFacts): Inspection {
  const measurement = newest(quantity, facts);
  if (measurement === null) {
    const missing = unknownBecause('missing', quantity);
    return { measurement, answers: [], usable: null, worst: missing };
  }
  const answers = [
    { ruleId: 'MEAS-09', answer: isInRange(measurement, facts.nowMs) },
    { ruleId: 'MEAS-01', answer: agreesWithItsTwin(measurement, facts) },
    { ruleId: 'MEAS-02', answer: hasUncertainty(measurement) },
    { ruleId: 'MEAS-03', answer: isAfterLastChange(measurement, facts) },
    { ruleId: 'MEAS-04', answer: isYoungEnough(measurement, facts) },
    ...(measurement.quantity === 'acidity'
      ? [{ ruleId: 'MEAS-05', answer: isCountedAsAcetic(measurement) }]
      : []),
    { ruleId: 'MEAS-13', answer: isMeasured(measurement) },
  ];
  const worst = answers.reduce<Answer>(
    (worstSoFar, { answer }) =>
      severity(answer.verdict) > severity(worstSoFar.verdict) ? answer : worstSoFar,
    okBecause({}),
  );
  const withheld = severity(worst.verdict) >= severity('unknown_measure_first');
  return { measurement, answers, usable: withheld ? null : interval(measurement), worst };
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

/**
 * Two readings of one thing that differ by more than their combined U show nothing. One thing: no change of composition
 * between them, and within a day for acidity, alcohol, salt and sulfite, or within an hour for what moves faster.
 */
export function agreesWithItsTwin(measurement: Measurement, facts: SafetyFacts): Answer {
  const span = SLOW.has(measurement.quantity) ? DAY_MS : HOUR_MS;
  const own = interval(measurement);
  for (const other of facts.measurements) {
    if (other === measurement || other.quantity !== measurement.quantity) continue;
    const apart = measurement.takenAtMs - other.takenAtMs;
    if (!(apart >= 0 && apart <= span) || other.provenance !== measurement.provenance) continue;
    if (isAfterLastChange(other, facts).verdict !== 'ok') continue;
    const twin = interval(other);
    if (own === null || twin === null) continue;
    const difference = Math.abs(own.value - twin.value);
    const combined = Math.hypot(own.uncertainty, twin.uncertainty);
    if (difference > combined) {
      return unknownBecause('readings_disagree', measurement.quantity, { difference, combined });
    }
  }
  return okBecause({});
}

const SLOW: ReadonlySet<Quantity> = new Set(['acidity', 'alcohol', 'salt', 'sulfite']);

/** MEAS-09: a number outside the plausible range of its quantity, or taken in the future, is not used. */
export function isInRange(measurement: Measurement, nowMs: EpochMs): Answer {
  const { quantity, value, takenAtMs } = measurement;
  const range = RANGES[quantity];
  const numbers = { value, low: range.low, high: range.high };
  const takenInTime = Number.isFinite(takenAtMs) && takenAtMs <= nowMs;
  if (value >= range.low && value <= range.high && takenInTime) return okBecause(numbers);
  return unknownBecause('implausible', quantity, numbers);
}

const RANGES: Readonly<Record<Quantity, { readonly low: number; readonly high: number }>> = {
  acidity: PLAUSIBLE.acidity,
  pH: PLAUSIBLE.pH,
  gravity: PLAUSIBLE.gravity,
  alcohol: PLAUSIBLE.alcohol,
  temperature: PLAUSIBLE.temperature,
  salt: PLAUSIBLE.salt,
  sulfite: PLAUSIBLE.freeSulfite,
  // A room holds at least the 400 ppm of open air; a sensor that shows less, or more than all air, is broken.
  carbonDioxide: { low: 300, high: 1_000_000 },
};

/** MEAS-02: no U, or one below the floor of its method, is replaced by the method's default. */
export function hasUncertainty(measurement: Measurement): Answer {
  const { value, uncertainty, method, quantity } = measurement;
  const effective = effectiveUncertainty({ value, givenUncertainty: uncertainty, method });
  if (effective === null) return unknownBecause('method', quantity, { value });
  const numbers = { value, uncertainty: effective.uncertainty };
  return effective.from === 'keeper' ? okBecause(numbers) : cautionBecause('default_uncertainty', numbers);
}

/** Events that leave the liquid as it was. Every other kind, known or not, makes a reading stale. */
const HARMLESS: ReadonlySet<EventKind> = new Set(['draw', 'split', 'seal', 'open', 'move']);

/**
 * MEAS-03: a reading describes the vessel only until its composition changes. An event at the very moment of the
 * reading counts as after it, because the order is not known.
 */
export function isAfterLastChange(measurement: Measurement, facts: SafetyFacts): Answer {
  const { quantity, takenAtMs } = measurement;
  const later = facts.compositionEvents.find(
    (event) => !HARMLESS.has(event.kind) && !(event.atMs < takenAtMs),
  );
  if (!later) return okBecause({ takenAtMs });
  return unknownBecause('stale_event', quantity, { takenAtMs, changedAtMs: later.atMs, change: later.kind });
}

/** MEAS-04: the greatest age of a reading for a verdict; a caution from four fifths of it. */
export function isYoungEnough(measurement: Measurement, facts: SafetyFacts): Answer {
  const { quantity, takenAtMs } = measurement;
  const limitMs = greatestAgeMs(quantity, facts);
  const ageMs = facts.nowMs - takenAtMs;
  const numbers = { takenAtMs, ageMs, limitMs };
  if (!(ageMs <= limitMs)) return unknownBecause('stale_age', quantity, numbers);
  return ageMs >= 0.8 * limitMs ? cautionBecause('ageing', numbers) : okBecause(numbers);
}

const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;

/**
 * Greatest ages of MEAS-04. A vinegar that is bottled full or pasteurised, and not known to stand open, keeps its
 * acidity for 180 days; anything else, or not known, 14. Alcohol follows acidity, and sulfite and salt too: policy.
 */
function greatestAgeMs(quantity: Quantity, facts: SafetyFacts): number {
  switch (quantity) {
    case 'pH':
      return DAY_MS;
    case 'gravity':
      return 3 * DAY_MS;
    case 'carbonDioxide':
      return 10 * 60_000;
    case 'temperature':
      return DAY_MS;
    case 'acidity':
    case 'alcohol':
    case 'salt':
    case 'sulfite': {
      const closedUp = facts.bottledFull === true || facts.pasteurised === true;
      return closedUp && facts.openToAir !== true ? 180 * DAY_MS : 14 * DAY_MS;
    }
  }
}

/**
 * MEAS-05: an acidity is compared as acetic acid in 100 mL. Another acid is converted; a percentage by mass is taken
 * over a density of 1.01 ± 1 %; fixed acid is taken off where it is known, and said to be unknown where it is not.
 */
export function isCountedAsAcetic(measurement: Measurement): Answer {
  if (measurement.quantity !== 'acidity') return okBecause({});
  const { acid, basis, value, fixedAcidGramsPer100Ml, provenance } = measurement;
  if (acid === null || basis === null) return unknownBecause('basis', 'acidity', { value });
  const asAcetic = interval(measurement)?.value ?? null;
  const numbers = { value, acid, basis, asAcetic };
  if (acid !== 'acetic' || basis !== 'w/v') return cautionBecause('converted', numbers);
  if (fixedAcidGramsPer100Ml === null && provenance !== 'boughtLabel') {
    return cautionBecause('fixed_acid_unknown', numbers);
  }
  return okBecause(numbers);
}

/** MEAS-13: a calculated number may warn or forbid but never clear a limit; a guess is nothing. */
export function isMeasured(measurement: Measurement): Answer {
  switch (measurement.provenance) {
    case 'measured':
    case 'boughtLabel':
      return okBecause({ provenance: measurement.provenance });
    case 'calculated':
      return cautionBecause('calculated_only', { provenance: 'calculated' });
    case 'guessed':
      return unknownBecause('guessed', measurement.quantity, { provenance: 'guessed' });
    default:
      return unknownBecause('guessed', 'acidity', {});
  }
}

/** Density of vinegar, g/mL, for a percentage by mass. Source: OpenStax Chemistry 2e gives 1.007 at 5 %; ±1 %. */
const VINEGAR_DENSITY = 1.01;
const VINEGAR_DENSITY_UNCERTAINTY = 0.01;

/** The number with its U as a rule compares it: acidity as acetic g/100 mL with the fixed acid off, others as they are. */
function interval(measurement: Measurement): { readonly value: number; readonly uncertainty: number } | null {
  const { value, uncertainty, method } = measurement;
  const effective = effectiveUncertainty({ value, givenUncertainty: uncertainty, method });
  if (effective === null) return null;
  if (measurement.quantity !== 'acidity') return { value, uncertainty: effective.uncertainty };
  const { acid, basis, fixedAcidGramsPer100Ml } = measurement;
  if (acid === null || basis === null) return null;
  const factor = acidityFactor({ from: acid, to: 'acetic' }) * (basis === 'w/w' ? VINEGAR_DENSITY : 1);
  const total = value * factor;
  const densityPart = basis === 'w/w' ? total * VINEGAR_DENSITY_UNCERTAINTY : 0;
  return {
    value: total - (fixedAcidGramsPer100Ml ?? 0),
    uncertainty: Math.hypot(effective.uncertainty * factor, densityPart),
  };
}
