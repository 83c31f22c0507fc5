import type { Place } from '#core/contract/shelves.ts';
import { client } from '../backend/call.ts';
import { cellar } from '../cellar/cellar-state.svelte.ts';
import { faults } from '../cellar/faults.svelte.ts';
import type { Standing } from './build-vessels.ts';

/** The shelves there are, and which positions of one of them are free. */
export class ShelfSpots {
  places = $state.raw<readonly Place[] | null>(null);
  standing = $state.raw<Standing | null>(null);
  #asked = 0;

  /** Every shelf as a choice, under its place: `A, Top shelf (Pantry)`. */
  options = $derived(
    (this.places ?? []).flatMap((place) =>
      place.shelves.map((shelf) => ({
        value: shelf.shelfId,
        label: `${shelf.letter}, ${shelf.name} (${place.name})${shelf.firstFree === null ? ', full' : ''}`,
      })),
    ),
  );

  async load(): Promise<void> {
    try {
      this.places = await client.shelves.places();
    } catch (error) {
      faults.report(error);
    }
  }

  /** Looks which positions of a shelf are free, one vessel counted as not standing there. */
  async look(shelfId: string, withoutVesselId: string | null = null): Promise<Standing | null> {
    const ask = (this.#asked += 1);
    const shelf = this.places?.flatMap(({ shelves }) => shelves).find((each) => each.shelfId === shelfId);
    if (shelf === undefined) {
      this.standing = null;
      return null;
    }
    try {
      const input = {
        grouping: 'place',
        key: shelfId,
        today: cellar.today(),
        offset: 0,
        limit: 2000,
      } as const;
      const { rows } = await client.shelves.page(input);
      if (ask !== this.#asked) return null;
      const taken = new Set(
        rows.filter(({ vesselId }) => vesselId !== withoutVesselId).map(({ position }) => position),
      );
      const all = Array.from({ length: shelf.positions }, (_, at) => at + 1);
      this.standing = {
        freePositions: all.filter((position) => !taken.has(position)),
        positions: shelf.positions,
      };
      return this.standing;
    } catch (error) {
      if (ask === this.#asked) faults.report(error);
      return null;
    }
  }
}
