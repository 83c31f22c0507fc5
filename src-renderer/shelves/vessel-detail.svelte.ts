import type { VesselDetail } from '#core/contract/shelves.ts';
import type { VesselId } from '#core/ledger/ids.ts';
import { isDefinedError, safe } from '@orpc/client';
import { client } from '../backend/call.ts';
import { faults } from '../cellar/faults.svelte.ts';

/** All that the side panel tells of one vessel. What was read before stays in sight until the new is there. */
export class VesselDetailState {
  detail = $state.raw<VesselDetail | null>(null);
  /** True when the vessel is no longer in the cellar. */
  gone = $state(false);
  #wanted: VesselId | null = null;

  async read(vesselId: VesselId): Promise<void> {
    if (this.#wanted !== vesselId) {
      this.detail = null;
      this.gone = false;
    }
    this.#wanted = vesselId;
    const { error, data } = await safe(client.shelves.vessel({ vesselId }));
    if (this.#wanted !== vesselId) return;
    if (error === null) {
      this.detail = data;
      this.gone = false;
    } else if (isDefinedError(error)) {
      this.detail = null;
      this.gone = true;
    } else faults.report(error);
  }
}
