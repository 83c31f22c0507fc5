import { sizePx, MM_PER_PX } from '../marks/silhouettes.ts';
import type { ShelfGroup } from '#core/contract/shelves.ts';

export const DENSITIES = ['roomy', 'close', 'dots'] as const;
export type Density = (typeof DENSITIES)[number];

/** What a density asks for, in px at an interface size of 16 px to the rem; text parts grow with the rem. */
interface DensityMeasures {
  readonly slotMin: number;
  readonly slotMax: number;
  readonly figureScale: number;
  /** Heading above the vessels. */
  readonly head: number;
  /** Room above the tallest vessel for closures and tags. */
  readonly above: number;
  /** The edge of the plank that carries the tickets. */
  readonly face: number;
}

const MEASURES: Readonly<Record<Density, DensityMeasures>> = {
  roomy: { slotMin: 96, slotMax: 240, figureScale: 1, head: 34, above: 36, face: 44 },
  close: { slotMin: 64, slotMax: 120, figureScale: 0.6, head: 28, above: 20, face: 24 },
  dots: { slotMin: 28, slotMax: 28, figureScale: 0, head: 26, above: 0, face: 0 },
};

export const PLANK_TOP = 8;
/** Vessels stand a little back from the front edge of the plank's top. */
export const STANDS_BACK = 3;
export const PLANK_SHADE = 5;
/** Left and right of the vessels on a plank. */
export const SIDE_PAD = 12;
export const DOT_PITCH = 28;
const BESIDE_FIGURE = 12;
export const ZOOM_MIN = 0.5;
export const ZOOM_MAX = 2;

/** What is needed to lay a group out: how many slots it has and how large its largest vessels are. */
export interface LaidGroup {
  readonly key: string;
  readonly slots: number;
  readonly tallest: Readonly<ShelfGroup['tallest']>;
}

export interface LayoutAsk {
  readonly groups: readonly LaidGroup[];
  readonly width: number;
  readonly density: Density;
  /** 0.5 to 2: how large the vessels and their slots are drawn, apart from the size of the interface. */
  readonly zoom: number;
  /** How many px the interface's rem is, divided by 16. */
  readonly textScale: number;
}

/**
 * Where everything stands, worked out by arithmetic alone. A plank is one row: a shelf that is longer than the
 * window continues on further planks. Arrays are by plank unless named by group; lengths in px.
 */
export interface ShelfLayout {
  readonly density: Density;
  readonly mmPerPx: number;
  readonly width: number;
  readonly plankCount: number;
  readonly columnMax: number;
  /** One longer than there are planks: the last is the height of the whole. */
  readonly top: Float64Array;
  readonly groupOfPlank: Int32Array;
  readonly firstSlot: Int32Array;
  readonly slotCount: Int32Array;
  readonly slotWidth: Float32Array;
  readonly headHeight: Float32Array;
  readonly firstPlankOfGroup: Int32Array;
  readonly perPlankOfGroup: Int32Array;
  /** Height of the ticket edge. */
  readonly face: number;
  /** The base line of the vessels below a plank's top: `baseOf[plank]`. */
  readonly base: Float32Array;
}

/**
 * Lays the groups out on planks. Every number follows from the overview alone, before a single vessel is loaded, so
 * nothing moves while the rows arrive.
 */
export function layOut(ask: LayoutAsk): ShelfLayout {
  const { groups, density, textScale } = ask;
  const measures = MEASURES[density];
  const zoom = Math.min(ZOOM_MAX, Math.max(ZOOM_MIN, ask.zoom));
  const isDots = density === 'dots';
  const mmPerPx = isDots ? MM_PER_PX : MM_PER_PX / (measures.figureScale * zoom);
  const inner = Math.max(measures.slotMin, ask.width - 2 * SIDE_PAD);
  const face = measures.face * textScale;

  const planned = groups.map((group) => planGroup(group, { measures, isDots, zoom, mmPerPx, inner }));
  const plankCount = planned.reduce((sum, group) => sum + group.planks, 0);

  const top = new Float64Array(plankCount + 1);
  const groupOfPlank = new Int32Array(plankCount);
  const firstSlot = new Int32Array(plankCount);
  const slotCount = new Int32Array(plankCount);
  const slotWidth = new Float32Array(plankCount);
  const headHeight = new Float32Array(plankCount);
  const base = new Float32Array(plankCount);
  const firstPlankOfGroup = new Int32Array(groups.length);
  const perPlankOfGroup = new Int32Array(groups.length);

  let plank = 0;
  let columnMax = 0;
  for (const [g, plan] of planned.entries()) {
    firstPlankOfGroup[g] = plank;
    perPlankOfGroup[g] = plan.perPlank;
    const slots = groups[g]?.slots ?? 0;
    for (let p = 0; p < plan.planks; p++, plank++) {
      const count = Math.min(plan.perPlank, slots - p * plan.perPlank);
      const head = (isDots && p > 0 ? 0 : measures.head) * textScale;
      const under = isDots ? 0 : STANDS_BACK + face + PLANK_SHADE;
      const room = isDots
        ? DOT_PITCH * zoom
        : plan.tallest + measures.above * (density === 'roomy' ? 1 : textScale);
      groupOfPlank[plank] = g;
      firstSlot[plank] = p * plan.perPlank;
      slotCount[plank] = Math.max(0, count);
      slotWidth[plank] = plan.slotWidth;
      headHeight[plank] = head;
      base[plank] = head + room;
      const gap = isDots && p === plan.planks - 1 ? 6 : 0;
      top[plank + 1] = (top[plank] ?? 0) + Math.round(head + room + under + gap);
      columnMax = Math.max(columnMax, count);
    }
  }
  return {
    ...{ density, mmPerPx, width: ask.width, plankCount, columnMax, top, groupOfPlank, firstSlot, slotCount },
    ...{ slotWidth, headHeight, firstPlankOfGroup, perPlankOfGroup, face, base },
  };
}

