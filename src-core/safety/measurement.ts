import type { EpochMs } from '../base/ports.ts';
import { ACETIC_PER_PERCENT_THEORY } from '../acid/acetification.ts';
import { PLAUSIBLE } from '../quantities/plausible.ts';
import type { EventKind, Measurement, Quantity, SafetyFacts, TitrationRecord } from './facts.ts';
import { highOf, intervalOf, uncertaintyOf, type Interval } from './interval.ts';
import { cautionBecause, okBecause, unknownBecause, type Answer } from './rule.ts';

export const MINUTE_MS = 60_000;
export const HOUR_MS = 60 * MINUTE_MS;
export const DAY_MS = 24 * HOUR_MS;

/**
 * MEAS-01, two readings of one thing: two that differ by more than their combined U show nothing. One thing is: no change of
 * composition between them, and within the span of {@link ONE_THING_MS}. A blended sample that is less sour than the brine it
 * lay in is no contradiction: the brine turns first (MEAS-12).
 */
export function agreesWithItsTwin(measurement: Measurement, facts: SafetyFacts): Answer {
  const span = ONE_THING_MS[measurement.quantity];
  const ofTheVessel = measurement.quantity !== 'carbonDioxide';
  const own = intervalOf(measurement);
  for (const other of facts.measurements) {
    if (other === measurement || other.quantity !== measurement.quantity) continue;
    const apart = measurement.takenAtMs - other.takenAtMs;
    if (!(apart >= 0 && apart <= span) || other.provenance !== measurement.provenance) continue;
    if (ofTheVessel && isAfterLastChange(other, facts).verdict !== 'ok') continue;
    if (isBrineOfTheSame(other, measurement)) continue;
    const twin = intervalOf(other);
    if (own === null || twin === null) continue;
    const difference = Math.abs(own.value - twin.value);
    const combined = Math.hypot(own.uncertainty, twin.uncertainty);
    if (difference > combined) {
      return unknownBecause('readings_disagree', measurement.quantity, { difference, combined });
    }
  }
  return okBecause({});
}

/**
 * How far apart two readings may lie and still be of one thing: the same day by safety-rules §4, conventions 5. A pH counts for
 * just under twelve hours, because kimchi is read every twelve (VEG-08) and falls between. A gravity, a temperature and the air
 * of a room move faster: an hour. What PRS-01 asks of gravities looks at all of 48 hours besides.
 */
const ONE_THING_MS: Readonly<Record<Quantity, number>> = {
  acidity: DAY_MS,
  alcohol: DAY_MS,
  salt: DAY_MS,
  sulfite: DAY_MS,
  pH: 12 * HOUR_MS - 1,
  gravity: HOUR_MS,
  temperature: HOUR_MS,
  carbonDioxide: HOUR_MS,
};

function isBrineOfTheSame(other: Measurement, blended: Measurement): boolean {
  if (other.quantity !== 'pH' || blended.quantity !== 'pH') return false;
  return other.sampleFrom === 'brine' && blended.sampleFrom === 'blended' && other.value <= blended.value;
}

/**
 * MEAS-02: no U, or one below the floor of its method, is replaced by the method's default; without a method, one below the
 * largest floor of the quantity's methods is none.
 */
export function hasUncertainty(measurement: Measurement): Answer {
  const { value, quantity } = measurement;
  const effective = uncertaintyOf(measurement);
  if (effective === null) return unknownBecause('method', quantity, { value });
  const numbers = { value, uncertainty: effective.uncertainty };
  return effective.from === 'keeper' ? okBecause(numbers) : cautionBecause('default_uncertainty', numbers);
}

/** Events that leave the liquid as it was. Every other kind, known or not, makes a reading stale. */
const HARMLESS: ReadonlySet<EventKind> = new Set(['draw', 'split', 'seal', 'open', 'move']);

/** True for an event that changes what is in the vessel, or that is not known not to. */
export function changesComposition(kind: EventKind): boolean {
  return !HARMLESS.has(kind);
}

/**
 * MEAS-03: a reading describes the vessel only until its composition changes. An event at the very moment of the reading
 * counts as after it, because the order is not known.
 */
