import type { ShelfRow } from '#core/contract/shelves.ts';
import { client } from '../backend/call.ts';
import { faults } from '../cellar/faults.svelte.ts';

export type VesselWanted = 'empty' | 'filled' | 'any' | 'holdsCulture';

const PAUSE_MS = 120;
const LIMIT = 40;

/** Looks for vessels while the keeper types; an answer to an older text never replaces one to a newer. */
export class VesselSearch {
  rows = $state.raw<readonly ShelfRow[]>([]);
  /** True until the newest text has been answered. */
  looking = $state(false);
  #asked = 0;
  #timer: ReturnType<typeof setTimeout> | undefined;

  look(wanted: VesselWanted, text: string, pauseMs = PAUSE_MS): void {
    clearTimeout(this.#timer);
    this.looking = true;
    this.#timer = setTimeout(() => void this.#ask(wanted, text), pauseMs);
  }

  stop(): void {
    clearTimeout(this.#timer);
    this.#asked += 1;
  }

  async #ask(wanted: VesselWanted, text: string): Promise<void> {
    const ask = (this.#asked += 1);
    try {
      const rows = await client.shelves.choose({ wanted, text: text.trim().slice(0, 200), limit: LIMIT });
      if (ask !== this.#asked) return;
      this.rows = rows;
    } catch (error) {
      if (ask === this.#asked) faults.report(error);
    } finally {
      if (ask === this.#asked) this.looking = false;
    }
  }
}
