import { oc } from '@orpc/contract';
import { z } from 'zod';
import { CultureId, EntryId } from '../ledger/ids.ts';
import { CultureSort } from '../ledger/stage.ts';
import { BatchRow } from './book.ts';
import { ShelfRow } from './shelves.ts';

export const FoundNote = z.object({
  entryId: EntryId,
  happenedAtMs: z.number(),
  text: z.string(),
  /** The leaf it stands on, when it has one. */
  batchId: z.string().nullable(),
  vesselId: z.string().nullable(),
  cultureId: z.string().nullable(),
});

export const Found = z.object({
  vessels: z.array(ShelfRow),
  batches: z.array(BatchRow),
  cultures: z.array(z.object({ cultureId: CultureId, name: z.string(), sort: CultureSort })),
  notes: z.array(FoundNote),
});
export type Found = z.infer<typeof Found>;

export const findContract = {
  /** Finds by name, code, spot, number and note text; case and accents do not matter; inside words too. */
  everywhere: oc
    .input(z.strictObject({ text: z.string().max(200), limit: z.int().min(1).max(50) }))
    .output(Found),
  /** The vessel at a spot such as A2, or by its permanent number such as #7. */
  vesselAt: oc.input(z.strictObject({ code: z.string().max(20) })).output(ShelfRow.nullable()),
};