export function isAfterLastChange(measurement: Measurement, facts: SafetyFacts): Answer {
  const { quantity, takenAtMs } = measurement;
  const later = facts.compositionEvents.find(
    (event) => changesComposition(event.kind) && !(event.atMs < takenAtMs),
  );
  if (!later) return okBecause({ takenAtMs });
  return unknownBecause('stale_event', quantity, { takenAtMs, changedAtMs: later.atMs, change: later.kind });
}

/** MEAS-04: the greatest age of a reading for a verdict; a caution from four fifths of it. */
export function isYoungEnough(measurement: Measurement, facts: SafetyFacts): Answer {
  const { quantity, takenAtMs } = measurement;
  const limitMs = greatestAgeMs(measurement, facts);
  const ageMs = facts.nowMs - takenAtMs;
  const numbers = { takenAtMs, ageMs, limitMs };
  if (!(ageMs <= limitMs)) return unknownBecause('stale_age', quantity, numbers);
  return ageMs >= 0.8 * limitMs ? cautionBecause('ageing', numbers) : okBecause(numbers);
}

/** pH below which vegetables need a reading only once a week. Source: rule VEG-01. */
const SOURED_PH = 4.6;

/**
 * Greatest ages of MEAS-04. A vinegar that is bottled full or pasteurised, and not known to stand open, keeps its acidity for
 * 180 days; anything else, or not known, 14. Alcohol follows acidity, and sulfite and salt too: policy. Vegetables are read
 * daily until they are clearly sour, then weekly.
 */
function greatestAgeMs(measurement: Measurement, facts: SafetyFacts): number {
  switch (measurement.quantity) {
    case 'pH': {
      const brined = facts.product === 'brinedVegetables' || facts.product === 'kimchi';
      const own = brined ? intervalOf(measurement) : null;
      return own !== null && highOf(own) < SOURED_PH ? 7 * DAY_MS : DAY_MS;
    }
    case 'gravity':
      return 3 * DAY_MS;
    case 'carbonDioxide':
      return 10 * MINUTE_MS;
    case 'temperature':
      return DAY_MS;
    case 'acidity':
    case 'alcohol':
    case 'salt':
    case 'sulfite':
      return closedUp(facts) ? 180 * DAY_MS : 14 * DAY_MS;
  }
}

/** Bottled full or pasteurised, and not known to stand open. */
export function closedUp(facts: SafetyFacts): boolean {
  return (facts.bottledFull === true || facts.pasteurised === true) && facts.openToAir !== true;
}

/**
 * MEAS-05: an acidity is compared as acetic acid in 100 mL. Another acid is converted; a percentage by mass is taken over a
 * density of 1.01 ± 1 %; fixed acid is taken off where it is known, and said to be unknown where it is not.
 */
export function isCountedAsAcetic(measurement: Measurement): Answer | null {
  if (measurement.quantity !== 'acidity') return null;
  const { acid, basis, value, fixedAcidGramsPer100Ml, provenance } = measurement;
  if (acid === null || basis === null) return unknownBecause('basis', 'acidity', { value });
  const numbers = { value, acid, basis, asAcetic: intervalOf(measurement)?.value ?? null };
  if (acid !== 'acetic' || basis !== 'w/v') return cautionBecause('converted', numbers);
  if (fixedAcidGramsPer100Ml === null && provenance !== 'boughtLabel') {
    return cautionBecause('fixed_acid_unknown', numbers);
  }
  return okBecause(numbers);
}

/** Sodium hydroxide checked within six months is good, within twelve it widens U to 15 %. Source: rule MEAS-06. */
const BASE_GOOD_MS = 183 * DAY_MS;
const BASE_LAST_MS = 366 * DAY_MS;
export const OLD_BASE_RELATIVE_UNCERTAINTY = 0.15;

/**
 * MEAS-06: weak sodium hydroxide and dissolved gas both make an acid look stronger than it is, so a home titration counts only
 * with its strength known and checked, its end point fit for the sample's colour, and its gas out.
 */
