import { z } from 'zod';
import { COST_HUNDREDTHS_MAX } from '../quantities/parse-cost.ts';
import { KeptFilter } from './batch-filter.ts';
import { MASS_MAX_UG, Masses } from './masses.ts';
import { ToldFacts } from './told-facts.ts';
import { BatchId, CultureId, EntryId, FilterId, PlaceId, ShelfId, VesselId } from './ids.ts';
import { SCORE_MAX, SCORE_MIN, TasteWord } from './taste-words.ts';
import { Closure, CultureSort, FermentKind, FilledStage, Material, Mouth, Silhouette } from './stage.ts';

/** Largest volume of one amount: 9e15 µL would still be exact; a cellar vessel is capped at 100,000 L. */
export const VOLUME_MAX_UL = 100_000_000_000;

const hasNoControls = (text: string): boolean =>
  !/[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f]/u.test(text);
/** Text a person can write: no control characters, and no half of a surrogate pair, which no file of text can hold. */
const plain = (max: number) =>
  z
    .string()
    .max(max)
    .refine(hasNoControls, { error: 'no control characters' })
    .refine((text) => text.isWellFormed(), { error: 'whole characters' });

/** A name: one line, 1 to 120 characters after trimming. */
export const Name = plain(120)
  .trim()
  .min(1)
  .refine((text) => !text.includes('\n'), { error: 'one line' });
/** A note: any text up to 4,000 characters, line breaks allowed. */
export const NoteText = plain(4000).trim();
export const VolumeUl = z.int().min(1).max(VOLUME_MAX_UL);
const VolumeOrNoneUl = z.int().min(0).max(VOLUME_MAX_UL);

const placeFields = { name: Name, note: NoteText };
const shelfFields = {
  name: Name,
  letter: z.string().regex(/^[A-Z]{1,2}$/),
  positions: z.int().min(1).max(2000),
};
const standsAt = { shelfId: ShelfId.nullable(), position: z.int().min(1).max(2000).nullable() };
const vesselFields = {
  name: plain(120).trim(),
  silhouette: Silhouette,
  capacityUl: VolumeUl,
  mouth: Mouth,
  material: Material,
  closure: Closure,
  note: NoteText,
};
const cultureFields = { name: Name, sort: CultureSort, source: NoteText, note: NoteText };

export const ACIDS = ['acetic', 'malic', 'tartaric', 'citric', 'lactic', 'sulfuric'] as const;
export const GRAVITY_INSTRUMENTS = ['hydrometer', 'refractometer', 'laboratory'] as const;
export const ACIDITY_METHODS = ['syringeKit', 'burette', 'laboratory', 'label'] as const;
export const PH_METHODS = [
  'meterToday',
  'meterThisWeek',
  'meterUnknown',
  'narrowStrip',
  'wideStrip',
] as const;

const whenMs = z.int().min(0).max(7_258_118_400_000).nullable();
const yesNo = z.boolean().nullable();

/** How a titration was done: all that decides whether its result can be used (safety rule MEAS-06). */
export const TitrationDetail = z.strictObject({
  sampleMl: z.number().gt(0).max(1000),
  /** Each replicate's titrant, mL, as read off the burette or syringe. */
  titrantMl: z.array(z.number().min(0).max(500)).min(1).max(10),
  blankMl: z.number().min(0).max(100),
  normality: z.number().gt(0).max(5),
  baseCheckedAtMs: whenMs,
  baseBoughtAtMs: whenMs,
  baseNewlyOpened: yesNo,
  endPoint: z.enum(['colour', 'meter']).nullable(),
  darkSample: yesNo,
  fizzySample: yesNo,
  degassed: yesNo,
});
export type TitrationDetail = z.infer<typeof TitrationDetail>;

