import type { ShelfRow } from '#core/contract/shelves.ts';
import type { ActOf } from '#core/ledger/act.ts';

/** What a note written at the shelf is about: the batch that stands there, so that its leaf has it, else the vessel. */
export function noteAbout({ batchId, vesselId }: ShelfRow): ActOf<'note'>['about'] {
  return batchId === null ? { kind: 'vessel', vesselId } : { kind: 'batch', batchId };
}