interface GroupPlan {
  readonly planks: number;
  readonly perPlank: number;
  readonly slotWidth: number;
  readonly tallest: number;
}

function planGroup(
  group: LaidGroup,
  given: {
    readonly measures: DensityMeasures;
    readonly isDots: boolean;
    readonly zoom: number;
    readonly mmPerPx: number;
    readonly inner: number;
  },
): GroupPlan {
  const { measures, isDots, zoom, mmPerPx, inner } = given;
  let tallest = isDots ? 0 : sizePx('jar', 1_000_000, mmPerPx).height;
  let widest = 0;
  if (!isDots) {
    for (const { silhouette, capacityUl } of group.tallest) {
      const size = sizePx(silhouette, capacityUl, mmPerPx);
      tallest = Math.max(tallest, size.height);
      widest = Math.max(widest, size.width + BESIDE_FIGURE);
    }
  }
  const least = Math.max(measures.slotMin * (isDots ? zoom : Math.max(zoom, 0.65)), widest);
  const most = Math.max(1, Math.floor(inner / least));
  const planks = Math.max(1, Math.ceil(group.slots / most));
  const perPlank = isDots ? most : Math.max(1, Math.ceil(group.slots / planks));
  const slotMax = Math.max(least, measures.slotMax * zoom);
  const slotWidth = isDots ? least : Math.min(slotMax, inner / perPlank);
  return { planks, perPlank, slotWidth, tallest };
}

/** The plank at a height of the content, by binary search; clamped to the first and the last. */
export function plankAt(layout: ShelfLayout, y: number): number {
  let low = 0;
  let high = layout.plankCount - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((layout.top[middle] ?? 0) <= y) low = middle;
    else high = middle - 1;
  }
  return Math.max(0, low);
}

/** The planks from one height to another, `overscan` more on either side: first to last, both included. */
export function planksBetween(
  layout: ShelfLayout,
  from: number,
  to: number,
  overscan = 1,
): { readonly first: number; readonly last: number } {
  if (layout.plankCount === 0) return { first: 0, last: -1 };
  return {
    first: Math.max(0, plankAt(layout, from) - overscan),
    last: Math.min(layout.plankCount - 1, plankAt(layout, to) + overscan),
  };
}

/** Height of all planks together. */
export function totalHeight(layout: ShelfLayout): number {
  return layout.top[layout.plankCount] ?? 0;
}

/** The plank a slot of a group stands on; -1 when there is no such slot. */
export function plankOfSlot(layout: ShelfLayout, group: number, slot: number): number {
  const first = layout.firstPlankOfGroup[group];
  const per = layout.perPlankOfGroup[group];
  if (first === undefined || per === undefined || slot < 0) return -1;
  const plank = first + Math.floor(slot / per);
  return plank < layout.plankCount && layout.groupOfPlank[plank] === group ? plank : -1;
}

/** Left edge of a column of a plank. */
export function columnLeft(layout: ShelfLayout, plank: number, column: number): number {
  return SIDE_PAD + column * (layout.slotWidth[plank] ?? 0);
}

/** The slot under a point of the content, or null on the wall beside the slots. */
export function slotAt(
  layout: ShelfLayout,
  x: number,
  y: number,
): { readonly plank: number; readonly column: number } | null {
  if (layout.plankCount === 0 || y < 0 || y >= totalHeight(layout)) return null;
  const plank = plankAt(layout, y);
  const column = Math.floor((x - SIDE_PAD) / (layout.slotWidth[plank] ?? 1));
  if (column < 0 || column >= (layout.slotCount[plank] ?? 0)) return null;
  if (y - (layout.top[plank] ?? 0) < (layout.headHeight[plank] ?? 0)) return null;
  return { plank, column };
}

/** Which density a cellar of so many vessels is opened with. */
export function densityFor(vesselCount: number): Density {
  if (vesselCount <= 200) return 'roomy';
  return vesselCount <= 1500 ? 'close' : 'dots';
}
