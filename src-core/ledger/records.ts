import type { ToldFacts } from './told-facts.ts';
import type { KeptFilter } from './batch-filter.ts';
import type { Act, ActOf, Ingredient, ReadingValues } from './act.ts';
import type { TasteWord } from './taste-words.ts';
import type { BatchId, CultureId, EntryId, FilterId, PlaceId, ShelfId, VesselId } from './ids.ts';
import type { Liquid, Origins } from './liquid.ts';
import type { Masses } from './masses.ts';
import type { Closure, CultureSort, FermentKind, FilledStage, Material, Mouth, Silhouette } from './stage.ts';

/** Every record remembers the entry that last wrote it: reversal is allowed only while that is still the entry to reverse. */
interface Written {
  readonly writtenBy: EntryId;
}

export interface PlaceRecord extends Written {
  readonly id: PlaceId;
  readonly name: string;
  readonly note: string;
}

export interface ShelfRecord extends Written {
  readonly id: ShelfId;
  readonly placeId: PlaceId;
  readonly name: string;
  readonly letter: string;
  readonly positions: number;
}

export interface VesselRecord extends Written {
  readonly id: VesselId;
  readonly number: number;
  readonly name: string;
  readonly silhouette: Silhouette;
  readonly capacityUl: number;
  readonly mouth: Mouth;
  readonly material: Material;
  readonly closure: Closure;
  readonly note: string;
  readonly shelfId: ShelfId | null;
  readonly position: number | null;
  readonly retired: boolean;
  /** Since when it has been closed as it is. */
  readonly closureSinceMs: number;
  /** When it was last cleaned and how; null when that was never told. */
  readonly cleanedAtMs: number | null;
  readonly cleanedHow: CleanedHow | null;
  /** Until when it rests empty; null when it does not. */
  readonly restUntilMs: number | null;
  /** Who has it when it is out of the house; '' when nobody has. */
  readonly holder: string;
}

/** What stands in a vessel. The id is the vessel's: a vessel holds one liquid or none. */
export interface FillRecord extends Written, Liquid {
  readonly id: VesselId;
  readonly batchId: BatchId;
  readonly stage: FilledStage;
  readonly stageSinceMs: number;
  readonly sinceMs: number;
  /** The culture at work in it, with the number of its pull, when one was seeded or pitched. */
  readonly cultureId: CultureId | null;
  readonly pull: number | null;
  /** When the composition last changed by something put in; readings taken before it no longer describe the liquid. */
  readonly composedAtMs: number;
  readonly composedBy: ComposedBy;
  /** Up to when readings have been settled with what the book says it is made of. */
  readonly settledAtMs: number;
  /** Where this same liquid stood before: readings taken there, up to then, still speak of it. Newest last. */
  readonly trail: readonly TrailStep[];
  /** Lees are shown at the foot of the vessel once yeast has worked in it. */
  readonly onLees: boolean;
}
export interface TrailStep {
  readonly vesselId: VesselId;
  readonly batchId: BatchId;
  readonly untilMs: number;
}
export type ComposedBy = ActOf<'addTo'>['what'] | 'start' | 'blend' | 'seed' | 'clean' | 'heat';
export type CleanedHow = ActOf<'cleanVessel'>['how'];

export interface BatchRecord extends Written {
  readonly id: BatchId;
  readonly code: string;
  readonly name: string;
  readonly ferment: FermentKind;
  readonly startedAtMs: number;
  readonly startedUl: number;
  readonly ingredients: readonly Ingredient[];
  readonly note: string;
  /** The batch this one was taken from, when it began as a part of another. */
  readonly parentBatchId: BatchId | null;
  readonly parentUl: number | null;
  /** The culture whose keeping jar this batch is. */
  readonly keepsCultureId: CultureId | null;
}

export interface CultureRecord extends Written {
  readonly id: CultureId;
  readonly name: string;
  readonly sort: CultureSort;
  readonly source: string;
  readonly note: string;
  readonly parentCultureId: CultureId | null;
  readonly sinceMs: number;
}

/** When a culture was fed; one record a feeding, so that a feeding can be struck alone. */
export interface FeedingRecord extends Written {
  readonly id: EntryId;
  readonly cultureId: CultureId;
  readonly atMs: number;
}