/** What was said of how the values were found. Absent in entries of an earlier day, which is the same as nothing said. */
export const ReadingDetail = z.strictObject({
  titration: TitrationDetail.nullable(),
  acidityBasis: z.enum(['w/v', 'w/w']).nullable(),
  fixedAcidGramsPer100Ml: z.number().min(0).max(20).nullable(),
  gravityUncertainty: z.number().gt(0).max(0.1).nullable(),
  phUncertainty: z.number().gt(0).max(5).nullable(),
  phSampleFrom: z.enum(['brine', 'blended', 'surface', 'bottle']).nullable(),
  phEquilibriumShown: yesNo,
  alcoholMethod: z.enum(['alcoholFromGravities', 'alcoholLaboratory', 'ebulliometer']).nullable(),
  alcoholUncertainty: z.number().gt(0).max(10).nullable(),
  totalSulfiteMgPerL: z.number().min(0).max(5000).nullable(),
  saltPercent: z.number().min(0).max(40).nullable(),
});
export type ReadingDetail = z.infer<typeof ReadingDetail>;

/**
 * What was read off the instruments, in canonical units. Every value is optional, at least one must be there.
 * Gravity is the specific gravity as read (20/20 °C scale when `gravityCalibrationCelsius` is 20); the corrected
 * value is worked out from it and never stored in its place.
 */
export const ReadingValues = z
  .strictObject({
    gravitySg: z.number().min(0.9).max(1.6).nullable(),
    gravityInstrument: z.enum(GRAVITY_INSTRUMENTS).nullable(),
    gravityCalibrationCelsius: z.number().min(0).max(40).nullable(),
    temperatureCelsius: z.number().min(-20).max(100).nullable(),
    ph: z.number().min(0).max(14).nullable(),
    phMethod: z.enum(PH_METHODS).nullable(),
    acidityGramsPer100Ml: z.number().min(0).max(100).nullable(),
    acidityAs: z.enum(ACIDS).nullable(),
    acidityMethod: z.enum(ACIDITY_METHODS).nullable(),
    acidityUncertainty: z.number().min(0).max(20).nullable(),
    volumeUl: VolumeUl.nullable(),
    freeSulfiteMgPerL: z.number().min(0).max(5000).nullable(),
    alcoholPercentVolume: z.number().min(0).max(100).nullable(),
    taste: NoteText,
    detail: ReadingDetail.nullable().optional(),
  })
  .refine(
    (v) =>
      v.gravitySg !== null ||
      v.temperatureCelsius !== null ||
      v.ph !== null ||
      v.acidityGramsPer100Ml !== null ||
      v.volumeUl !== null ||
      v.freeSulfiteMgPerL !== null ||
      v.alcoholPercentVolume !== null ||
      (v.detail?.totalSulfiteMgPerL ?? null) !== null ||
      (v.detail?.saltPercent ?? null) !== null ||
      v.taste !== '',
    { error: 'a reading needs at least one value' },
  );
export type ReadingValues = z.infer<typeof ReadingValues>;

/** No value read: what a reading with one value is made from. By itself it is not a reading. */
export const NOTHING_READ: ReadingValues = {
  gravitySg: null,
  gravityInstrument: null,
  gravityCalibrationCelsius: null,
  temperatureCelsius: null,
  ph: null,
  phMethod: null,
  acidityGramsPer100Ml: null,
  acidityAs: null,
  acidityMethod: null,
  acidityUncertainty: null,
  volumeUl: null,
  freeSulfiteMgPerL: null,
  alcoholPercentVolume: null,
  taste: '',
};

/** What went into a must or a jar besides the volume: a name and an amount, kept with the text as typed. */
export const Ingredient = z.strictObject({
  name: Name,
  amountTyped: plain(60).trim(),
  massUg: z.int().min(0).max(9e15).nullable(),
  /** What it cost, in hundredths of the house currency; absent and null are both not told. */
  costHundredths: z.int().min(0).max(COST_HUNDREDTHS_MAX).nullable().optional(),
});
export type Ingredient = z.infer<typeof Ingredient>;

/** What came in weighs so much by component, as far as it was measured; worked out when it is written. */
const weighed = { massesUg: Masses.optional() };

/** Liquids that shrink as they join: worked out when the line is written, so that a later program reads the same book. */
const Contraction = z.strictObject({ vesselId: VesselId, contractionUl: VolumeUl });
const shrinks = { contractions: z.array(Contraction).min(1).max(60).optional() };

