import { eventIterator, oc } from '@orpc/contract';
import { z } from 'zod';
import { TEXT_LENGTH_MAX, Settled } from '../exchange/settled.ts';
import { EntryId } from '../ledger/ids.ts';
import { FileRefusal, Progress } from './cellar.ts';
import { LookedOver } from './looked-over.ts';
import { Posted, RequestId, writeErrors } from './ledger.ts';

/** What can be taken out: one table, all of them, the whole book, or the description of the book's form. */
export const Outgoing = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('table'),
    table: z.string().regex(/^[a-z][a-z-]{0,39}$/),
    byteOrderMark: z.boolean(),
  }),
  z.strictObject({
    kind: z.literal('tables'),
    byteOrderMark: z.boolean(),
    /** The pictures too, each as a file named by its checksum. */
    pictures: z.boolean().optional(),
  }),
  z.strictObject({ kind: z.literal('book') }),
  z.strictObject({ kind: z.literal('bookSchema') }),
]);
export type Outgoing = z.infer<typeof Outgoing>;

/** A step of taking out. To the window each step brings a piece of the text; `again` throws away what came before. */
export const OutStep = Progress.extend({ text: z.string(), again: z.boolean() });
export type OutStep = z.infer<typeof OutStep>;

export const TakenOut = z.object({
  /** Where it lies; null when it was handed to the window. */
  file: z.string().nullable(),
  /** A name to save it under. */
  name: z.string(),
  bytes: z.int(),
  lines: z.int(),
});
export type TakenOut = z.infer<typeof TakenOut>;

export const BroughtIn = z.object({
  posted: Posted.nullable(),
  broughtIn: z.int(),
  /** Rows that were looked over again and did not go in, by why. */
  alreadyThere: z.int(),
  refused: z.int(),
});
export type BroughtIn = z.infer<typeof BroughtIn>;

/** Readings that came in together, newest first. */
export const Intake = z.object({
  requestId: RequestId,
  firstEntryId: EntryId,
  /** What the table was called. */
  source: z.string(),
  writtenAtMs: z.number(),
  readings: z.int(),
  /** How many of them still stand, that is, have not been taken back. */
  standing: z.int(),
});
export type Intake = z.infer<typeof Intake>;

/** What an import is asked with: the text as it is, and what the keeper settled about it. */
const Incoming = z.strictObject({ text: z.string().max(TEXT_LENGTH_MAX), settled: Settled });

export const exchangeContract = {
  /** The tables there are, with how many rows of the file each comes from. */
  tables: oc.output(z.array(z.object({ table: z.string(), rows: z.int() }))),
  /**
   * Takes something out of the cellar: to a path (a folder for all tables, else a file), or to the window when there is
   * none. Nothing is ever written over; stopped, nothing half-written is left.
   */
  takeOut: oc
    .input(z.strictObject({ what: Outgoing, path: z.string().trim().min(1).max(1000).nullable() }))
    .output(eventIterator(OutStep, TakenOut))
    .errors({
      FILE_REFUSED: { status: 422, data: FileRefusal },
      NOT_FOUND: { status: 404, data: z.object({ what: z.string(), id: z.string() }) },
      /** The book was written in again and again while it was read. */
      CHANGED_MEANWHILE: { status: 409 },
      /** All tables need a folder: a window takes one file at a time. */
      PATH_MISSING: { status: 422 },
    }),
  /** Reads a table of readings as it would be brought in, and writes nothing. */
  lookOver: oc.input(Incoming).output(eventIterator(Progress, LookedOver)),
  /**
   * Brings in every row that is ready, all of them or none, as one step that Undo takes back. Sent again with the same
   * `requestId` it writes nothing more.
   */
  bringIn: oc
    .input(Incoming.extend({ requestId: RequestId }))
    .output(eventIterator(Progress, BroughtIn))
    .errors({ ...writeErrors, NOT_SETTLED: { status: 409 } }),
  /** What was brought in so far. */
  intakes: oc.output(z.array(Intake)),
  /** Takes back all that came in together and still stands, wherever in the book it is. */
  takeBack: oc
    .input(z.strictObject({ requestId: RequestId, intake: RequestId }))
    .output(Posted)
    .errors({
      ...writeErrors,
      NOT_FOUND: { status: 404, data: z.object({ what: z.string(), id: z.string() }) },
    }),
};