/** A numbered division of a culture put to work in a vessel. */
export interface PullRecord extends Written {
  readonly id: EntryId;
  readonly cultureId: CultureId;
  readonly number: number;
  readonly atMs: number;
  readonly vesselId: VesselId;
  readonly batchId: BatchId;
  readonly volumeUl: number;
}

export interface ReadingRecord extends Written {
  readonly id: EntryId;
  readonly vesselId: VesselId;
  readonly batchId: BatchId;
  readonly atMs: number;
  readonly values: ReadingValues;
}

/** A batch came into a stage in a vessel at a time; the stage band is drawn from these. */
export interface StageSpanRecord extends Written {
  /** The entry that wrote it; a dash and a number behind it for each further vessel of the same entry. */
  readonly id: string;
  readonly batchId: BatchId;
  readonly vesselId: VesselId;
  readonly stage: FilledStage;
  readonly fromMs: number;
}

/** Why bottles are kept apart that were filled from a vessel in Quarantine: nobody told it of them. */
export const APART_AS_FILLED = 'filled:quarantine';

/** Bottles filled in one go, with how many are left and what those hold. */
export interface LotRecord extends Written {
  readonly id: EntryId;
  readonly batchId: BatchId;
  readonly bottles: number;
  readonly bottleUl: number;
  readonly atMs: number;
  readonly left: number;
  /** Why it is kept apart, as it was told, or `APART_AS_FILLED`; '' when it is not. */
  readonly keptApartFor: string;
  readonly massesUg: Masses;
  readonly origins: Origins;
}

/** Something put into a liquid after its start. */
export interface AdditionRecord extends Written {
  readonly id: EntryId;
  readonly vesselId: VesselId;
  readonly batchId: BatchId;
  readonly atMs: number;
  readonly what: ActOf<'addTo'>['what'];
  readonly ingredient: Ingredient;
  readonly volumeUl: number;
}

/** Liquid came into a vessel or into bottles, from another one or from outside: a step of the pedigree. */
export interface FlowRecord extends Written {
  /** The entry that moved it, a dash, and its number in that entry. */
  readonly id: string;
  readonly atMs: number;
  readonly fromVesselId: VesselId | null;
  readonly fromBatchId: BatchId | null;
  readonly fromCultureId: CultureId | null;
  readonly fromLotId: EntryId | null;
  /** Where the liquid that was poured had stood before; empty for what came from outside the cellar. */
  readonly fromTrail: readonly TrailStep[];
  /** The vessel it came into was empty. */
  readonly ontoNothing: boolean;
  readonly toVesselId: VesselId | null;
  readonly toBatchId: BatchId | null;
  readonly toLotId: EntryId | null;
  readonly volumeUl: number;
}

/** An entry told anew: what it now says, and when it happened by that. The line itself stays as it was written. */
export interface RestatementRecord extends Written {
  readonly id: EntryId;
  readonly act: Act;
  readonly happenedAtMs: number;
}

/** What a keeper told of a vessel's liquid at a moment; the newest telling of a group counts. */
export interface ToldRecord extends Written {
  readonly id: EntryId;
  readonly vesselId: VesselId;
  readonly batchId: BatchId;
  readonly atMs: number;
  readonly facts: ToldFacts;
}

/** A verdict gone against, with the reason. It changes no verdict. */
export interface OverrulingRecord extends Written {
  readonly id: EntryId;
  readonly vesselId: VesselId;
  readonly batchId: BatchId;
  readonly use: string;
  readonly reason: string;
  readonly atMs: number;
}

/** A picture of a batch, of a vessel, or of both; the picture itself lies in the file under its checksum. */
export interface PhotoRecord extends Written {
  readonly id: EntryId;
  readonly vesselId: VesselId | null;
  readonly batchId: BatchId | null;
  readonly checksum: string;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly caption: string;
  readonly atMs: number;
}

/** What somebody tasted. It changes no verdict. */
export interface TastingRecord extends Written {
  readonly id: EntryId;
  readonly vesselId: VesselId | null;
  readonly batchId: BatchId;
  readonly words: readonly TasteWord[];
  readonly score: number | null;
  readonly text: string;
  readonly by: string;
  readonly atMs: number;
}

