import type { BookOfVessel } from '#core/contract/shelves.ts';
import type { VesselId } from '#core/ledger/ids.ts';
import { safe } from '@orpc/client';
import { client } from '../backend/call.ts';
import { faults } from '../cellar/faults.svelte.ts';

/** What the book weighs in some vessels, in their order. A vessel that has been emptied meanwhile is left out. */
export class BookOfVessels {
  books = $state.raw<readonly BookOfVessel[] | null>(null);
  #asked = 0;

  async load(vesselIds: readonly VesselId[]): Promise<void> {
    const asked = (this.#asked += 1);
    try {
      const answers = await Promise.all(
        vesselIds.map((vesselId) => safe(client.shelves.bookOf({ vesselId }))),
      );
      if (asked !== this.#asked) return;
      const broken = answers.find(({ error, isDefined }) => error !== null && !isDefined);
      if (broken?.error) throw broken.error;
      this.books = answers.flatMap(({ data }) => data ?? []);
    } catch (error) {
      if (asked === this.#asked) faults.report(error);
    }
  }
}