export function isSoundTitration(measurement: Measurement): Answer | null {
  if (measurement.quantity !== 'acidity' || measurement.provenance !== 'measured') return null;
  if (measurement.method === 'taLaboratory') return null;
  const record = measurement.titration ?? null;
  if (record === null || record.normality === null || !(record.normality > 0)) {
    return unknownBecause('method', 'normality', { normality: record?.normality ?? null });
  }
  const numbers = { normality: record.normality };
  if (record.endPoint === null) return unknownBecause('method', 'endPoint', numbers);
  if (record.endPoint === 'colour' && record.darkSample !== false) {
    return unknownBecause('method', 'endPoint', numbers);
  }
  if (record.fizzySample !== false && record.degassed !== true) {
    return unknownBecause('method', 'degassed', numbers);
  }
  return ageOfBase(record, measurement.takenAtMs);
}

function ageOfBase(record: TitrationRecord, takenAtMs: EpochMs): Answer {
  const { normality, baseCheckedAtMs, baseBoughtAtMs, baseNewlyOpened } = record;
  const checkedAge = baseCheckedAtMs === null ? Number.NaN : takenAtMs - baseCheckedAtMs;
  if (checkedAge >= 0 && checkedAge <= BASE_GOOD_MS) return okBecause({ normality, ageMs: checkedAge });
  if (baseNewlyOpened === true) return okBecause({ normality });
  const boughtAge = baseBoughtAtMs === null ? Number.NaN : takenAtMs - baseBoughtAtMs;
  const ages = [checkedAge, boughtAge].filter((age) => age >= 0);
  const ageMs = ages.length === 0 ? null : Math.min(...ages);
  return ageMs !== null && ageMs <= BASE_LAST_MS
    ? cautionBecause('widened', { normality, ageMs })
    : unknownBecause('uncalibrated', 'normality', { normality, ageMs });
}

/** Strips count only to here. Source: 21 CFR 114.80(a)(2), rule MEAS-07. */
const STRIP_PH_MAX = 4;

/** MEAS-07: above pH 4.0 paper is too coarse and a meter is needed. */
export function isFineEnoughForPh(measurement: Measurement): Answer | null {
  if (measurement.quantity !== 'pH') return null;
  const paper = measurement.method === 'phStripNarrow' || measurement.method === 'phStripWide';
  const numbers = { value: measurement.value, limit: STRIP_PH_MAX };
  if (!paper || measurement.value <= STRIP_PH_MAX) return okBecause(numbers);
  return unknownBecause('method', 'pH', numbers);
}

/** The smallest U of a meter calibrated within the week. Source: rule MEAS-08. */
export const WEEK_OLD_CALIBRATION_UNCERTAINTY = 0.2;

/** MEAS-08: a meter counts when it was calibrated that day, with a wider U within the week, and otherwise not. */
export function isCalibratedMeter(measurement: Measurement): Answer | null {
  if (measurement.quantity !== 'pH') return null;
  switch (measurement.method) {
    case 'phStripNarrow':
    case 'phStripWide':
      return null;
    case 'phMeterTwoBuffersToday':
      return okBecause({});
    case 'phMeterWithinAWeek':
      return cautionBecause('widened', { uncertainty: WEEK_OLD_CALIBRATION_UNCERTAINTY });
    default:
      return unknownBecause('uncalibrated', 'pH');
  }
}

