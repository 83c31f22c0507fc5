import type { HouseRules } from '#core/contract/house-rules.ts';
import type { Verdict } from '#core/contract/verdict.ts';
import { FERMENTS } from '#core/ferments/registry.ts';
import type { ComposedBy, ReadingRecord } from '#core/ledger/records.ts';
import type { Method } from '#core/quantities/uncertainty.ts';
import { evaluate } from '#core/safety/evaluate.ts';
import type { CompositionEvent, EventKind, Measurement, SafetyFacts } from '#core/safety/facts.ts';
import type { Standing } from '../shelves/standing-facts.ts';

export interface VerdictContext {
  readonly rules: Pick<HouseRules, 'jurisdiction'>;
  readonly nowMs: number;
  readonly cutWithWater: boolean;
}

/** What the rules say of each use its kind of ferment is asked about. Worked out now, from the book and the time of asking. */
export function verdictsOf(standing: Standing, context: VerdictContext): Verdict[] {
  const facts = safetyFacts(standing, context);
  return FERMENTS[standing.batch.ferment].uses.map((use) => {
    const { word, findings, measureNext } = evaluate(use, facts);
    return {
      ...{ use, word, measureNext },
      findings: findings.map((f) => ({ ...f, numbers: { ...f.numbers }, sourceIds: [...f.sourceIds] })),
    };
  });
}

function safetyFacts({ vessel, fill, readings }: Standing, context: VerdictContext): SafetyFacts {
  const composed = EVENT_BY_CAUSE[fill.composedBy];
  const compositionEvents: CompositionEvent[] =
    composed === null ? [] : [{ atMs: fill.composedAtMs, kind: composed }];
  return {
    ...{ nowMs: context.nowMs, measurements: readings.flatMap(measurementsOf), compositionEvents },
    // Whatever stands in this cellar was made in it: nothing bought is ever taken for tested vinegar.
    origin: 'home_made',
    openToAir: vessel.closure === 'cloth' || vessel.closure === 'open',
    liveCulture: fill.stage === 'vinegar' || fill.cultureId !== null ? true : null,
    ...{ bottledFull: null, pasteurised: null, addedWater: context.cutWithWater },
    ...{ boughtLabelPercent: null, hoursSinceProcessing: null },
    ...{ jurisdiction: context.rules.jurisdiction, labelAudience: null },
  };
}

/** What put the liquid together last, as the rules name it. Null: nothing has been put in since the batch began. */
const EVENT_BY_CAUSE: Readonly<Record<ComposedBy, EventKind | null>> = {
  start: null,
  clean: null,
  water: 'addWater',
  juice: 'addJuice',
  sugar: 'addSugar',
  honey: 'addHoney',
  fruit: 'addFruit',
  salt: 'addSalt',
  acid: 'addAcid',
  sulfite: 'sulfite',
  nutrient: 'addFruit',
  other: 'addFruit',
  blend: 'blend',
  seed: 'refill',
};

const ACIDITY_METHOD: Readonly<Record<string, Method>> = {
  syringeKit: 'taSyringeKit',
  burette: 'taBurette',
  laboratory: 'taLaboratory',
};
const PH_METHOD: Readonly<Record<string, Method>> = {
  meterToday: 'phMeterTwoBuffersToday',
  meterThisWeek: 'phMeterWithinAWeek',
  narrowStrip: 'phStripNarrow',
  wideStrip: 'phStripWide',
};

function measurementsOf({ values, atMs }: ReadingRecord): Measurement[] {
  const found: Measurement[] = [];
  if (values.acidityGramsPer100Ml !== null) {
    found.push({
      ...{ quantity: 'acidity', value: values.acidityGramsPer100Ml, uncertainty: values.acidityUncertainty },
      method: values.acidityMethod === null ? null : (ACIDITY_METHOD[values.acidityMethod] ?? null),
      // A label says nothing of what was made here, so a number copied from one is a guess.
      provenance: values.acidityMethod === 'label' ? 'guessed' : 'measured',
      ...{ takenAtMs: atMs, acid: values.acidityAs, basis: 'w/v', fixedAcidGramsPer100Ml: null },
    });
  }
  if (values.ph !== null) {
    const method = values.phMethod === null ? null : (PH_METHOD[values.phMethod] ?? null);
    found.push({
      quantity: 'pH',
      value: values.ph,
      uncertainty: null,
      method,
      provenance: 'measured',
      takenAtMs: atMs,
    });
  }
  if (values.alcoholPercentVolume !== null) {
    found.push({
      ...{ quantity: 'alcohol', value: values.alcoholPercentVolume, uncertainty: null },
      ...{ method: null, provenance: 'measured', takenAtMs: atMs },
    });
  }
  return found;
}
