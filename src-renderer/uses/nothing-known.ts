import type { SafetyFacts } from '#core/safety/facts.ts';

/** Facts of a vessel of which nothing is known: for asking one rule about what a form says, and nothing else. */
export function nothingKnown(nowMs: number): SafetyFacts {
  return {
    ...{ nowMs, measurements: [], compositionEvents: [], origin: 'home_made' },
    ...{ openToAir: null, liveCulture: null, bottledFull: null, pasteurised: null, addedWater: null },
    ...{ boughtLabelPercent: null, hoursSinceProcessing: null, jurisdiction: null, labelAudience: null },
  };
}
