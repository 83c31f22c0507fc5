import type { TastingRow } from '#core/contract/tastings.ts';
import type { BatchId } from '#core/ledger/ids.ts';
import { client } from '../backend/call.ts';
import { faults } from '../cellar/faults.svelte.ts';

/** The tastings of one batch, oldest first. */
export class TastingsState {
  rows = $state.raw<readonly TastingRow[]>([]);
  #asked = 0;

  async load(batchId: BatchId): Promise<void> {
    const asked = ++this.#asked;
    try {
      const rows = await client.tastings.of({ batchId });
      if (asked === this.#asked) this.rows = rows;
    } catch (error) {
      if (asked === this.#asked) faults.report(error);
    }
  }
}
