import type { BookOfVessel } from '#core/contract/shelves.ts';
import { bookFindings } from '#core/ferments/book-findings.ts';
import { blendAge } from '#core/ledger/blend-age.ts';
import type { VesselId } from '#core/ledger/ids.ts';
import type { RecordStore } from '../ledger/record-store.ts';
import type { LiquidStory } from './liquid-story.ts';
import type { ShelvesProjection } from './shelves-projection.ts';

/** Readings looked at; older ones have long been settled. */
const READINGS = 200;

/** What the book weighs in a vessel, against what was read of it. */
export interface BooksOfVessels {
  /** Null when nothing stands in it. */
  of(vesselId: VesselId, nowMs: number): BookOfVessel | null;
}

export function openBooksOfVessels(
  records: RecordStore,
  shelves: ShelvesProjection,
  story: LiquidStory,
): BooksOfVessels {
  return {
    of(vesselId, nowMs) {
      const standing = shelves.standing(vesselId, READINGS);
      if (standing === null) return null;
      const { fill, batch, readings } = standing;
      const origins = Object.entries(fill.origins).map(([id, tokens]) => ({
        tokens,
        bornAtMs: records.get('batch', id)?.startedAtMs ?? batch.startedAtMs,
      }));
      const since = Math.max(fill.settledAtMs, fill.composedAtMs);
      const findings = bookFindings({
        ...{ ferment: batch.ferment, stage: fill.stage, liquid: fill },
        readings: readings.filter(({ atMs }) => atMs >= since),
        foreseen: story.foresight(batch),
      });
      return {
        ...{ vesselId, volumeUl: fill.volumeUl, massesUg: fill.massesUg },
        age: blendAge(origins, nowMs),
        findings: findings.map((found) => ({ ...found, steps: [...found.steps] })),
      };
    },
  };
}
