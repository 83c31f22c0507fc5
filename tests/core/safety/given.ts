import { evaluate } from '#core/safety/evaluate.ts';
import type { Ferment, Gauged, Inspection } from '#core/safety/facts-of-uses.ts';
import type {
  AcidityMeasurement,
  CompositionEvent,
  OtherMeasurement,
  SafetyFacts,
  TitrationRecord,
} from '#core/safety/facts.ts';
import { WHOLE_BOOK } from '#core/safety/rule-book.ts';
import type { Use } from '#core/safety/rule.ts';
import type { VerdictWord } from '#core/safety/verdict.ts';

export const NOW = Date.UTC(2026, 10, 25, 12);
export const HOUR = 3_600_000;
export const DAY = 24 * HOUR;

/** Facts of a finished, bottled vinegar of our own in the US, with nothing measured. */
export function facts(change: Partial<SafetyFacts> = {}): SafetyFacts {
  return {
    nowMs: NOW,
    measurements: [],
    compositionEvents: [],
    origin: 'home_made',
    openToAir: false,
    liveCulture: false,
    bottledFull: true,
    pasteurised: false,
    addedWater: false,
    boughtLabelPercent: null,
    hoursSinceProcessing: null,
    jurisdiction: 'us',
    labelAudience: 'gift',
    ...change,
  };
}

/** A titration of an hour ago with its fixed acid known to be none. */
export function acidity(value: number, change: Partial<AcidityMeasurement> = {}): AcidityMeasurement {
  return {
    quantity: 'acidity',
    value,
    uncertainty: 0.2,
    method: 'taBurette',
    provenance: 'measured',
    takenAtMs: NOW - HOUR,
    acid: 'acetic',
    basis: 'w/v',
    fixedAcidGramsPer100Ml: 0,
    ...change,
  };
}

export function other(
  quantity: OtherMeasurement['quantity'],
  value: number,
  change: Partial<OtherMeasurement> = {},
): OtherMeasurement {
  return {
    quantity,
    value,
    uncertainty: 0.2,
    method: null,
    provenance: 'measured',
    takenAtMs: NOW - HOUR,
    ...change,
  };
}

export function event(kind: CompositionEvent['kind'], atMs: number): CompositionEvent {
  return { kind, atMs };
}

/** What one rule of the whole book says of a use of these facts; undefined where it does not speak. */
export function says(ruleId: string, use: Use, change: Partial<SafetyFacts> = {}): string | undefined {
  const { findings } = evaluate(use, facts(change), WHOLE_BOOK);
  const found = findings.find((finding) => finding.ruleId === ruleId);
  return found && `${found.verdict} ${found.reason}`;
}

/** The word of the whole book for a use. */
export function word(use: Use, change: Partial<SafetyFacts> = {}): VerdictWord {
  return evaluate(use, facts(change), WHOLE_BOOK).word;
}

/** A fresh pH by a meter calibrated today, of solids and brine alike. */
export function ph(value: number, change: Partial<OtherMeasurement> = {}): OtherMeasurement {
  const method = 'phMeterTwoBuffersToday' as const;
  return other('pH', value, { uncertainty: 0.1, method, sampleFrom: 'blended', ...change });
}

/** A gravity by a hydrometer brought to its own temperature. */
export function gravity(value: number, change: Partial<OtherMeasurement> = {}): OtherMeasurement {
  const corrected = { method: 'hydrometer', temperatureCorrected: true } as const;
  return other('gravity', value, { uncertainty: 0.001, ...corrected, ...change });
}

export const TITRATION: TitrationRecord = {
  normality: 0.1,
  baseCheckedAtMs: NOW - 30 * DAY,
  baseBoughtAtMs: null,
  baseNewlyOpened: null,
  endPoint: 'colour',
  darkSample: false,
  fizzySample: false,
  degassed: null,
};

/** A titration of which everything was written down. */
export function titrated(value: number, change: Partial<AcidityMeasurement> = {}): AcidityMeasurement {
  return acidity(value, { titration: TITRATION, ...change });
}

/** A look of an hour ago that found nothing. */
export const CLEAN: Inspection = {
  atMs: NOW - HOUR,
  growth: 'none',
  undecidedSinceMs: null,
  smell: 'clean',
  solventSinceMs: null,
  flies: 'none',
  cover: 'closed',
  eels: 'absent',
  texture: 'sound',
};

export function gauged(value: number, uncertainty: number | null = 0.5): Gauged {
  return { value, uncertainty, method: 'thermometer' };
}

export function fermentingSince(ms: number, change: Partial<Ferment> = {}): Ferment {
  return { startedAtMs: ms, meanCelsius: null, hoursAbove27Celsius: null, inRefrigerator: null, ...change };
}
