/**
 * Which drawn row shows which plank. A plank that stays in sight keeps its row, and a row set free by a plank that
 * left is used again for one that came: the page's elements are recycled and the focused one is never moved.
 * Takes the rows of the moment before by plank and gives those of now, with as few new rows as can be.
 */
export function recycleRows(
  before: ReadonlyMap<number, number>,
  planks: readonly number[],
): Map<number, number> {
  const now = new Map<number, number>();
  const wanted = new Set(planks);
  const free: number[] = [];
  let highest = -1;
  for (const [plank, row] of before) {
    highest = Math.max(highest, row);
    if (wanted.has(plank)) now.set(plank, row);
    else free.push(row);
  }
  const inOrder = new Map<number, number>();
  for (const plank of planks) {
    inOrder.set(plank, now.get(plank) ?? free.pop() ?? ++highest);
  }
  return inOrder;
}
