import { oc } from '@orpc/contract';
import { z } from 'zod';
import { Ingredient } from '../ledger/act.ts';
import { BatchId, CultureId, EntryId, VesselId } from '../ledger/ids.ts';
import { FermentKind, FilledStage } from '../ledger/stage.ts';
import { DueCheck, Foresight, Headline, OriginShare, ReadingRow, ShelfRow } from './shelves.ts';
import { Verdict } from './verdict.ts';

export const BATCH_SORTS = ['started', 'name', 'code', 'stage', 'volume', 'ferment'] as const;

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
  lots: z.array(z.object({ entryId: EntryId, bottles: z.int(), bottleUl: z.int(), atMs: z.number() })),
});
export type Leaf = z.infer<typeof Leaf>;

export const bookContract = {
  batches: oc
    .input(
      z.strictObject({
        text: z.string().max(200),
        ferment: FermentKind.nullable(),
        stage: FilledStage.nullable(),
        /** Only batches that still stand somewhere. */
        standingOnly: z.boolean(),
        /** Only batches in which this culture has worked. */
        cultureId: CultureId.nullable(),
        sort: z.enum(BATCH_SORTS),
        descending: z.boolean(),
        offset: z.int().min(0).max(10_000_000),
        limit: z.int().min(1).max(500),
      }),
    )
    .output(z.object({ rows: z.array(BatchRow), total: z.int() })),
  leaf: oc
    .input(z.strictObject({ batchId: BatchId }))
    .output(Leaf)
    .errors({ NOT_FOUND: { status: 404, data: z.object({ what: z.string(), id: z.string() }) } }),
};
