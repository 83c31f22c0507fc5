import type { ShelfRow } from '#core/contract/shelves.ts';
import { client } from '../backend/call.ts';
import { faults } from '../cellar/faults.svelte.ts';

/** `emptyFirst` takes any vessel and lists the empty ones before the others. */
export type VesselWanted = 'empty' | 'filled' | 'any' | 'emptyFirst';

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
      const rows = await choose(wanted, text.trim().slice(0, 200));
      if (ask !== this.#asked) return;
      this.rows = rows;
    } catch (error) {
      if (ask === this.#asked) faults.report(error);
    } finally {
      if (ask === this.#asked) this.looking = false;
    }
  }
}

async function choose(wanted: VesselWanted, text: string): Promise<readonly ShelfRow[]> {
  if (wanted !== 'emptyFirst') return client.shelves.choose({ wanted, text, limit: LIMIT });
  const [empty, filled] = await Promise.all([
    client.shelves.choose({ wanted: 'empty', text, limit: LIMIT / 2 }),
    client.shelves.choose({ wanted: 'filled', text, limit: LIMIT / 2 }),
  ]);
  return [...empty, ...filled];
}