const AddPlace = z.strictObject({ kind: z.literal('addPlace'), placeId: PlaceId, ...placeFields });
const AddShelf = z.strictObject({
  kind: z.literal('addShelf'),
  shelfId: ShelfId,
  placeId: PlaceId,
  ...shelfFields,
});
const AddVessel = z.strictObject({
  kind: z.literal('addVessel'),
  vesselId: VesselId,
  number: z.int().min(1),
  ...vesselFields,
  ...standsAt,
});
const AddCulture = z.strictObject({
  kind: z.literal('addCulture'),
  cultureId: CultureId,
  ...cultureFields,
  parentCultureId: CultureId.nullable(),
  standing: z
    .strictObject({ vesselId: VesselId, volumeUl: VolumeUl, batchId: BatchId, code: Name })
    .nullable(),
});
const KeepBatchFilter = z.strictObject({
  kind: z.literal('keepBatchFilter'),
  filterId: FilterId,
  name: Name,
  filter: KeptFilter,
});
const StartBatch = z.strictObject({
  kind: z.literal('startBatch'),
  batchId: BatchId,
  code: Name,
  name: Name,
  ferment: FermentKind,
  vesselId: VesselId,
  volumeUl: VolumeUl,
  stage: FilledStage,
  ingredients: z.array(Ingredient).max(60),
  measured: ReadingValues.nullable(),
  note: NoteText,
  /** The batch it makes again. */
  repeatsBatchId: BatchId.nullable().optional(),
  ...weighed,
});
const NewBatch = z
  .strictObject({ batchId: BatchId, code: Name, name: Name, ferment: FermentKind })
  .nullable();
const NewBatchDraft = z.strictObject({ name: Name, ferment: FermentKind }).nullable();
const ADDITION_KINDS = [
  ...(['water', 'juice', 'sugar', 'honey', 'fruit', 'spirit', 'salt', 'acid'] as const),
  ...(['sulfite', 'nutrient', 'other'] as const),
] as const;
const AddTo = z.strictObject({
  kind: z.literal('addTo'),
  vesselId: VesselId,
  what: z.enum(ADDITION_KINDS),
  ingredient: Ingredient,
  /** Strength of a spirit, as its label says; absent and null are both not told. */
  alcoholPercentVolume: z.number().gt(0).max(100).nullable().optional(),
  volumeUl: VolumeOrNoneUl,
  ...weighed,
  ...shrinks,
});
const Seed = z.strictObject({
  kind: z.literal('seed'),
  vesselId: VesselId,
  cultureId: CultureId.nullable(),
  fromVesselId: VesselId.nullable(),
  volumeUl: VolumeOrNoneUl,
  what: plain(120).trim(),
  toStage: FilledStage,
  ...weighed,
  ...shrinks,
});
const part = { toVesselId: VesselId, volumeUl: VolumeUl, toStage: FilledStage.nullable() };
const Split = z.strictObject({
  kind: z.literal('split'),
  fromVesselId: VesselId,
  leesUl: VolumeOrNoneUl,
  parts: z
    .array(z.strictObject({ ...part, newBatch: NewBatch }))
    .min(1)
    .max(60),
  ...shrinks,
});
const SplitDraft = Split.omit({ contractions: true }).extend({
  parts: z
    .array(z.strictObject({ ...part, newBatch: NewBatchDraft }))
    .min(1)
    .max(60),
});
const Blend = z.strictObject({
  kind: z.literal('blend'),
  toVesselId: VesselId,
  parts: z
    .array(z.strictObject({ fromVesselId: VesselId, volumeUl: VolumeUl }))
    .min(1)
    .max(60),
  newBatch: NewBatch,
  toStage: FilledStage.nullable(),
  ...shrinks,
});
const DrawAndRefill = z.strictObject({
  kind: z.literal('drawAndRefill'),
  vesselId: VesselId,
  drawnUl: VolumeUl,
  /** Where what is drawn goes; null when it leaves the cellar. */
  toVesselId: VesselId.nullable(),
  newBatch: NewBatch,
  toStage: FilledStage.nullable(),
  fromVesselId: VesselId,
  refillUl: VolumeUl,
  ...shrinks,
});
const MassUg = z.int().min(1).max(MASS_MAX_UG);
const Ppm = z.int().min(0).max(1_000_000);
/** Living work or an assay, in whole micrograms; yields and shares in millionths. */
export const ReconcileStep = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('ferment'), sugarUg: MassUg, yieldPpm: Ppm }),
  z.strictObject({ kind: z.literal('acetify'), ethanolUg: MassUg, acidSharePpm: Ppm }),
  z.strictObject({ kind: z.literal('sour'), sugarUg: MassUg }),
  z.strictObject({ kind: z.literal('overOxidise'), aceticUg: MassUg }),
  /** Measured: the whole of it, or only the components named; what these grow by comes out of what was never measured. */
  z.strictObject({ kind: z.literal('assay'), massesUg: Masses, whole: z.boolean() }),
]);
const Transfer = z.strictObject({
  kind: z.literal('transfer'),
  fromVesselId: VesselId,
  toVesselId: VesselId,
  volumeUl: VolumeUl,
  leesUl: VolumeOrNoneUl,
  newBatch: NewBatch,
  toStage: FilledStage.nullable(),
  ...shrinks,
});
const ReturnBottles = z.strictObject({
  kind: z.literal('returnBottles'),
  lotId: EntryId,
  bottles: z.int().min(1).max(10_000),
  toVesselId: VesselId,
  lossUl: VolumeOrNoneUl,
  toStage: FilledStage.nullable(),
  note: NoteText,
  ...shrinks,
});

