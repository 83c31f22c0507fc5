import type { PedigreeNode } from '#core/contract/pedigree.ts';
import type { Destination } from '../navigation/destination.ts';

/** Where the name of a node leads: a culture to the cultures, everything else to its leaf. */
export function destinationOfNode({ cultureId, batchId }: PedigreeNode): Destination {
  if (cultureId !== null) return { place: 'cultures', cultureId };
  return batchId === null ? { place: 'book' } : { place: 'leaf', batchId };
}
