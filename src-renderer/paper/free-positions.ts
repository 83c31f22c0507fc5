import type { ShelfGroup, ShelfRow } from '#core/contract/shelves.ts';

/** The free places of a shelf, runs taken together: `A3, A5 to A8`; '' where none is free or nothing has places. */
export function freePositions(
  { letter, positions }: Pick<ShelfGroup, 'letter' | 'positions'>,
  rows: readonly Pick<ShelfRow, 'position'>[],
): string {
  const taken = new Set(rows.map(({ position }) => position));
  const runs: [number, number][] = [];
  for (let at = 1; at <= (positions ?? 0); at += 1) {
    if (taken.has(at)) continue;
    const last = runs.at(-1);
    if (last?.[1] === at - 1) last[1] = at;
    else runs.push([at, at]);
  }
  const code = (at: number): string => `${letter ?? ''}${at}`;
  return runs.map(([from, to]) => (from === to ? code(from) : `${code(from)} to ${code(to)}`)).join(', ');
}
