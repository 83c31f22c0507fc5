import { safe } from '@orpc/client';
import type { VesselId } from '#core/ledger/ids.ts';
import { client } from '../backend/call.ts';
import { faults } from '../cellar/faults.svelte.ts';
import { changedAt, type VesselKnown } from './from-vessel.ts';

/** Lines of the book looked through for what went into the vessel last. */
const LINES = 200;

/** The vessel a reckoning is worked out for: its newest readings, and whether anything went in since. */
export class BenchVessel {
  known = $state.raw<VesselKnown | null>(null);
  /** True when the cellar has no such vessel any more. */
  gone = $state(false);
  #asked = 0;

  /** Reads the vessel; what was known stays in sight until the answer is there. Null puts it aside. */
  async load(vesselId: VesselId | null): Promise<void> {
    const asked = ++this.#asked;
    if (this.known?.detail.row.vesselId !== vesselId) this.known = null;
    this.gone = false;
    if (vesselId === null) return;
    try {
      const [found, lines] = await Promise.all([
        safe(client.shelves.vessel({ vesselId })),
        client.ledger.entries({ about: { kind: 'vessel', vesselId }, beforeSequence: null, limit: LINES }),
      ]);
      if (asked !== this.#asked) return;
      if (found.error !== null) {
        if (!found.isDefined) throw found.error;
        this.known = null;
        this.gone = true;
        return;
      }
      this.known = {
        detail: found.data,
        changedAtMs: sinceFilled(found.data.row.sinceMs, lines.entries, vesselId),
      };
    } catch (error) {
      if (asked === this.#asked) faults.report(error);
    }
  }
}

/** What went in before the vessel was last filled says nothing about what stands in it now. */
function sinceFilled(
  sinceMs: number | null,
  entries: Parameters<typeof changedAt>[0],
  vesselId: VesselId,
): number | null {
  return changedAt(
    entries.filter(({ happenedAtMs }) => sinceMs === null || happenedAtMs > sinceMs),
    vesselId,
  );
}
