import { oc } from '@orpc/contract';
import { z } from 'zod';
import { BatchId, CultureId, EntryId, VesselId } from '../ledger/ids.ts';
import { FilledStage } from '../ledger/stage.ts';

/** What a pedigree is asked of. A vessel stands for what is in it. */
export const PedigreeRoot = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('batch'), batchId: BatchId }),
  z.strictObject({ kind: z.literal('culture'), cultureId: CultureId }),
  z.strictObject({ kind: z.literal('lot'), lotId: EntryId }),
  z.strictObject({ kind: z.literal('vessel'), vesselId: VesselId }),
]);
export type PedigreeRoot = z.infer<typeof PedigreeRoot>;

/** A batch in a vessel, a lot of bottles, or a culture. */
export const PedigreeNode = z.object({
  key: z.string(),
  kind: z.enum(['batch', 'lot', 'culture']),
  batchId: BatchId.nullable(),
  lotId: EntryId.nullable(),
  cultureId: CultureId.nullable(),
  vesselId: VesselId.nullable(),
  vesselNumber: z.int().nullable(),
  name: z.string(),
  code: z.string(),
  /** When it first had to do with the root; for what came before, when it last gave to it. */
  atMs: z.number(),
  /** What of it stands in the vessel now, µL; null when it is gone. */
  standingUl: z.int().nullable(),
  stage: FilledStage.nullable(),
  bottlesLeft: z.int().nullable(),
  bottleUl: z.int().nullable(),
  keptApartFor: z.string(),
});
export type PedigreeNode = z.infer<typeof PedigreeNode>;

export const PedigreeStep = z.object({
  from: z.string(),
  to: z.string(),
  atMs: z.number(),
  volumeUl: z.int(),
  entryId: EntryId.nullable(),
});
export type PedigreeStep = z.infer<typeof PedigreeStep>;

/** `back`: where it came from. `onward`: what it ever touched. Nodes in the order they are met, the root's first. */
export const Pedigree = z.object({
  direction: z.enum(['back', 'onward']),
  nodes: z.array(PedigreeNode),
  steps: z.array(PedigreeStep),
  /** There is more than is told here. */
  more: z.boolean(),
});
export type Pedigree = z.infer<typeof Pedigree>;

export const pedigreeContract = {
  trace: oc
    .input(z.strictObject({ of: PedigreeRoot, direction: z.enum(['back', 'onward']) }))
    .output(Pedigree)
    .errors({ NOT_FOUND: { status: 404, data: z.object({ what: z.string(), id: z.string() }) } }),
};
