import type {
  AcidityMeasurement,
  CompositionEvent,
  OtherMeasurement,
  SafetyFacts,
} from '#core/safety/facts.ts';

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
