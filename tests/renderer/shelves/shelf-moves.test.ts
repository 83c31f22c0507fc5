import { describe, expect, it } from 'vitest';
import { layOut } from '#renderer/shelves/shelf-layout.ts';
import { firstSpot, moveFrom, type Move, type Spot } from '#renderer/shelves/shelf-moves.ts';

const jar = [{ silhouette: 'jar', capacityUl: 2e6 }] as const;
// Three shelves: eight places on one plank, none at all, and twenty on three planks of seven.
const layout = layOut({
  groups: [
    { key: 'a', slots: 8, tallest: jar },
    { key: 'b', slots: 0, tallest: [] },
    { key: 'c', slots: 20, tallest: jar },
  ],
  ...{ width: 800, density: 'roomy', zoom: 1, textScale: 1 },
});
const go = (from: Spot, ...moves: Move[]): Spot =>
  moves.reduce((spot, move) => moveFrom(layout, spot, move, 400), from);
const at = (group: number, slot: number): Spot => ({ group, slot });

describe('moving over the shelves', () => {
  it('goes along a shelf and stops at its ends', () => {
    expect(go(at(0, 0), 'left')).toEqual(at(0, 0));
    expect(go(at(0, 6), 'right', 'right')).toEqual(at(0, 7));
  });

  it('goes on from plank to plank of the same shelf', () => {
    expect(go(at(2, 6), 'right')).toEqual(at(2, 7));
    expect(go(at(2, 7), 'left')).toEqual(at(2, 6));
    expect(go(at(2, 19), 'right')).toEqual(at(2, 19));
  });

  it('goes up and down to what stands nearest, over a shelf with nothing', () => {
    expect(go(at(0, 0), 'down')).toEqual(at(2, 0));
    expect(go(at(0, 7), 'down')).toEqual(at(2, 6));
    expect(go(at(2, 0), 'up')).toEqual(at(0, 0));
    expect(go(at(2, 6), 'up')).toEqual(at(0, 7));
    expect(go(at(0, 3), 'up')).toEqual(at(0, 3));
  });

  it('knows the ends of a plank and of the cellar', () => {
    expect(go(at(2, 9), 'rowStart')).toEqual(at(2, 7));
    expect(go(at(2, 9), 'rowEnd')).toEqual(at(2, 13));
    expect(go(at(2, 9), 'first')).toEqual(at(0, 0));
    expect(go(at(0, 2), 'last')).toEqual(at(2, 19));
    expect(firstSpot(layout)).toEqual(at(0, 0));
  });

  it('goes a screen at a time, at least one plank, and stays inside', () => {
    expect(go(at(0, 0), 'pageDown').group).toBe(2);
    expect(go(at(2, 19), 'pageDown')).toEqual(at(2, 19));
    expect(go(at(2, 14), 'pageUp', 'pageUp', 'pageUp')).toEqual(at(0, 0));
    expect(moveFrom(layout, at(2, 0), 'pageDown', 1)).toEqual(at(2, 7));
  });

  it('every way back leads home from a plank of the same width', () => {
    for (let slot = 0; slot < 13; slot++) {
      const down = go(at(2, slot), 'down');
      if (down.slot < 14) expect(go(down, 'up')).toEqual(at(2, slot));
    }
  });

  it('begins at the first when the spot is gone', () => {
    expect(go(at(9, 3), 'right')).toEqual(at(0, 0));
  });
});
