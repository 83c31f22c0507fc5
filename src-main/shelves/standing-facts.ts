import { uncertaintiesOf } from '../safety/measurements.ts';
import type { DueAct } from '#core/schedule/round.ts';
import { acidityAsAcetic, correctedGravity } from '#core/ferments/interpret-reading.ts';
import { FERMENTS } from '#core/ferments/registry.ts';
import type { BatchRecord, FillRecord, ReadingRecord, VesselRecord } from '#core/ledger/records.ts';
import { dueChecks, type DueWindow } from '#core/schedule/due-check.ts';

export interface Standing {
  readonly vessel: VesselRecord;
  readonly fill: FillRecord;
  readonly batch: BatchRecord;
  /** Oldest first. */
  readonly readings: readonly ReadingRecord[];
  /** When the culture kept or at work here was last fed; null when never. */
  readonly fedAtMs: number | null;
  /** Since when this liquid has stood under the closure of its vessel; null while that closure is no concern. */
  readonly closureSinceMs: number | null;
}

/** All that is due of one standing liquid, most pressing first. */
export function dueOf(standing: Standing): DueWindow[] {
  const { vessel, fill, batch, readings, fedAtMs, closureSinceMs } = standing;
  const inStage = readings.filter((r) => r.atMs >= fill.stageSinceMs);
  const newestFirst = [...inStage].reverse();
  const withGravity = newestFirst.filter((r) => r.values.gravitySg !== null);
  // Only while yeast works does the run of gravities matter; otherwise when the newest was read is enough.
  const gravities = (fill.stage === 'yeast' ? withGravity : withGravity.slice(0, 1)).flatMap((r) => {
    const sg = correctedGravity(r.values);
    return sg === null ? [] : [{ atMs: r.atMs, sg }];
  });
  const acidities = newestFirst.flatMap((r) => {
    const gramsPer100Ml = acidityAsAcetic(r.values);
    return gramsPer100Ml === null ? [] : [{ atMs: r.atMs, gramsPer100Ml }];
  });
  const newestPh = newestFirst.find((r) => r.values.ph !== null);
  const ph = newestPh?.values.ph ?? null;
  const tasted = newestFirst.find((r) => r.values.taste !== '');
  const lastDoneMs: Partial<Record<DueAct, number>> = {};
  const done = (act: DueAct, atMs: number | null | undefined): void => {
    if (atMs !== null && atMs !== undefined) lastDoneMs[act] = atMs;
  };
  done('gravity', gravities[0]?.atMs);
  done('acidity', acidities[0]?.atMs);
  done('ph', newestPh?.atMs);
  done('taste', tasted?.atMs);
  done('look', newestFirst[0]?.atMs);
  done('feed', fedAtMs);
  return dueChecks({
    ...{ profile: FERMENTS[batch.ferment], stage: fill.stage, stageSinceMs: fill.stageSinceMs },
    ...{ closure: vessel.closure, closureSinceMs, gravities, lastDoneMs },
    acidity: acidities[0] ?? null,
    ph:
      newestPh === undefined || ph === null
        ? null
        : { atMs: newestPh.atMs, ph, uncertainty: uncertaintiesOf(newestPh).pH },
  });
}
