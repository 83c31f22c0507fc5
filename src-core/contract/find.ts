import { oc } from '@orpc/contract';
import { z } from 'zod';
import { BatchId, CultureId, EntryId, VesselId } from '../ledger/ids.ts';
import { CultureSort } from '../ledger/stage.ts';
import { BatchRow } from './book.ts';
import { ShelfRow } from './shelves.ts';

/** A line of the book in which the words stand, with the piece of text around them. Struck lines are never found. */
export const FoundDay = z.object({
  entryId: EntryId,
  sequence: z.int(),
  happenedAtMs: z.number(),
  /** The piece as it was written, with … where it was cut. */
  text: z.string(),
  /** Where in the piece the words stand: from, and up to. */
  marks: z.array(z.tuple([z.int(), z.int()])),
  /** The leaf it stands on, when it has one; likewise the vessel and the culture. */
  batch: z.object({ batchId: BatchId, code: z.string(), name: z.string() }).nullable(),
  vesselId: VesselId.nullable(),
  culture: z.object({ cultureId: CultureId, name: z.string() }).nullable(),
});
export type FoundDay = z.infer<typeof FoundDay>;

export const Found = z.object({
  vessels: z.array(ShelfRow),
  batches: z.array(BatchRow),
  cultures: z.array(z.object({ cultureId: CultureId, name: z.string(), sort: CultureSort })),
  days: z.array(FoundDay),
});
export type Found = z.infer<typeof Found>;

/** What a label's id leads to: the vessel, the batch, or the bottles of one filling with the batch they are of. */
export const FoundLabel = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('vessel'), row: ShelfRow }),
  z.object({ kind: z.literal('batch'), batch: BatchRow }),
  z.object({
    kind: z.literal('lot'),
    batch: BatchRow,
    lotId: EntryId,
    bottledAtMs: z.number(),
    bottlesLeft: z.int(),
  }),
]);
export type FoundLabel = z.infer<typeof FoundLabel>;

const Words = z.string().max(200);
const Limit = z.int().min(1).max(50);

export const findContract = {
  /**
   * Finds by name, code, spot, number and every word written or told; case and accents do not matter; inside words
   * too. Several words must all be there; what stands in double quotes stays together.
   */
  everywhere: oc.input(z.strictObject({ text: Words, limit: Limit })).output(Found),
  /** The lines of the book in which the words stand, newest first. */
  days: oc
    .input(z.strictObject({ text: Words, beforeSequence: z.int().min(0).nullable(), limit: Limit }))
    .output(z.object({ days: z.array(FoundDay), more: z.boolean() })),
  /** The vessel at a spot such as A2, or by its permanent number such as #7. */
  vesselAt: oc.input(z.strictObject({ code: z.string().max(20) })).output(ShelfRow.nullable()),
  /** What a label stands for, by the id under its code or by what a scanner reads off it (`UC:` before it); null for none. */
  label: oc.input(z.strictObject({ id: z.string().max(80) })).output(FoundLabel.nullable()),
};
