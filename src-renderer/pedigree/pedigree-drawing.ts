import type { Pedigree, PedigreeNode, PedigreeRoot } from '#core/contract/pedigree.ts';
import { byGeneration, joinSteps, type Joined } from './pedigree-shape.ts';

/** No more than this many are drawn: beyond it a drawing tells nothing any more. The list has all. */
export const DRAWN_MAX = 200;
/** Lines of words beside one node; the list has the others. */
const LABELS_MAX = 3;

/** Sizes in units of the drawing, one unit being a sixteenth of the size of type. */
export const SIZES = { width: 208, height: 52, across: 156, below: 12, margin: 24 } as const;

export interface DrawnNode {
  readonly node: PedigreeNode;
  readonly x: number;
  readonly y: number;
}

export interface DrawnStep {
  readonly step: Joined;
  readonly path: string;
  /** Where its words stand; null where there is no room for more of them. */
  readonly label: { readonly x: number; readonly y: number } | null;
}

export interface Drawing {
  readonly nodes: readonly DrawnNode[];
  readonly steps: readonly DrawnStep[];
  readonly width: number;
  readonly height: number;
  /** How many are in the list and not drawn. */
  readonly leftOut: number;
}

/** Lays a pedigree out from left to right as time goes: a column a generation, the nearest to what was asked of first. */
export function drawPedigree(pedigree: Pedigree, of: PedigreeRoot, max = DRAWN_MAX): Drawing {
  const generations = byGeneration(pedigree, of);
  let room = max;
  const kept = generations
    .toSorted((a, b) => Math.abs(a.number) - Math.abs(b.number))
    .map(({ number, nodes }) => {
      const taken = nodes.slice(0, Math.max(0, room));
      room -= taken.length;
      return { number, nodes: taken };
    })
    .filter(({ nodes }) => nodes.length > 0);
  const onward = pedigree.direction === 'onward';
  const columns = kept.toSorted((a, b) => (onward ? a.number - b.number : b.number - a.number));
  const placed = placeAll(columns, kept, pedigree);
  const steps = joinSteps(pedigree.steps).filter(({ from, to }) => placed.has(from) && placed.has(to));
  const labelled = new Map<string, number>();
  const drawn = steps.map((step): DrawnStep => {
    const [from, to] = [placed.get(step.from), placed.get(step.to)] as [DrawnNode, DrawnNode];
    const end = onward ? step.to : step.from;
    const nth = labelled.get(end) ?? 0;
    labelled.set(end, nth + 1);
    const x = onward ? to.x - 8 : from.x + SIZES.width + 8;
    const y = (onward ? to.y : from.y) + 14 + nth * 15;
    return { step, path: curve(from, to), label: nth < LABELS_MAX ? { x, y } : null };
  });
  const tallest = Math.max(0, ...columns.map(({ nodes }) => nodes.length));
  return {
    nodes: [...placed.values()],
    steps: drawn,
    width: 2 * SIZES.margin + columns.length * (SIZES.width + SIZES.across) - SIZES.across,
    height: 2 * SIZES.margin + tallest * (SIZES.height + SIZES.below),
    leftOut: pedigree.nodes.length - placed.size,
  };
}

interface Column {
  readonly number: number;
  readonly nodes: readonly PedigreeNode[];
}

/** Each column in the middle of the height, its nodes in the order of those they hang on. */
function placeAll(
  columns: readonly Column[],
  nearestFirst: readonly Column[],
  { steps }: Pedigree,
): ReadonlyMap<string, DrawnNode> {
  const tallest = Math.max(0, ...columns.map(({ nodes }) => nodes.length));
  const linked = new Map<string, string[]>();
  for (const { from, to } of steps) {
    linked.set(from, [...(linked.get(from) ?? []), to]);
    linked.set(to, [...(linked.get(to) ?? []), from]);
  }
  const placed = new Map<string, DrawnNode>();
  for (const column of nearestFirst) {
    const at = columns.findIndex(({ number }) => number === column.number);
    const x = SIZES.margin + at * (SIZES.width + SIZES.across);
    const heightOf = ({ key }: PedigreeNode): number => {
      const ys = (linked.get(key) ?? []).flatMap((other) => placed.get(other)?.y ?? []);
      return ys.length === 0 ? 0 : ys.reduce((sum, y) => sum + y, 0) / ys.length;
    };
    const top = SIZES.margin + ((tallest - column.nodes.length) * (SIZES.height + SIZES.below)) / 2;
    const ordered = column.nodes
      .map((node) => ({ node, wanted: heightOf(node) }))
      .toSorted((a, b) => a.wanted - b.wanted);
    for (const [nth, { node }] of ordered.entries()) {
      placed.set(node.key, { node, x, y: top + nth * (SIZES.height + SIZES.below) });
    }
  }
  return placed;
}

/** A line that goes with time leaves on the right and comes in on the left; one to the same column or back stays clear of the boxes between. */
function curve(from: DrawnNode, to: DrawnNode): string {
  const startY = from.y + SIZES.height / 2;
  const endY = to.y + SIZES.height / 2;
  if (to.x > from.x) return bent(from.x + SIZES.width, startY, to.x, endY);
  if (to.x === from.x) {
    const out = from.x - Math.min(40, 20 + Math.abs(endY - startY) / 12);
    return `M${from.x} ${startY}C${out} ${startY} ${out} ${endY} ${to.x} ${endY}`;
  }
  return bent(from.x, startY, to.x + SIZES.width, endY);
}

function bent(startX: number, startY: number, endX: number, endY: number): string {
  const bend = (endX - startX) / 2;
  return `M${startX} ${startY}C${startX + bend} ${startY} ${endX - bend} ${endY} ${endX} ${endY}`;
}
