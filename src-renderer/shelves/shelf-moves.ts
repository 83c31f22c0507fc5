import { columnLeft, plankAt, plankOfSlot, type ShelfLayout } from './shelf-layout.ts';

/** A place on the shelves: a group and a slot of it. */
export interface Spot {
  readonly group: number;
  readonly slot: number;
}

export type Move =
  'left' | 'right' | 'up' | 'down' | 'rowStart' | 'rowEnd' | 'first' | 'last' | 'pageUp' | 'pageDown';

/**
 * Where a move leads from a spot. Left and right go along the shelf, from plank to plank of the same group; up and
 * down go to what stands nearest above or below; a page is `pageHeight` px. A move that leads nowhere stays.
 */
export function moveFrom(layout: ShelfLayout, from: Spot, move: Move, pageHeight: number): Spot {
  const plank = plankOfSlot(layout, from.group, from.slot);
  if (plank < 0) return firstSpot(layout) ?? from;
  const column = from.slot - (layout.firstSlot[plank] ?? 0);
  const count = layout.slotCount[plank] ?? 0;
  switch (move) {
    case 'left':
      return plankOfSlot(layout, from.group, from.slot - 1) < 0 ? from : { ...from, slot: from.slot - 1 };
    case 'right':
      return hasSlot(layout, from.group, from.slot + 1) ? { ...from, slot: from.slot + 1 } : from;
    case 'rowStart':
      return spotAt(layout, plank, 0);
    case 'rowEnd':
      return spotAt(layout, plank, count - 1);
    case 'first':
      return firstSpot(layout) ?? from;
    case 'last':
      return lastSpot(layout) ?? from;
    case 'up':
      return toPlank(layout, from, plank, column, nextPlank(layout, plank, -1));
    case 'down':
      return toPlank(layout, from, plank, column, nextPlank(layout, plank, 1));
    case 'pageUp':
    case 'pageDown': {
      const step = move === 'pageUp' ? -1 : 1;
      const goal = plankAt(layout, (layout.top[plank] ?? 0) + step * pageHeight);
      const found = goal === plank ? nextPlank(layout, plank, step) : settledPlank(layout, goal, step);
      return toPlank(layout, from, plank, column, found);
    }
  }
}

/** The spot of a column of a plank. */
export function spotAt(layout: ShelfLayout, plank: number, column: number): Spot {
  const last = (layout.slotCount[plank] ?? 1) - 1;
  return {
    group: layout.groupOfPlank[plank] ?? 0,
    slot: (layout.firstSlot[plank] ?? 0) + Math.max(0, Math.min(last, column)),
  };
}

export function firstSpot(layout: ShelfLayout): Spot | null {
  const plank = settledPlank(layout, 0, 1);
  return plank < 0 ? null : spotAt(layout, plank, 0);
}

function lastSpot(layout: ShelfLayout): Spot | null {
  const plank = settledPlank(layout, layout.plankCount - 1, -1);
  return plank < 0 ? null : spotAt(layout, plank, (layout.slotCount[plank] ?? 1) - 1);
}

function hasSlot(layout: ShelfLayout, group: number, slot: number): boolean {
  const plank = plankOfSlot(layout, group, slot);
  return plank >= 0 && slot - (layout.firstSlot[plank] ?? 0) < (layout.slotCount[plank] ?? 0);
}

/** The next plank in a direction that has any slot; -1 when there is none. */
function nextPlank(layout: ShelfLayout, plank: number, step: -1 | 1): number {
  return settledPlank(layout, plank + step, step);
}

function settledPlank(layout: ShelfLayout, from: number, step: -1 | 1): number {
  for (let plank = from; plank >= 0 && plank < layout.plankCount; plank += step) {
    if ((layout.slotCount[plank] ?? 0) > 0) return plank;
  }
  return -1;
}

function toPlank(layout: ShelfLayout, from: Spot, plank: number, column: number, goal: number): Spot {
  if (goal < 0) return from;
  const middle = columnLeft(layout, plank, column + 0.5);
  const width = layout.slotWidth[goal] ?? 1;
  return spotAt(layout, goal, Math.round((middle - columnLeft(layout, goal, 0.5)) / width));
}