/** What a picture shows or a keeper tastes: a batch, or a vessel and whatever it holds at that moment. */
const ShownOrTasted = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('vessel'), vesselId: VesselId }),
  z.strictObject({ kind: z.literal('batch'), batchId: BatchId }),
]);

/** SHA-256 (FIPS 180-4) of a picture's bytes, in lower-case hex: the name by which the file keeps it. */
export const Checksum = z.string().regex(/^[0-9a-f]{64}$/);
/** Longest side of a kept picture, px. */
export const PHOTO_SIDE_PX_MAX = 4096;
const PhotoSide = z.int().min(1).max(PHOTO_SIDE_PX_MAX);
const Caption = plain(240)
  .trim()
  .refine((text) => !text.includes('\n'), { error: 'one line' });

/** A picture tied to what it shows. Its bytes are no part of the act: they lie in the file under their checksum. */
export const AddPhoto = z.strictObject({
  kind: z.literal('addPhoto'),
  about: ShownOrTasted,
  checksum: Checksum,
  widthPx: PhotoSide,
  heightPx: PhotoSide,
  caption: Caption,
});

/** How a vessel was cleaned. */
export const CleanedHow = z.enum(['rinsed', 'washed', 'sanitised', 'heated']);

/** Acts that create nothing with an id of its own: asked for just as they are written. */
const AS_WRITTEN = [
  z.strictObject({
    kind: z.literal('editBatchFilter'),
    filterId: FilterId,
    name: Name,
    filter: KeptFilter,
  }),
  z.strictObject({ kind: z.literal('dropBatchFilter'), filterId: FilterId }),
  z.strictObject({ kind: z.literal('editPlace'), placeId: PlaceId, ...placeFields }),
  z.strictObject({
    kind: z.literal('editShelf'),
    shelfId: ShelfId,
    name: Name,
    positions: shelfFields.positions,
  }),
  z.strictObject({ kind: z.literal('editVessel'), vesselId: VesselId, ...vesselFields }),
  z.strictObject({ kind: z.literal('moveVessel'), vesselId: VesselId, ...standsAt }),
  z.strictObject({ kind: z.literal('retireVessel'), vesselId: VesselId, reason: NoteText }),
  z.strictObject({ kind: z.literal('editCulture'), cultureId: CultureId, ...cultureFields }),
  z.strictObject({ kind: z.literal('feedCulture'), cultureId: CultureId, text: NoteText }),
  z.strictObject({
    kind: z.literal('editBatch'),
    batchId: BatchId,
    name: Name,
    ferment: FermentKind,
    note: NoteText,
  }),
  z.strictObject({
    kind: z.literal('pitchYeast'),
    vesselId: VesselId,
    cultureId: CultureId.nullable(),
    yeast: plain(120).trim(),
    massUg: z.int().min(0).max(9e15).nullable(),
  }),
  z.strictObject({ kind: z.literal('recordReading'), vesselId: VesselId, values: ReadingValues }),
  z.strictObject({
    kind: z.literal('changeStage'),
    vesselId: VesselId,
    stage: FilledStage,
    reason: NoteText,
  }),
  z.strictObject({ kind: z.literal('changeClosure'), vesselId: VesselId, closure: Closure }),
  z.strictObject({ kind: z.literal('drawOff'), vesselId: VesselId, volumeUl: VolumeUl, purpose: NoteText }),
  z.strictObject({
    kind: z.literal('bottle'),
    vesselId: VesselId,
    bottles: z.int().min(1).max(10_000),
    bottleUl: VolumeUl,
    lossUl: VolumeOrNoneUl,
    note: NoteText,
  }),
  z.strictObject({ kind: z.literal('discard'), vesselId: VesselId, volumeUl: VolumeUl, reason: NoteText }),
  z.strictObject({
    kind: z.literal('settleVolume'),
    vesselId: VesselId,
    volumeUl: VolumeUl,
    cause: z.enum(['evaporation', 'loss', 'correction']),
  }),
  z.strictObject({
    kind: z.literal('sample'),
    vesselId: VesselId,
    volumeUl: VolumeUl,
    purpose: z.enum(['gravity', 'titration', 'ph', 'tasting', 'other']),
    note: NoteText,
  }),
  z.strictObject({
    kind: z.literal('filter'),
    vesselId: VesselId,
    how: z.enum(['cloth', 'paper', 'pads', 'membrane', 'fined']),
    lossUl: VolumeOrNoneUl,
    note: NoteText,
  }),
  z.strictObject({
    kind: z.literal('cleanVessel'),
    vesselId: VesselId,
    how: CleanedHow,
    restUntilMs: whenMs,
    note: NoteText,
  }),
  z.strictObject({
    kind: z.literal('lendVessel'),
    vesselId: VesselId,
    /** Who has it; '' when it is back. */
    holder: plain(120).trim(),
    note: NoteText,
  }),
  z.strictObject({
    kind: z.literal('takeBottles'),
    lotId: EntryId,
    bottles: z.int().min(1).max(10_000),
    how: z.enum(['opened', 'given', 'broken']),
    holder: plain(120).trim(),
    note: NoteText,
  }),
  z.strictObject({
    kind: z.literal('reconcile'),
    vesselId: VesselId,
    /** The reading it was settled by; null when by none. */
    readingId: EntryId.nullable(),
    steps: z.array(ReconcileStep).min(1).max(8),
    note: NoteText,
  }),
  z.strictObject({
    kind: z.literal('quarantine'),
    /** What it began with: all that descends from it is listed below. */
    root: z.discriminatedUnion('kind', [
      z.strictObject({ kind: z.literal('batch'), batchId: BatchId }),
      z.strictObject({ kind: z.literal('culture'), cultureId: CultureId }),
      z.strictObject({ kind: z.literal('lot'), lotId: EntryId }),
      z.strictObject({ kind: z.literal('vessel'), vesselId: VesselId }),
    ]),
    vesselIds: z.array(VesselId).max(20_000),
    lotIds: z.array(EntryId).max(20_000),
    reason: NoteText.min(3),
  }),
  z.strictObject({ kind: z.literal('releaseBottles'), lotId: EntryId, reason: NoteText.min(3) }),
  z.strictObject({ kind: z.literal('tellFacts'), vesselId: VesselId, facts: ToldFacts }),
  z.strictObject({
    kind: z.literal('heat'),
    vesselId: VesselId,
    reachedCelsius: z.number().min(20).max(130),
    minutes: z.number().min(0).max(1440),
    note: NoteText,
  }),
  z.strictObject({
    kind: z.literal('overrule'),
    vesselId: VesselId,
    use: z.string().regex(/^[a-zA-Z]{1,40}$/),
    reason: NoteText.min(3),
  }),
  z.strictObject({
    kind: z.literal('note'),
    about: z.discriminatedUnion('kind', [
      z.strictObject({ kind: z.literal('vessel'), vesselId: VesselId }),
      z.strictObject({ kind: z.literal('batch'), batchId: BatchId }),
      z.strictObject({ kind: z.literal('culture'), cultureId: CultureId }),
    ]),
    text: NoteText.min(1),
  }),
  AddPhoto,
  z.strictObject({ kind: z.literal('editCaption'), photoId: EntryId, caption: Caption }),
  z.strictObject({
    kind: z.literal('tasteNote'),
    about: ShownOrTasted,
    /** Words of the wheel, each at most once. */
    words: z
      .array(TasteWord)
      .max(24)
      .refine((words) => new Set(words).size === words.length, { error: 'each word once' }),
    score: z.int().min(SCORE_MIN).max(SCORE_MAX).nullable(),
    text: NoteText,
    /** Who tasted; '' when it was not said. */
    by: plain(60)
      .trim()
      .refine((text) => !text.includes('\n'), { error: 'one line' }),
  }),
] as const;

