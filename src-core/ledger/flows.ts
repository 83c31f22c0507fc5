import type { ChangeSet } from './change-set.ts';
import type { BatchId, CultureId, EntryId, VesselId } from './ids.ts';
import type { TrailStep } from './records.ts';

/** Where liquid stood or comes to stand, as the pedigree sees it. */
interface End {
  readonly id: VesselId;
  readonly batchId: BatchId;
  readonly cultureId: CultureId | null;
  readonly trail: readonly TrailStep[];
}

/**
 * Writes one step of the pedigree: liquid of one batch came into another vessel or into bottles. Steps of one entry
 * are numbered in the order they are written.
 */
export function writeFlow(
  book: ChangeSet,
  step: {
    readonly from: End | null;
    readonly to: Pick<End, 'id' | 'batchId'> | null;
    readonly fromLotId?: EntryId;
    readonly toLotId?: EntryId;
    readonly volumeUl: number;
    readonly ontoNothing: boolean;
  },
): void {
  const { entryId, happenedAtMs } = book.context;
  let number = 1;
  while (book.get('flow', `${entryId}-${number}`) !== null) number += 1;
  const { from, to, fromLotId = null, toLotId = null, volumeUl, ontoNothing } = step;
  book.put('flow', {
    ...{ id: `${entryId}-${number}`, atMs: happenedAtMs, volumeUl },
    ...{ fromVesselId: from?.id ?? null, fromBatchId: from?.batchId ?? null },
    ...{ fromCultureId: from?.cultureId ?? null, fromLotId },
    ...{ fromTrail: from?.trail ?? [], ontoNothing },
    ...{ toVesselId: to?.id ?? null, toBatchId: to?.batchId ?? null, toLotId },
  });
}
