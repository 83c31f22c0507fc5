import { z } from 'zod';
import { Act } from '../ledger/act.ts';
import { EntryId } from '../ledger/ids.ts';
import { Posting } from '../ledger/postings.ts';
import { HouseRules } from './house-rules.ts';

export const BOOK_FORMAT = 'undercroft-cellar-book';

export const BookManifest = z.strictObject({
  format: z.literal(BOOK_FORMAT),
  /** Raised when the document's own form changes. */
  formatVersion: z.literal(1),
  /** The form in which acts are written. */
  actFormat: z.int().min(1),
  programVersion: z.string(),
  fileVersion: z.int().min(1),
  cellarName: z.string(),
  takenOutAt: z.iso.datetime(),
  /** Lines of the book, and how many records followed from them when it was taken out. */
  counts: z.record(z.string(), z.int().min(0)),
});
export type BookManifest = z.infer<typeof BookManifest>;

export const BookDocumentEntry = z.strictObject({
  sequence: z.int().min(1),
  entryId: EntryId,
  /** Lines whose request id is the same before its slash were written together. */
  requestId: z.string(),
  happenedAtMs: z.int().min(0),
  writtenAtMs: z.int().min(0),
  /** The form the line was written in. Its act is given in the manifest's form, its postings as they were written then. */
  actFormat: z.int().min(1),
  act: Act,
  postings: z.array(Posting),
  /** The text as typed, by field name. */
  typed: z.record(z.string(), z.string()),
});

/**
 * A whole cellar book outside its file: all lines in the order they were written, and the house rules. What stands on the
 * shelf is not in it, since it follows from the lines: they can be played again. Pictures are named by their checksum.
 */
export const BookDocument = z.strictObject({
  manifest: BookManifest,
  houseRules: HouseRules,
  entries: z.array(BookDocumentEntry),
});
export type BookDocument = z.infer<typeof BookDocument>;