const FACTS = [
  AddPlace,
  AddShelf,
  AddVessel,
  AddCulture,
  KeepBatchFilter,
  StartBatch,
  AddTo,
  Seed,
  Transfer,
  Split,
  Blend,
  DrawAndRefill,
  ReturnBottles,
  ...AS_WRITTEN,
] as const;
/** What an earlier entry should have said; null takes it back. When it happened is said each time. */
const correction = { entryId: EntryId, happenedAtMs: z.int().min(0).max(7_258_118_400_000) };
/** An act that is no correction of another. */
export const FactOfTheCellar = z.discriminatedUnion('kind', FACTS);

/** The acts the book knows. Each is a fact of the cellar as it is written into an entry, ids included. */
export const Act = z.discriminatedUnion('kind', [
  ...FACTS,
  z.strictObject({
    kind: z.literal('restate'),
    corrections: z
      .array(z.strictObject({ ...correction, act: FactOfTheCellar.nullable() }))
      .min(1)
      .max(400),
    reason: NoteText,
    /** What shrinks at each line that is told, or played again; absent where nothing does. */
    contractions: z
      .array(Contraction.extend({ entryId: EntryId }))
      .min(1)
      .max(100_000)
      .optional(),
  }),
  z.strictObject({ kind: z.literal('reverse'), entryId: EntryId, how: z.enum(['undo', 'redo', 'strike']) }),
]);
export type Act = z.infer<typeof Act>;
export type ActKind = Act['kind'];
export type ActOf<K extends ActKind> = Extract<Act, { kind: K }>;

/**
 * An act as the keeper asks for it: the ids, numbers and codes of what it creates are given out when it is
 * written, so a draft leaves them away.
 */
export const ActDraft = z.discriminatedUnion('kind', [
  AddPlace.omit({ placeId: true }),
  AddShelf.omit({ shelfId: true, letter: true }),
  AddVessel.omit({ vesselId: true, number: true }),
  AddCulture.omit({ cultureId: true, standing: true }).extend({
    standing: z.strictObject({ vesselId: VesselId, volumeUl: VolumeUl }).nullable(),
  }),
  KeepBatchFilter.omit({ filterId: true }),
  StartBatch.omit({ batchId: true, code: true, massesUg: true }),
  AddTo.omit({ massesUg: true, contractions: true }),
  Seed.omit({ massesUg: true, contractions: true }),
  Transfer.omit({ contractions: true }).extend({ newBatch: NewBatchDraft }),
  SplitDraft,
  Blend.omit({ contractions: true }).extend({ newBatch: NewBatchDraft }),
  DrawAndRefill.omit({ contractions: true }).extend({ newBatch: NewBatchDraft }),
  ReturnBottles.omit({ contractions: true }),
  ...AS_WRITTEN,
]);
export type ActDraft = z.infer<typeof ActDraft>;
