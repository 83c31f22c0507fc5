import { z } from 'zod';
import { CultureId } from './ids.ts';
import { FermentKind, FilledStage } from './stage.ts';

/** What the ledger of batches can be put in order by. */
export const BATCH_SORTS = [
  ...(['started', 'name', 'code', 'ferment', 'stage', 'volume', 'last', 'due'] as const),
  ...(['culture', 'bottles', 'startedWith', 'parent'] as const),
] as const;

/** The columns of the ledger of batches beside the name, which is always there. */
export const BATCH_COLUMN_KEYS = [
  ...(['code', 'ferment', 'stage', 'started', 'volume', 'last', 'due'] as const),
  ...(['culture', 'bottles', 'startedWith', 'parent'] as const),
] as const;
export type BatchColumnKey = (typeof BATCH_COLUMN_KEYS)[number];

const Moment = z.int().min(0).max(7_258_118_400_000).nullable();

/** Which batches are looked for, and in what order. */
export const BatchFilter = z.strictObject({
  /** Words in the name, code, note or ingredients, or in any line of the book that speaks of the batch. */
  text: z
    .string()
    .max(200)
    .refine((text) => text.isWellFormed(), { error: 'whole characters' }),
  ferment: FermentKind.nullable(),
  stage: FilledStage.nullable(),
  /** Still standing in a vessel, standing in none any more, or either. */
  standing: z.enum(['either', 'standing', 'gone']),
  startedFromMs: Moment,
  /** The last moment that still counts. */
  startedUpToMs: Moment,
  /** Only batches in which this culture has worked. */
  cultureId: CultureId.nullable(),
  /** Only what is due now or late, or stands closed in a way that concerns. */
  needsLook: z.boolean(),
  sort: z.enum(BATCH_SORTS),
  descending: z.boolean(),
});
export type BatchFilter = z.infer<typeof BatchFilter>;

/** A filter as it is kept by name: with the columns that are shown, null for the usual ones. */
export const KeptFilter = BatchFilter.extend({
  columns: z.array(z.enum(BATCH_COLUMN_KEYS)).max(BATCH_COLUMN_KEYS.length).nullable(),
});
export type KeptFilter = z.infer<typeof KeptFilter>;

export const ALL_BATCHES: BatchFilter = {
  ...{ text: '', ferment: null, stage: null, standing: 'either', startedFromMs: null, startedUpToMs: null },
  ...{ cultureId: null, needsLook: false, sort: 'started', descending: true },
};
