import { oc } from '@orpc/contract';
import { z } from 'zod';
import { Ingredient } from '../ledger/act.ts';
import { BatchFilter, KeptFilter } from '../ledger/batch-filter.ts';
import { BatchId, CultureId, EntryId, FilterId, VesselId } from '../ledger/ids.ts';
import { FermentKind, FilledStage } from '../ledger/stage.ts';
import { DueCheck, Foresight, Headline, OriginShare, ReadingRow, ShelfRow } from './shelves.ts';
import { Verdict } from './verdict.ts';

/** One line of the ledger of batches. A batch may stand in several vessels, or in none any more. */
export const BatchRow = z.object({
  batchId: BatchId,
  code: z.string(),
  name: z.string(),
  ferment: FermentKind,
  startedAtMs: z.number(),
  /** The stage of its largest standing part; null when it no longer stands anywhere. */
  stage: FilledStage.nullable(),
  volumeUl: z.int(),
  vesselNumbers: z.array(z.int()),
  spots: z.array(z.string()),
  headline: Headline.nullable(),
  due: DueCheck.nullable(),
  lastReadAtMs: z.number().nullable(),
  /** The culture at work in it, or the last that was. */
  cultureName: z.string().nullable(),
  /** Bottled from it so far. */
  bottles: z.int(),
  startedUl: z.int(),
  /** The batch it was taken from. */
  parentName: z.string().nullable(),
});
export type BatchRow = z.infer<typeof BatchRow>;

export const StageSpan = z.object({
  entryId: EntryId,
  batchId: BatchId,
  vesselId: VesselId,
  stage: FilledStage,
  fromMs: z.number(),
});
export type StageSpan = z.infer<typeof StageSpan>;

export const Kin = z.object({
  batchId: BatchId,
  code: z.string(),
  name: z.string(),
  stage: FilledStage.nullable(),
  relation: z.enum(['parent', 'child', 'blendedIn', 'sameMother']),
  volumeUl: z.int().nullable(),
  pull: z.int().nullable(),
});
export type Kin = z.infer<typeof Kin>;

/** Bottles filled in one go; `entryId` is the line that filled them. */
export const BottleLot = z.object({
  entryId: EntryId,
  bottles: z.int(),
  left: z.int(),
  bottleUl: z.int(),
  atMs: z.number(),
  /** Why its bottles are kept apart; '' when they are not. */
  keptApartFor: z.string(),
});
export type BottleLot = z.infer<typeof BottleLot>;

/** Parts of a hundredth of the house currency, see `PARTS_OF_A_HUNDREDTH`. */
const CostParts = z.int().min(0);

/** Some liquid with the cost in it, and how many of the things in it have a cost at all. */
export const CostIn = z.object({ parts: CostParts, priced: z.int(), of: z.int() });
export type CostIn = z.infer<typeof CostIn>;

/** What a batch cost so far, from what was told; nothing is guessed where a cost is missing. */
export const LeafCost = z.object({
  /** Everything that is or was in it, its share of what came from other batches included. */
  lines: z.array(
    z.object({
      entryId: EntryId,
      atMs: z.number(),
      name: z.string(),
      amountTyped: z.string(),
      costHundredths: z.int().nullable(),
      /** What of it is or was in this batch. */
      parts: CostParts,
    }),
  ),
  /** All that is or was in this batch: standing, bottled and drawn off. */
  soFar: CostIn,
  standing: CostIn.extend({ volumeUl: z.int() }).nullable(),
  lots: z.array(CostIn.extend({ entryId: EntryId, bottles: z.int(), bottleUl: z.int(), atMs: z.number() })),
  /** False when some liquid came from where its history could not be followed. */
  followed: z.boolean(),
});
export type LeafCost = z.infer<typeof LeafCost>;

/** A batch made again from another, or the one it was made from. */
export const Repeat = z.object({
  batchId: BatchId,
  code: z.string(),
  name: z.string(),
  startedAtMs: z.number(),
});
export type Repeat = z.infer<typeof Repeat>;

export const Leaf = z.object({
  batchId: BatchId,
  code: z.string(),
  name: z.string(),
  ferment: FermentKind,
  note: z.string(),
  startedAtMs: z.number(),
  startedUl: z.int(),
  ingredients: z.array(Ingredient),
  standing: z.array(ShelfRow),
  /** Spans of this batch and, before it began, of the batch it was taken from; oldest first. */
  spans: z.array(StageSpan),
  /** Readings that speak of this liquid, those inherited from the batch it was taken from included; oldest first. */
  readings: z.array(ReadingRow),
  verdicts: z.array(Verdict),
  due: z.array(DueCheck),
  foresight: Foresight.nullable(),
  origins: z.array(OriginShare),
  culture: z.object({ cultureId: CultureId, name: z.string(), pull: z.int().nullable() }).nullable(),
  keepsCultureId: CultureId.nullable(),
  kin: z.array(Kin),
  /** Bottles filled from it, with how many of each filling are left; oldest first. */
  lots: z.array(BottleLot),
  cost: LeafCost,
  /** The batch this one makes again, when it was begun from another's leaf. */
  repeats: Repeat.nullable(),
  /** Batches begun from this one's leaf, oldest first. */
  repeatedBy: z.array(Repeat),
});
export type Leaf = z.infer<typeof Leaf>;

export const SavedFilter = z.object({ filterId: FilterId, name: z.string(), filter: KeptFilter });
export type SavedFilter = z.infer<typeof SavedFilter>;

export const bookContract = {
  batches: oc
    .input(
      BatchFilter.extend({
        offset: z.int().min(0).max(10_000_000),
        limit: z.int().min(1).max(500),
      }),
    )
    .output(z.object({ rows: z.array(BatchRow), total: z.int() })),
  /** The filters kept by name, by their names. */
  filters: oc.output(z.array(SavedFilter)),
  leaf: oc
    .input(z.strictObject({ batchId: BatchId }))
    .output(Leaf)
    .errors({ NOT_FOUND: { status: 404, data: z.object({ what: z.string(), id: z.string() }) } }),
};
