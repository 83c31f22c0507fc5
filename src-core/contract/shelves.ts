import { oc } from '@orpc/contract';
import { z } from 'zod';
import { BatchId, CultureId, EntryId, PlaceId, ShelfId, VesselId } from '../ledger/ids.ts';
import { Closure, FermentKind, Material, Mouth, Silhouette, Stage } from '../ledger/stage.ts';
import {
  ACIDS,
  ACIDITY_METHODS,
  CleanedHow,
  GRAVITY_INSTRUMENTS,
  PH_METHODS,
  ReadingDetail,
  ReconcileStep,
} from '../ledger/act.ts';
import { Masses } from '../ledger/masses.ts';
import { ToldFacts } from '../ledger/told-facts.ts';
import { Verdict } from './verdict.ts';

export const DUE_ACTS = [
  'pitch',
  'gravity',
  'acidity',
  'ph',
  'rack',
  'seed',
  'taste',
  'look',
  'feed',
  'bottle',
] as const;
/** Something due: when it may first be done, when it is best done, and after when it is late. Times are epoch ms. */
export const DueCheck = z.object({
  act: z.enum(DUE_ACTS),
  earliestMs: z.number(),
  idealMs: z.number(),
  latestMs: z.number(),
  why: z.string(),
});
export type DueCheck = z.infer<typeof DueCheck>;

/** The last value worth chalking on the ticket. */
export const Headline = z.discriminatedUnion('kind', [
  z.object({
    kind: z.literal('gravity'),
    sg: z.number(),
    atMs: z.number(),
    uncertainty: z.number().nullable(),
  }),
  z.object({
    kind: z.literal('acidity'),
    uncertainty: z.number().nullable(),
    gramsPer100Ml: z.number(),
    as: z.enum(ACIDS),
    atMs: z.number(),
  }),
  z.object({ kind: z.literal('ph'), ph: z.number(), atMs: z.number(), uncertainty: z.number().nullable() }),
]);
export type Headline = z.infer<typeof Headline>;

/** One vessel as the shelf draws it. Volumes in whole microlitres; times in epoch ms. */
export const ShelfRow = z.object({
  vesselId: VesselId,
  number: z.int(),
  vesselName: z.string(),
  silhouette: Silhouette,
  capacityUl: z.int(),
  mouth: Mouth,
  material: Material,
  closure: Closure,
  shelfId: ShelfId.nullable(),
  /** Shelf letter and position, such as A2; null when not placed. */
  spot: z.string().nullable(),
  position: z.int().nullable(),
  stage: Stage,
  volumeUl: z.int(),
  onLees: z.boolean(),
  batchId: BatchId.nullable(),
  batchCode: z.string().nullable(),
  batchName: z.string().nullable(),
  ferment: FermentKind.nullable(),
  startedAtMs: z.number().nullable(),
  sinceMs: z.number().nullable(),
  stageSinceMs: z.number().nullable(),
  headline: Headline.nullable(),
  cultureName: z.string().nullable(),
  pull: z.int().nullable(),
  fedAtMs: z.number().nullable(),
  due: DueCheck.nullable(),
  /** A closure that works against the stage: a mother without air, or yeast open to it. */
  closureConcern: z.enum(['motherWithoutAir', 'yeastOpenToAir']).nullable(),
  /** Who has the vessel out of the house; '' when nobody has. */
  holder: z.string(),
  /** When an empty vessel was last cleaned; null when it was used since, holds something, or that was never told. */
  cleanedAtMs: z.number().nullable(),
  cleanedHow: CleanedHow.nullable(),
  /** Until when an empty vessel rests; null when it does not, or holds something. It may have passed. */
  restUntilMs: z.number().nullable(),
});
export type ShelfRow = z.infer<typeof ShelfRow>;

export const GROUPINGS = ['place', 'stage', 'due'] as const;
export const Grouping = z.enum(GROUPINGS);
export type Grouping = z.infer<typeof Grouping>;
export const DUE_GROUPS = ['late', 'today', 'week', 'later', 'nothing'] as const;

