import type { Pedigree, PedigreeNode, PedigreeRoot, PedigreeStep } from '#core/contract/pedigree.ts';

/** Every step between the same two, as one line of the drawing. */
export interface Joined {
  readonly from: string;
  readonly to: string;
  readonly count: number;
  readonly volumeUl: number;
  readonly firstMs: number;
  readonly lastMs: number;
}

/** How many generations each node lies from what was asked of; those before it count up too. */
export function generationsOf(pedigree: Pedigree, of: PedigreeRoot): ReadonlyMap<string, number> {
  const { nodes, steps, direction } = pedigree;
  const nearSide = (step: PedigreeStep): string => (direction === 'onward' ? step.from : step.to);
  const farSide = (step: PedigreeStep): string => (direction === 'onward' ? step.to : step.from);
  const farOf = new Map<string, string[]>();
  for (const step of steps) {
    const near = nearSide(step);
    const known = farOf.get(near);
    if (known === undefined) farOf.set(near, [farSide(step)]);
    else known.push(farSide(step));
  }
  const generations = new Map<string, number>();
  let wave = rootsOf(nodes, steps.map(farSide), of);
  for (const key of wave) generations.set(key, 0);
  for (let generation = 1; wave.length > 0; generation += 1) {
    const next: string[] = [];
    for (const far of wave.flatMap((key) => farOf.get(key) ?? [])) {
      if (generations.has(far)) continue;
      generations.set(far, generation);
      next.push(far);
    }
    wave = next;
  }
  // Bottles of a batch that is asked of lie on the other side of it.
  for (const { key, kind } of nodes) if (!generations.has(key)) generations.set(key, kind === 'lot' ? -1 : 0);
  return generations;
}

/** Where the walk begins: what was asked of, and of a batch racked from vessel to vessel only where it began. */
function rootsOf(nodes: readonly PedigreeNode[], far: readonly string[], of: PedigreeRoot): string[] {
  const own = nodes.filter((node) => isAskedOf(node, of)).map(({ key }) => key);
  const candidates = own.length > 0 ? own : nodes.slice(0, 1).map(({ key }) => key);
  const reached = new Set(far);
  const first = candidates.filter((key) => !reached.has(key));
  return first.length > 0 ? first : candidates.slice(0, 1);
}

export function isAskedOf(node: PedigreeNode, of: PedigreeRoot): boolean {
  switch (of.kind) {
    case 'batch':
      return node.kind === 'batch' && node.batchId === of.batchId;
    case 'culture':
      return node.kind === 'culture' && node.cultureId === of.cultureId;
    case 'lot':
      return node.kind === 'lot' && node.lotId === of.lotId;
    case 'vessel':
      return node.kind === 'batch' && node.vesselId === of.vesselId;
  }
}

/** Steps between the same two taken together, in the order they first happened. */
export function joinSteps(steps: readonly PedigreeStep[]): readonly Joined[] {
  const joined = new Map<string, Joined>();
  for (const { from, to, atMs, volumeUl } of steps) {
    const key = `${from} ${to}`;
    const before = joined.get(key);
    joined.set(key, {
      ...{ from, to, count: (before?.count ?? 0) + 1, volumeUl: (before?.volumeUl ?? 0) + volumeUl },
      firstMs: Math.min(before?.firstMs ?? atMs, atMs),
      lastMs: Math.max(before?.lastMs ?? atMs, atMs),
    });
  }
  return [...joined.values()].toSorted((a, b) => a.firstMs - b.firstMs);
}

export interface Generation {
  readonly number: number;
  readonly nodes: readonly PedigreeNode[];
}

/** The nodes by generation, nearest first. */
export function byGeneration(pedigree: Pedigree, of: PedigreeRoot): readonly Generation[] {
  const generations = generationsOf(pedigree, of);
  const rows = new Map<number, PedigreeNode[]>();
  for (const node of pedigree.nodes) {
    const number = generations.get(node.key) ?? 0;
    const row = rows.get(number);
    if (row === undefined) rows.set(number, [node]);
    else row.push(node);
  }
  return [...rows].map(([number, nodes]) => ({ number, nodes })).toSorted((a, b) => a.number - b.number);
}
