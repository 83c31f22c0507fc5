import type { Pedigree, PedigreeNode, PedigreeRoot } from '#core/contract/pedigree.ts';
import { byGeneration, joinSteps, type Joined } from '../pedigree/pedigree-shape.ts';

/** One ancestor in words: what it is, and what of it went into what. */
export interface PedigreeLine {
  readonly key: string;
  readonly generation: number;
  readonly node: PedigreeNode;
  readonly into: readonly { readonly step: Joined; readonly other: PedigreeNode }[];
}

/** Where something came from, nearest first; racking of the batch itself from vessel to vessel is left out. */
export function pedigreeLines(pedigree: Pedigree, of: PedigreeRoot): readonly PedigreeLine[] {
  const named = new Map(pedigree.nodes.map((node) => [node.key, node]));
  const joined = joinSteps(pedigree.steps);
  return byGeneration(pedigree, of).flatMap(({ number, nodes }) =>
    number <= 0
      ? []
      : nodes
          .filter((node) => !(of.kind === 'batch' && node.kind === 'batch' && node.batchId === of.batchId))
          .map((node) => ({
            ...{ key: node.key, generation: number, node },
            into: joined.flatMap((step) => {
              const other = step.from === node.key ? named.get(step.to) : undefined;
              return other === undefined ? [] : [{ step, other }];
            }),
          })),
  );
}
