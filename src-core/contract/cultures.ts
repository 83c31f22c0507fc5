import { oc } from '@orpc/contract';
import { z } from 'zod';
import { BatchId, CultureId, EntryId, VesselId } from '../ledger/ids.ts';
import { CultureSort, FilledStage } from '../ledger/stage.ts';
import { DueCheck, ShelfRow } from './shelves.ts';

export const CultureRow = z.object({
  cultureId: CultureId,
  name: z.string(),
  sort: CultureSort,
  source: z.string(),
  note: z.string(),
  sinceMs: z.number(),
  parentCultureId: CultureId.nullable(),
  parentName: z.string().nullable(),
  childCount: z.int(),
  pullCount: z.int(),
  lastPullAtMs: z.number().nullable(),
  fedAtMs: z.number().nullable(),
  /** Vessels in which it is kept (its own jars); empty when it is only known by name. */
  keptIn: z.array(ShelfRow),
  /** Vessels in which it is at work now. */
  workingCount: z.int(),
  due: DueCheck.nullable(),
});
export type CultureRow = z.infer<typeof CultureRow>;

/** One pull: a numbered division put to work, with the batch it went into. */
export const Pull = z.object({
  entryId: EntryId,
  number: z.int(),
  atMs: z.number(),
  vesselId: VesselId,
  vesselNumber: z.int(),
  volumeUl: z.int(),
  batchId: BatchId,
  batchCode: z.string(),
  batchName: z.string(),
  stage: FilledStage.nullable(),
});
export type Pull = z.infer<typeof Pull>;

export const CultureLines = z.object({
  culture: CultureRow,
  ancestors: z.array(z.object({ cultureId: CultureId, name: z.string() })),
  children: z.array(
    z.object({ cultureId: CultureId, name: z.string(), sort: CultureSort, sinceMs: z.number() }),
  ),
  pulls: z.array(Pull),
});
export type CultureLines = z.infer<typeof CultureLines>;

export const culturesContract = {
  list: oc.output(z.array(CultureRow)),
  lines: oc
    .input(z.strictObject({ cultureId: CultureId }))
    .output(CultureLines)
    .errors({ NOT_FOUND: { status: 404, data: z.object({ what: z.string(), id: z.string() }) } }),
};