/** One shelf as drawn: a real shelf, a stage, or a due group. `key` is the shelf's id, `unplaced`, the stage or the due group. */
export const ShelfGroup = z.object({
  key: z.string(),
  placeName: z.string().nullable(),
  shelfName: z.string().nullable(),
  letter: z.string().nullable(),
  positions: z.int().nullable(),
  vesselCount: z.int(),
  inUse: z.int(),
  dueCount: z.int(),
  /** Largest capacity among its vessels by silhouette: the row is as tall as its tallest vessel. */
  tallest: z.array(z.object({ silhouette: Silhouette, capacityUl: z.int() })),
});
export type ShelfGroup = z.infer<typeof ShelfGroup>;

export const ShelfOverview = z.object({
  grouping: Grouping,
  groups: z.array(ShelfGroup),
  vesselCount: z.int(),
  inUse: z.int(),
  lateCount: z.int(),
  todayCount: z.int(),
  countsByStage: z.record(Stage, z.int()),
  nowMs: z.number(),
});
export type ShelfOverview = z.infer<typeof ShelfOverview>;

/** The keeper's day, so that "today" and "late" mean their day and not Greenwich's: start of today and its end, epoch ms. */
export const Today = z.strictObject({ startMs: z.number(), endMs: z.number() });

export const Place = z.object({
  placeId: PlaceId,
  name: z.string(),
  note: z.string(),
  shelves: z.array(
    z.object({
      shelfId: ShelfId,
      name: z.string(),
      letter: z.string(),
      positions: z.int(),
      /** The lowest free position, or null when the shelf is full. */
      firstFree: z.int().nullable(),
    }),
  ),
});
export type Place = z.infer<typeof Place>;

/**
 * A reading with the gravity corrected to 20 °C beside the value as read; `struck` readings are never sent. Each
 * uncertainty is the expanded one (about 95 %) that the rules use: the keeper's, or the default of the method.
 */
export const ReadingRow = z.object({
  entryId: EntryId,
  vesselId: VesselId,
  batchId: BatchId,
  atMs: z.number(),
  gravitySg: z.number().nullable(),
  gravityCorrectedSg: z.number().nullable(),
  gravityUncertainty: z.number().nullable(),
  gravityInstrument: z.enum(GRAVITY_INSTRUMENTS).nullable(),
  temperatureCelsius: z.number().nullable(),
  ph: z.number().nullable(),
  phUncertainty: z.number().nullable(),
  phMethod: z.enum(PH_METHODS).nullable(),
  acidityGramsPer100Ml: z.number().nullable(),
  acidityAs: z.enum(ACIDS).nullable(),
  acidityAsAceticGramsPer100Ml: z.number().nullable(),
  acidityMethod: z.enum(ACIDITY_METHODS).nullable(),
  acidityUncertainty: z.number().nullable(),
  volumeUl: z.int().nullable(),
  freeSulfiteMgPerL: z.number().nullable(),
  alcoholPercentVolume: z.number().nullable(),
  alcoholUncertainty: z.number().nullable(),
  detail: ReadingDetail.nullable(),
  taste: z.string(),
});
export type ReadingRow = z.infer<typeof ReadingRow>;

/** What the measured must may become: theory and plan named apart. Null parts were not measurable. Percent vol, g/100 mL. */
export const Foresight = z.object({
  originalGravitySg: z.number(),
  measuredAtMs: z.number(),
  brix: z.number(),
  alcoholTheoryPercent: z.number(),
  alcoholPlanPercent: z.number(),
  alcoholPlanUncertainty: z.number(),
  /** From the drop in gravity so far; null before the first later reading and once a mother is at work. */
  alcoholNowPercent: z.number().nullable(),
  alcoholNowUncertainty: z.number().nullable(),
  acidityTheoryGramsPer100Ml: z.number(),
  acidityPlanLowGramsPer100Ml: z.number(),
  acidityPlanHighGramsPer100Ml: z.number(),
});
export type Foresight = z.infer<typeof Foresight>;

