import type { Act } from './act.ts';
import type { CultureId, EntryId, ShelfId, VesselId } from './ids.ts';
import type { Posting } from './postings.ts';
import type { PriorImage, RecordKind, RecordsByKind } from './records.ts';

/** What a decision may look up. The book's own state, read at one moment; asked synchronously. */
export interface CellarReader {
  /** The record of that kind and id as it stands, or null. */
  get<K extends RecordKind>(kind: K, id: string): RecordsByKind[K] | null;
  /** Who stands at a place on a shelf, if anyone. */
  vesselAt(shelfId: ShelfId, position: number): VesselId | null;
  /** True when some shelf already has the letter. */
  shelfLetterTaken(letter: string): boolean;
  vesselNumberTaken(number: number): boolean;
  batchCodeTaken(code: string): boolean;
  /** The highest pull number a culture has been given, 0 when it has none. */
  lastPullNumber(culture: CultureId): number;
  /** Highest position in use on a shelf, 0 when none. */
  highestPosition(shelfId: ShelfId): number;
  /** The records that point at this one. It can be taken away only when there are none, or when they go with it. */
  restingOn(kind: RecordKind, id: string): readonly Resting[];
  /** The latest entry that took this record away; null when none did. */
  takenAwayBy(kind: RecordKind, id: string): EntryId | null;
  /** An earlier entry with the records it changed as they were before; null when unknown. */
  entry(entryId: EntryId): EarlierEntry | null;
  /** A record as the first entry after that number that wrote it found it; undefined when none wrote it since. */
  foundLater(
    kind: RecordKind,
    id: string,
    afterSequence: number,
  ): RecordsByKind[RecordKind] | null | undefined;
  /** The first entry after that number that wrote a record; null when none did. */
  nextWriting(kind: RecordKind, id: string, afterSequence: number): EarlierEntry | null;
  /** Entries that told others anew and stand themselves, oldest first. */
  restatings(): readonly EarlierEntry[];
  /** The reversals of an entry, oldest first: it may have been undone, redone and undone again. */
  reversalsOf(entryId: EntryId): readonly EarlierEntry[];
  /** The entries that settled what a vessel is made of by this reading, oldest first. */
  settledBy(readingId: string): readonly EarlierEntry[];
  /** The first entry after that number in the book that speaks of a vessel, batch or culture; null when none does. */
  nextAbout(subject: Subject, afterSequence: number): EarlierEntry | null;
}

export interface Subject {
  readonly kind: 'vessel' | 'batch' | 'culture';
  readonly id: string;
}

export interface Resting {
  readonly kind: RecordKind;
  readonly id: string;
  readonly writtenBy: EntryId;
}

export interface EarlierEntry {
  readonly id: EntryId;
  /** Its place in the book: entries are numbered as they are written. */
  readonly sequence: number;
  readonly happenedAtMs: number;
  readonly act: Act;
  readonly postings: readonly Posting[];
  readonly images: readonly PriorImage[];
}