/** A filter of the ledger of batches that was given a name. */
export interface BatchFilterRecord extends Written {
  readonly id: FilterId;
  readonly name: string;
  readonly filter: KeptFilter;
}

export interface StrikeRecord extends Written {
  readonly id: EntryId;
}

export interface RecordsByKind {
  readonly place: PlaceRecord;
  readonly shelf: ShelfRecord;
  readonly vessel: VesselRecord;
  readonly fill: FillRecord;
  readonly batch: BatchRecord;
  readonly culture: CultureRecord;
  readonly feeding: FeedingRecord;
  readonly pull: PullRecord;
  readonly reading: ReadingRecord;
  readonly stageSpan: StageSpanRecord;
  readonly lot: LotRecord;
  readonly told: ToldRecord;
  readonly overruling: OverrulingRecord;
  readonly batchFilter: BatchFilterRecord;
  readonly photo: PhotoRecord;
  readonly tasting: TastingRecord;
  readonly strike: StrikeRecord;
  readonly addition: AdditionRecord;
  readonly flow: FlowRecord;
  readonly restatement: RestatementRecord;
}
export type RecordKind = keyof RecordsByKind;

/** Kinds in an order in which each row's parents are written before it; deletion goes the other way. */
export const RECORD_KINDS: readonly RecordKind[] = [
  'place',
  'shelf',
  'culture',
  'batch',
  'vessel',
  'fill',
  'feeding',
  'pull',
  'reading',
  'stageSpan',
  'lot',
  'told',
  'overruling',
  'batchFilter',
  'photo',
  'tasting',
  'strike',
  'addition',
  'flow',
  'restatement',
];

/** One record as it was and as it is after an entry; null means it did not or no longer exists. */
export type Change = {
  [K in RecordKind]: {
    readonly kind: K;
    readonly id: string;
    readonly before: RecordsByKind[K] | null;
    readonly after: RecordsByKind[K] | null;
  };
}[RecordKind];

/**
 * A record as it was before an entry touched it, and who had last written it when the entry was done (null: it was
 * gone). Reversal is sound only while the record still is as the entry left it, which the writer's id tells.
 */
export type PriorImage = Pick<Change, 'kind' | 'id' | 'before'> & { readonly afterWriter: EntryId | null };

export function priorImage(change: Change): PriorImage {
  const { kind, id, before, after } = change;
  return { kind, id, before, afterWriter: after?.writtenBy ?? null };
}

/** Which fields of which records point at a record of another kind. */
export const POINTERS: Partial<Record<RecordKind, readonly (readonly [RecordKind, string])[]>> = {
  place: [['shelf', 'placeId']],
  shelf: [['vessel', 'shelfId']],
  vessel: [
    ['fill', 'id'],
    ['reading', 'vesselId'],
    ['stageSpan', 'vesselId'],
    ['pull', 'vesselId'],
    ['told', 'vesselId'],
    ['overruling', 'vesselId'],
    ['photo', 'vesselId'],
    ['tasting', 'vesselId'],
    ['addition', 'vesselId'],
    ['flow', 'fromVesselId'],
    ['flow', 'toVesselId'],
  ],
  batch: [
    ['fill', 'batchId'],
    ['reading', 'batchId'],
    ['stageSpan', 'batchId'],
    ['lot', 'batchId'],
    ['pull', 'batchId'],
    ['told', 'batchId'],
    ['overruling', 'batchId'],
    ['photo', 'batchId'],
    ['tasting', 'batchId'],
    ['batch', 'parentBatchId'],
    ['addition', 'batchId'],
    ['flow', 'fromBatchId'],
    ['flow', 'toBatchId'],
  ],
  culture: [
    ['feeding', 'cultureId'],
    ['pull', 'cultureId'],
    ['batch', 'keepsCultureId'],
    ['fill', 'cultureId'],
    ['culture', 'parentCultureId'],
    ['flow', 'fromCultureId'],
  ],
  lot: [
    ['flow', 'fromLotId'],
    ['flow', 'toLotId'],
  ],
};
