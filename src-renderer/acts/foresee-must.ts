import { foresee, type Foreseen } from '#core/ferments/foresight.ts';
import { FERMENTS } from '#core/ferments/registry.ts';
import type { ReadingValues } from '#core/ledger/act.ts';
import type { BatchId, EntryId, VesselId } from '#core/ledger/ids.ts';
import type { FermentKind } from '#core/ledger/stage.ts';
import { roundedText } from '#core/quantities/round.ts';

/**
 * What a must that is only being measured may become, worked out as it will be once it stands in the book. Null where
 * its kind foresees none, no gravity is known, or it lies outside the published ranges. A forecast, never a reading.
 */
export function foreseeMust(values: ReadingValues | null, ferment: FermentKind | null): Foreseen | null {
  if (values === null || ferment === null) return null;
  return foresee({
    profile: FERMENTS[ferment],
    readings: [{ ...NOT_WRITTEN_YET, values }],
    yeastFromMs: null,
    motherFromMs: null,
  });
}

/** A reading that is in no book yet has no ids; the forecast asks for none. */
const NOT_WRITTEN_YET = {
  id: '' as EntryId,
  vesselId: '' as VesselId,
  batchId: '' as BatchId,
  writtenBy: '' as EntryId,
  atMs: 0,
};

/** The forecast in two sentences, plan and theory each by name. */
export function sayForeseen(foreseen: Foreseen): readonly string[] {
  const one = (value: number): string => roundedText(value, 1);
  const give = roundedText(foreseen.alcoholPlanUncertainty, 1, 'upper');
  return [
    `May become about ${one(foreseen.alcoholPlanPercent)} ± ${give}\u00A0% vol by plan; ${one(foreseen.alcoholTheoryPercent)}\u00A0% in theory.`,
    `As vinegar, then at most about ${one(foreseen.acidityPlanHighGramsPer100Ml)}\u00A0g/100\u00A0mL as acetic by plan; ${one(foreseen.acidityTheoryGramsPer100Ml)} in theory.`,
  ];
}
