import type { Act } from './act.ts';
import type { EntryId } from './ids.ts';
import type { Posting } from './postings.ts';
import type { Change } from './records.ts';

/**
 * One line of the book. Written once: what was typed, what was understood (the act and its postings), when it
 * happened and when it was written. Nothing in it is ever changed; a correction is another entry.
 */
export interface Entry {
  readonly id: EntryId;
  readonly happenedAtMs: number;
  readonly writtenAtMs: number;
  readonly act: Act;
  readonly postings: readonly Posting[];
  /** The text as typed, by field name. */
  readonly typed: Readonly<Record<string, string>>;
}

/** What an act does: postings that balance, and the records it changes. */
export interface Outcome {
  readonly postings: readonly Posting[];
  readonly changes: readonly Change[];
  /** Later entries that were told anew along with those a correction names; absent where there are none. */
  readonly retold?: readonly EntryId[];
}

export interface ActContext {
  /** The entry as whose the act is decided: records that it makes have its id. */
  readonly entryId: EntryId;
  /** The entry that really writes, when an earlier one is told anew. */
  readonly writerId?: EntryId;
  readonly happenedAtMs: number;
}
