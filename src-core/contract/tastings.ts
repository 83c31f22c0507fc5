import { oc } from '@orpc/contract';
import { z } from 'zod';
import { BatchId, EntryId, VesselId } from '../ledger/ids.ts';
import { TasteWord } from '../ledger/taste-words.ts';

/** A tasting as the book has it. */
export const TastingRow = z.object({
  entryId: EntryId,
  atMs: z.number(),
  words: z.array(TasteWord),
  score: z.int().nullable(),
  text: z.string(),
  by: z.string(),
  vesselId: VesselId.nullable(),
});
export type TastingRow = z.infer<typeof TastingRow>;

export const tastingsContract = {
  /** The tastings of a batch that stand in the book, oldest first. */
  of: oc.input(z.strictObject({ batchId: BatchId })).output(z.array(TastingRow)),
};