export const OriginShare = z.object({
  batchId: BatchId,
  code: z.string(),
  name: z.string(),
  /** Exact share of the liquid, as tokens of the whole. */
  tokens: z.int(),
  ofTokens: z.int(),
});
export type OriginShare = z.infer<typeof OriginShare>;

/** Everything the side panel says of one vessel. */
export const VesselDetail = z.object({
  row: ShelfRow,
  vesselNote: z.string(),
  retired: z.boolean(),
  placeName: z.string().nullable(),
  shelfName: z.string().nullable(),
  origins: z.array(OriginShare),
  parentBatch: z
    .object({ batchId: BatchId, name: z.string(), code: z.string(), volumeUl: z.int() })
    .nullable(),
  cultureId: CultureId.nullable(),
  /** When the culture kept in this very vessel is one. */
  keepsCultureId: CultureId.nullable(),
  readings: z.array(ReadingRow),
  due: z.array(DueCheck),
  verdicts: z.array(Verdict),
  /** What was told of what stands in it, as far as it still counts. */
  told: ToldFacts,
  foresight: Foresight.nullable(),
  /** The newest level read off the vessel against the book, when they differ by more than the reading's own error. */
  volumeFinding: z
    .object({ readUl: z.int(), bookUl: z.int(), toleranceUl: z.int(), atMs: z.number() })
    .nullable(),
});

export type VesselDetail = z.infer<typeof VesselDetail>;

/** A reading departs from what the book says a liquid is made of; `steps` would settle it by a `reconcile` act. */
export const BookFinding = z.object({
  what: z.enum(['composition', 'alcohol', 'acid', 'salt']),
  readingId: EntryId,
  atMs: z.number(),
  /** % vol for alcohol, g/100 mL as acetic for acid, % m/m for salt; null for what was never measured. */
  bookValue: z.number().nullable(),
  readValue: z.number().nullable(),
  tolerance: z.number(),
  steps: z.array(ReconcileStep),
  doubt: z
    .enum(['neverMeasured', 'moreAlcoholThanSugar', 'moreAcidThanAlcohol', 'lessThanBefore'])
    .nullable(),
});
export type BookFinding = z.infer<typeof BookFinding>;

/** What the book says stands in a vessel: its weight by component, its age, and what readings find against it. */
export const BookOfVessel = z.object({
  vesselId: VesselId,
  volumeUl: z.int(),
  massesUg: Masses,
  age: z.object({ mean: z.number(), youngest: z.number(), oldest: z.number() }).nullable(),
  findings: z.array(BookFinding),
});
export type BookOfVessel = z.infer<typeof BookOfVessel>;

const notFound = {
  NOT_FOUND: { status: 404, data: z.object({ what: z.string(), id: z.string() }) },
} as const;

export const shelvesContract = {
  overview: oc.input(z.strictObject({ grouping: Grouping, today: Today })).output(ShelfOverview),
  page: oc
    .input(
      z.strictObject({
        grouping: Grouping,
        key: z.string().max(60),
        today: Today,
        offset: z.int().min(0).max(10_000_000),
        limit: z.int().min(1).max(2000),
      }),
    )
    .output(z.object({ rows: z.array(ShelfRow) })),
  vessel: oc
    .input(z.strictObject({ vesselId: VesselId }))
    .output(VesselDetail)
    .errors(notFound),
  /** What the book weighs in a filled vessel, against its readings. */
  bookOf: oc
    .input(z.strictObject({ vesselId: VesselId }))
    .output(BookOfVessel)
    .errors(notFound),
  places: oc.output(z.array(Place)),
  /** Vessels to choose from in a form: by what is wanted of them, and by text. At most `limit`. */
  choose: oc
    .input(
      z.strictObject({
        wanted: z.enum(['empty', 'filled', 'any', 'holdsCulture']),
        text: z.string().max(200),
        limit: z.int().min(1).max(200),
      }),
    )
    .output(z.array(ShelfRow)),
};
