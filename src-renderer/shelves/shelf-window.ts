import { recycleRows } from './row-keys.ts';
import { planksBetween, type ShelfLayout } from './shelf-layout.ts';

/** Most cells that may be in the page at once. */
export const CELLS_MAX = 400;
/** In dots, cells stand only on the planks this near to the focused one. */
const DOT_ROWS_NEAR = 2;

/** A plank that is in the page now, in which recycled row, and whether with its cells. */
export interface DrawnRow {
  readonly plank: number;
  readonly row: number;
  readonly withCells: boolean;
}

/**
 * Chooses the planks that are in the page: those in sight and one more on either side, and always the one with the
 * focus. Rows are recycled from one choice to the next, and a choice that changes nothing is the same array.
 */
export class ShelfWindow {
  #rows = new Map<number, number>();
  #drawn: readonly DrawnRow[] = [];

  choose(given: {
    readonly layout: ShelfLayout;
    readonly scrollTop: number;
    readonly height: number;
    readonly focusPlank: number;
  }): readonly DrawnRow[] {
    const { layout, focusPlank } = given;
    const { first, last } = planksBetween(layout, given.scrollTop, given.scrollTop + given.height, 1);
    const isDots = layout.density === 'dots';
    const near = (plank: number): boolean => Math.abs(plank - focusPlank) <= DOT_ROWS_NEAR;
    const planks: number[] = [];
    for (let plank = first; plank <= last; plank++) {
      if (!isDots || near(plank) || (layout.headHeight[plank] ?? 0) > 0) planks.push(plank);
    }
    if (focusPlank >= 0 && focusPlank < layout.plankCount && !planks.includes(focusPlank)) {
      planks.push(focusPlank);
      planks.sort((a, b) => a - b);
    }
    const withCells = this.#planksWithCells(layout, planks, focusPlank, isDots ? near : () => true);
    this.#rows = recycleRows(this.#rows, planks);
    const drawn = planks.map((plank) => ({
      plank,
      row: this.#rows.get(plank) ?? 0,
      withCells: withCells.has(plank),
    }));
    if (!isSame(drawn, this.#drawn)) this.#drawn = drawn;
    return this.#drawn;
  }

  /** Cells are given out from the focused plank, else the first in sight, outwards until there are 400. */
  #planksWithCells(
    layout: ShelfLayout,
    planks: readonly number[],
    focusPlank: number,
    may: (plank: number) => boolean,
  ): Set<number> {
    const from = planks.includes(focusPlank) ? focusPlank : (planks[0] ?? 0);
    const chosen = new Set<number>();
    let cells = 0;
    for (const plank of [...planks].sort((a, b) => Math.abs(a - from) - Math.abs(b - from))) {
      if (!may(plank)) continue;
      cells += layout.slotCount[plank] ?? 0;
      if (cells > CELLS_MAX && chosen.size > 0) break;
      chosen.add(plank);
    }
    return chosen;
  }
}

function isSame(a: readonly DrawnRow[], b: readonly DrawnRow[]): boolean {
  return (
    a.length === b.length &&
    a.every((one, i) => one.plank === b[i]?.plank && one.row === b[i].row && one.withCells === b[i].withCells)
  );
}
