import type { Act } from './act.ts';
import type { Contraction, ContractionAnew } from './contraction.ts';
import type { EntryId, VesselId } from './ids.ts';
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
  /** What shrank as liquids joined, by vessel; absent where nothing did. */
  readonly contractions?: readonly Contraction[];
  /** The same at the lines that a correction told or played again. */
  readonly contractionsAnew?: readonly ContractionAnew[];
  /** Vessels whose new volume is only what was added: a part of it was never measured, and it might shrink. */
  readonly asAdded?: readonly VesselId[];
}

export interface ActContext {
  /** The entry as whose the act is decided: records that it makes have its id. */
  readonly entryId: EntryId;
  /** The entry that really writes, when an earlier one is told anew. */
  readonly writerId?: EntryId;
  readonly happenedAtMs: number;
  /** What shrinks in each vessel: reckoned while an act is first decided, on replay as its line says. */
  readonly contractions?: 'reckoned' | ReadonlyMap<string, number>;
}