/** MEAS-09: a number outside the plausible range of its quantity, or taken in the future, is not used; nor is a fixed acid. */
export function isInRange(measurement: Measurement, facts: SafetyFacts): Answer {
  const { quantity, value, takenAtMs } = measurement;
  const range = RANGES[quantity];
  const numbers = { value, low: range.low, high: range.high };
  const takenInTime = Number.isFinite(takenAtMs) && takenAtMs <= facts.nowMs;
  const fixed = measurement.quantity === 'acidity' ? (measurement.fixedAcidGramsPer100Ml ?? 0) : 0;
  const fixedInRange = fixed >= 0 && fixed <= RANGES.acidity.high;
  if (value >= range.low && value <= range.high && takenInTime && fixedInRange) return okBecause(numbers);
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

/** Evaporation may add so much to the acid that the alcohol could make. Policy, rule MEAS-10. */
const EVAPORATION = 1.1;

/**
 * MEAS-10: more acid than the alcohol used could have made means that one of the readings is wrong. Without an alcohol read
 * within a day of the acidity all there was counts as used: the higher ceiling.
 */
export function isWithinCeiling(measurement: Measurement, facts: SafetyFacts): Answer | null {
  if (measurement.quantity !== 'acidity') return null;
  const before = facts.beforeAcetification ?? null;
  const now = intervalOf(measurement);
  if (before === null || now === null) return null;
  const left = alcoholBeside(measurement, facts);
  const used = Math.max(0, before.alcohol.value - (left?.value ?? 0));
  const ceiling = (before.acidity.value + ACETIC_PER_PERCENT_THEORY * used) * EVAPORATION;
  const combined = Math.hypot(
    now.uncertainty,
    before.acidity.uncertainty,
    ACETIC_PER_PERCENT_THEORY * before.alcohol.uncertainty,
    ACETIC_PER_PERCENT_THEORY * (left?.uncertainty ?? 0),
  );
  const numbers = { value: now.value, ceiling, combined };
  if (now.value <= ceiling) return okBecause(numbers);
  return now.value - ceiling < combined
    ? cautionBecause('condition', numbers)
    : unknownBecause('implausible', 'acidity', numbers);
}

/** The newest sound alcohol within a day of an acidity, with its U; null where there is none. */
function alcoholBeside(acidity: Measurement, facts: SafetyFacts): Interval | null {
  const beside = facts.measurements
    .filter(({ quantity, provenance }) => quantity === 'alcohol' && provenance === 'measured')
    .filter(({ takenAtMs }) => Math.abs(takenAtMs - acidity.takenAtMs) <= DAY_MS && takenAtMs <= facts.nowMs)
    .filter((alcohol) => isInRange(alcohol, facts).verdict === 'ok')
    .toSorted((a, b) => a.takenAtMs - b.takenAtMs)
    .at(-1);
  return beside === undefined ? null : intervalOf(beside);
}

/** MEAS-12: of brined or pickled solids only the equilibrium pH counts, not that of the brine alone. */
export function isEquilibrium(measurement: Measurement, facts: SafetyFacts): Answer | null {
  if (measurement.quantity !== 'pH') return null;
  const { product } = facts;
  if (product !== 'brinedVegetables' && product !== 'kimchi' && product !== 'refrigeratorPickle') return null;
  const shown = measurement.sampleFrom === 'blended' || measurement.equilibriumShown === true;
  return shown ? okBecause({}) : unknownBecause('not_equilibrium', 'pH', { value: measurement.value });
}

/**
 * MEAS-13: a calculated number may warn or forbid but never clear a limit; a guess is nothing. A label speaks only of what was
 * bought with it.
 */
export function isMeasured(measurement: Measurement, facts: SafetyFacts): Answer {
  const { provenance } = measurement;
  switch (provenance === 'boughtLabel' && facts.origin !== 'bought' ? 'guessed' : provenance) {
    case 'measured':
    case 'boughtLabel':
      return okBecause({ provenance });
    case 'calculated':
      return cautionBecause('calculated_only', { provenance: 'calculated' });
    default:
      return unknownBecause('guessed', measurement.quantity, { provenance: measurement.provenance });
  }
}

/** Within so many degrees an uncorrected hydrometer still counts, with U larger by 0.001. Source: rule MEAS-14. */
const UNCORRECTED_DEGREES = 3;
export const UNCORRECTED_GRAVITY_UNCERTAINTY = 0.001;

/**
 * MEAS-14: a gravity counts when it was brought to the hydrometer's own temperature. A refractometer serves only before yeast
 * goes in, and no gravity says anything of sugar or alcohol once acetification has begun.
 */
export function isSoundGravity(measurement: Measurement, facts: SafetyFacts): Answer | null {
  if (measurement.quantity !== 'gravity') return null;
  // Where the instrument is not known it may have been a refractometer.
  if ((measurement.method ?? 'refractometer') === 'refractometer' && facts.pitched !== false) {
    return unknownBecause('method', 'gravity');
  }
  const acetifying = facts.acetificationBegun ?? (facts.product === 'vinegar' ? true : null);
  if (acetifying !== false) return unknownBecause('method', 'gravity');
  if (measurement.temperatureCorrected === true) return okBecause({});
  const off = measurement.degreesOff ?? null;
  return off !== null && Math.abs(off) <= UNCORRECTED_DEGREES
    ? cautionBecause('widened', { degreesOff: off })
    : unknownBecause('method', 'gravity', { degreesOff: off });
}
