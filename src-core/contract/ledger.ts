import { oc } from '@orpc/contract';
import { z } from 'zod';
import { Act, ActDraft, NoteText } from '../ledger/act.ts';
import { BatchId, CultureId, EntryId, VesselId } from '../ledger/ids.ts';
import { LedgerError } from '../ledger/ledger-error.ts';
import { Posting } from '../ledger/postings.ts';
import { OriginShare, ShelfRow } from './shelves.ts';

/** Text as typed by field name; kept beside what was understood. */
export const Typed = z
  .record(z.string().max(40), z.string().max(4000))
  .refine((t) => Object.keys(t).length <= 60, {
    error: 'at most 60 fields',
  });
export const RequestId = z.uuid();
/** Epoch ms between 1970 and 2200. */
export const Instant = z.int().min(0).max(7_258_118_400_000);

/** A line of the book as it is read back, with the names of what it speaks of and whether it has been struck. */
export const EntryRow = z.object({
  entryId: EntryId,
  sequence: z.int(),
  happenedAtMs: z.number(),
  writtenAtMs: z.number(),
  act: Act,
  postings: z.array(Posting),
  typed: z.record(z.string(), z.string()),
  struck: z.boolean(),
  /** When and why, for a line that a correction of others took back. */
  takenBack: z.object({ atMs: z.number(), reason: z.string() }).optional(),
  /** Display names by id: vessels, batches, cultures, places and shelves the act mentions. */
  names: z.record(z.string(), z.string()),
  /** What the line now says, and when it happened by that, when it was told anew; when that was, and why. */
  restated: z
    .object({
      act: Act,
      happenedAtMs: z.number(),
      names: z.record(z.string(), z.string()),
      correctedAtMs: z.number(),
      reason: z.string(),
    })
    .nullable(),
  /** For a reversal: the act it took back or brought back, with its own names. */
  reversed: z
    .object({ act: Act, happenedAtMs: z.number(), names: z.record(z.string(), z.string()) })
    .nullable(),
  /** How many lines were written or taken back with it in one step, where it was more than this one. */
  together: z.int().min(2).optional(),
});
export type EntryRow = z.infer<typeof EntryRow>;

/** What Undo and Redo would do next, as the entries they would reverse. */
export const UndoState = z.object({ undo: EntryRow.nullable(), redo: EntryRow.nullable() });
export type UndoState = z.infer<typeof UndoState>;

/** The answer to every act: the entry as written, the vessels as they now stand, and what can be undone. */
export const Posted = z.object({
  entry: EntryRow,
  /** Vessels whose row changed; a vessel gone from the shelf is in `goneVesselIds`. */
  rows: z.array(ShelfRow),
  goneVesselIds: z.array(VesselId),
  undoState: UndoState,
});
export type Posted = z.infer<typeof Posted>;

/** What an act would do, worked out without writing: volumes before and after, and liquid leaving the vessels. */
export const Plan = z.object({
  vessels: z.array(
    z.object({
      vesselId: VesselId,
      name: z.string(),
      beforeUl: z.int(),
      afterUl: z.int(),
      capacityUl: z.int(),
      /** What it is then made of, largest share first; empty when that is as before, or one batch alone. */
      madeOf: z.array(OriginShare),
    }),
  ),
  outside: z.array(Posting),
  /** Vessels whose volume is only what was added: a part was never measured, and strong spirit would shrink in it. */
  asAdded: z.array(VesselId),
});
export type Plan = z.infer<typeof Plan>;

/** What a correction would change, with how many later lines follow it and are told anew. */
export const RestatePlan = Plan.extend({ retoldCount: z.int().min(0) });
export type RestatePlan = z.infer<typeof RestatePlan>;

/** Lines as they should have been: null takes one back, and a time of null leaves it as it was. */
const retelling = {
  corrections: z
    .array(z.strictObject({ entryId: EntryId, act: ActDraft.nullable(), happenedAtMs: Instant.nullable() }))
    .min(1)
    .max(100),
  reason: NoteText,
};

/** Why the disk did not take it. `detail` is the system's own short code. Nothing was changed. */
export const NotWritten = z.object({
  type: z.enum(['DiskFull', 'ReadOnly', 'Gone', 'Restoring', 'OtherFault']),
  detail: z.string(),
});
export type NotWritten = z.infer<typeof NotWritten>;

const refusals = { REFUSED: { status: 422, data: LedgerError } } as const;
export const writeErrors = {
  ...refusals,
  NOT_WRITTEN: { status: 507, data: NotWritten },
} as const;

export const ledgerContract = {
  /** Writes one act. The same `requestId` sent again answers as before and writes nothing. */
  post: oc
    .input(
      z.strictObject({
        requestId: RequestId,
        act: ActDraft,
        /** When it happened; null means now. */
        happenedAtMs: Instant.nullable(),
        typed: Typed,
      }),
    )
    .output(Posted)
    .errors(writeErrors),
  plan: oc
    .input(z.strictObject({ act: ActDraft, happenedAtMs: Instant.nullable() }))
    .output(Plan)
    .errors(refusals),
  /** Tells earlier lines anew, or takes them back, with all that follows from them. Refused whole when a later line could not have been. */
  restate: oc
    .input(z.strictObject({ requestId: RequestId, ...retelling }))
    .output(Posted)
    .errors(writeErrors),
  planRestate: oc.input(z.strictObject(retelling)).output(RestatePlan).errors(refusals),
  /** One line of the book. */
  entry: oc
    .input(z.strictObject({ entryId: EntryId }))
    .output(EntryRow)
    .errors({ NOT_FOUND: { status: 404, data: z.object({ what: z.string(), id: z.string() }) } }),
  undo: oc
    .input(z.strictObject({ requestId: RequestId }))
    .output(Posted)
    .errors(writeErrors),
  redo: oc
    .input(z.strictObject({ requestId: RequestId }))
    .output(Posted)
    .errors(writeErrors),
  /** Strikes one entry through, wherever it stands, by a reversing entry. */
  strike: oc
    .input(z.strictObject({ requestId: RequestId, entryId: EntryId }))
    .output(Posted)
    .errors(writeErrors),
  undoState: oc.output(UndoState),
  entries: oc
    .input(
      z.strictObject({
        about: z
          .discriminatedUnion('kind', [
            z.strictObject({ kind: z.literal('vessel'), vesselId: VesselId }),
            z.strictObject({ kind: z.literal('batch'), batchId: BatchId }),
            z.strictObject({ kind: z.literal('culture'), cultureId: CultureId }),
          ])
          .nullable(),
        beforeSequence: z.int().min(0).nullable(),
        limit: z.int().min(1).max(500),
      }),
    )
    .output(z.object({ entries: z.array(EntryRow), more: z.boolean() })),
  /**
   * What happened on some days, by how each line now reads: struck lines and lines that only put others right are left
   * out. `boundsMs` are the edges of the keeper's days, one more than there are days; `counts` has one number a day. The
   * lines come oldest first.
   */
  happened: oc
    .input(
      z.strictObject({
        boundsMs: z
          .array(Instant)
          .min(2)
          .max(64)
          .refine((edges) => edges.every((edge, i) => i === 0 || edge > (edges[i - 1] ?? edge)), {
            error: 'each edge after the one before',
          }),
        limit: z.int().min(0).max(500),
      }),
    )
    .output(z.object({ counts: z.array(z.int()), entries: z.array(EntryRow), more: z.boolean() })),
};
