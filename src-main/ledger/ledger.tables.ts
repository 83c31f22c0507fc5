import { integer, real, sqliteTable, text } from 'drizzle-orm/sqlite-core';
import type { Act, ActOf, Ingredient } from '#core/ledger/act.ts';
import type { KeptFilter } from '#core/ledger/batch-filter.ts';
import type { BatchId, CultureId, EntryId, FilterId, PlaceId, ShelfId, VesselId } from '#core/ledger/ids.ts';
import type { Origins } from '#core/ledger/liquid.ts';
import type { Masses } from '#core/ledger/masses.ts';
import type { CleanedHow, ComposedBy, TrailStep } from '#core/ledger/records.ts';
import type {
  Closure,
  CultureSort,
  FermentKind,
  FilledStage,
  Material,
  Mouth,
  Silhouette,
} from '#core/ledger/stage.ts';
import type { ReadingValues } from '#core/ledger/act.ts';
import type { TasteWord } from '#core/ledger/taste-words.ts';
import type { ToldFacts } from '#core/ledger/told-facts.ts';

/** Tables as `migrations/` makes them; a test compares the two column by column. */
const masses = () => text('masses_ug', { mode: 'json' }).$type<Masses>().notNull();
const writtenBy = () => text('written_by').$type<EntryId>().notNull();

export const entryTable = sqliteTable('entry', {
  sequence: integer('sequence').primaryKey(),
  entryId: text('entry_id').$type<EntryId>().notNull(),
  requestId: text('request_id').notNull(),
  kind: text('kind').notNull(),
  happenedAtMs: integer('happened_at_ms').notNull(),
  writtenAtMs: integer('written_at_ms').notNull(),
  actFormat: integer('act_format').notNull(),
  act: text('act').notNull(),
  postings: text('postings').notNull(),
  typed: text('typed').notNull(),
});

export const entrySubjectTable = sqliteTable('entry_subject', {
  kind: text('kind').$type<'vessel' | 'batch' | 'culture'>().notNull(),
  subjectId: text('subject_id').notNull(),
  sequence: integer('sequence').notNull(),
});

export const entryImageTable = sqliteTable('entry_image', {
  sequence: integer('sequence').notNull(),
  ordinal: integer('ordinal').notNull(),
  recordKind: text('record_kind').notNull(),
  recordId: text('record_id').notNull(),
  before: text('before'),
  afterWriter: text('after_writer').$type<EntryId>(),
});

export const placeTable = sqliteTable('place', {
  id: text('id').$type<PlaceId>().primaryKey(),
  name: text('name').notNull(),
  note: text('note').notNull(),
  writtenBy: writtenBy(),
});

export const shelfTable = sqliteTable('shelf', {
  id: text('id').$type<ShelfId>().primaryKey(),
  placeId: text('place_id').$type<PlaceId>().notNull(),
  name: text('name').notNull(),
  letter: text('letter').notNull(),
  positions: integer('positions').notNull(),
  writtenBy: writtenBy(),
});

export const cultureTable = sqliteTable('culture', {
  id: text('id').$type<CultureId>().primaryKey(),
  name: text('name').notNull(),
  sort: text('sort').$type<CultureSort>().notNull(),
  source: text('source').notNull(),
  note: text('note').notNull(),
  parentCultureId: text('parent_culture_id').$type<CultureId>(),
  sinceMs: integer('since_ms').notNull(),
  writtenBy: writtenBy(),
});

export const batchTable = sqliteTable('batch', {
  id: text('id').$type<BatchId>().primaryKey(),
  code: text('code').notNull(),
  name: text('name').notNull(),
  ferment: text('ferment').$type<FermentKind>().notNull(),
  startedAtMs: integer('started_at_ms').notNull(),
  startedUl: integer('started_ul').notNull(),
  ingredients: text('ingredients', { mode: 'json' }).$type<readonly Ingredient[]>().notNull(),
  note: text('note').notNull(),
  parentBatchId: text('parent_batch_id').$type<BatchId>(),
  parentUl: integer('parent_ul'),
  keepsCultureId: text('keeps_culture_id').$type<CultureId>(),
  writtenBy: writtenBy(),
});

export const vesselTable = sqliteTable('vessel', {
  id: text('id').$type<VesselId>().primaryKey(),
  number: integer('number').notNull(),
  name: text('name').notNull(),
  silhouette: text('silhouette').$type<Silhouette>().notNull(),
  capacityUl: integer('capacity_ul').notNull(),
  mouth: text('mouth').$type<Mouth>().notNull(),
  material: text('material').$type<Material>().notNull(),
  closure: text('closure').$type<Closure>().notNull(),
  note: text('note').notNull(),
  shelfId: text('shelf_id').$type<ShelfId>(),
  position: integer('position'),
  retired: integer('retired', { mode: 'boolean' }).notNull(),
  writtenBy: writtenBy(),
  closureSinceMs: integer('closure_since_ms').notNull(),
  cleanedAtMs: integer('cleaned_at_ms'),
  cleanedHow: text('cleaned_how').$type<CleanedHow>(),
  restUntilMs: integer('rest_until_ms'),
  holder: text('holder').notNull(),
});

export const fillTable = sqliteTable('fill', {
  id: text('id').$type<VesselId>().primaryKey(),
  batchId: text('batch_id').$type<BatchId>().notNull(),
  volumeUl: integer('volume_ul').notNull(),
  stage: text('stage').$type<FilledStage>().notNull(),
  stageSinceMs: integer('stage_since_ms').notNull(),
  sinceMs: integer('since_ms').notNull(),
  cultureId: text('culture_id').$type<CultureId>(),
  pull: integer('pull'),
  origins: text('origins', { mode: 'json' }).$type<Origins>().notNull(),
  composedAtMs: integer('composed_at_ms').notNull(),
  composedBy: text('composed_by').$type<ComposedBy>().notNull(),
  trail: text('trail', { mode: 'json' }).$type<readonly TrailStep[]>().notNull(),
  onLees: integer('on_lees', { mode: 'boolean' }).notNull(),
  writtenBy: writtenBy(),
  massesUg: masses(),
  settledAtMs: integer('settled_at_ms').notNull(),
});

export const feedingTable = sqliteTable('feeding', {
  id: text('id').$type<EntryId>().primaryKey(),
  cultureId: text('culture_id').$type<CultureId>().notNull(),
  atMs: integer('at_ms').notNull(),
  writtenBy: writtenBy(),
});

export const pullTable = sqliteTable('pull', {
  id: text('id').$type<EntryId>().primaryKey(),
  cultureId: text('culture_id').$type<CultureId>().notNull(),
  number: integer('number').notNull(),
  atMs: integer('at_ms').notNull(),
  vesselId: text('vessel_id').$type<VesselId>().notNull(),
  batchId: text('batch_id').$type<BatchId>().notNull(),
  volumeUl: integer('volume_ul').notNull(),
  writtenBy: writtenBy(),
});

export const readingTable = sqliteTable('reading', {
  id: text('id').$type<EntryId>().primaryKey(),
  vesselId: text('vessel_id').$type<VesselId>().notNull(),
  batchId: text('batch_id').$type<BatchId>().notNull(),
  atMs: integer('at_ms').notNull(),
  gravitySg: real('gravity_sg'),
  gravityInstrument: text('gravity_instrument').$type<ReadingValues['gravityInstrument']>(),
  gravityCalibrationCelsius: real('gravity_calibration_celsius'),
  temperatureCelsius: real('temperature_celsius'),
  ph: real('ph'),
  phMethod: text('ph_method').$type<ReadingValues['phMethod']>(),
  acidityGramsPer100Ml: real('acidity_grams_per_100_ml'),
  acidityAs: text('acidity_as').$type<ReadingValues['acidityAs']>(),
  acidityMethod: text('acidity_method').$type<ReadingValues['acidityMethod']>(),
  acidityUncertainty: real('acidity_uncertainty'),
  volumeUl: integer('volume_ul'),
  freeSulfiteMgPerL: real('free_sulfite_mg_per_l'),
  alcoholPercentVolume: real('alcohol_percent_volume'),
  taste: text('taste').notNull(),
  writtenBy: writtenBy(),
  detail: text('detail'),
});

export const stageSpanTable = sqliteTable('stage_span', {
  id: text('id').primaryKey(),
  batchId: text('batch_id').$type<BatchId>().notNull(),
  vesselId: text('vessel_id').$type<VesselId>().notNull(),
  stage: text('stage').$type<FilledStage>().notNull(),
  fromMs: integer('from_ms').notNull(),
  writtenBy: writtenBy(),
});

export const lotTable = sqliteTable('lot', {
  id: text('id').$type<EntryId>().primaryKey(),
  batchId: text('batch_id').$type<BatchId>().notNull(),
  bottles: integer('bottles').notNull(),
  bottleUl: integer('bottle_ul').notNull(),
  atMs: integer('at_ms').notNull(),
  writtenBy: writtenBy(),
  left: integer('bottles_left').notNull(),
  keptApartFor: text('kept_apart_for').notNull(),
  massesUg: masses(),
  origins: text('origins', { mode: 'json' }).$type<Origins>().notNull(),
});

export const toldTable = sqliteTable('told', {
  id: text('id').$type<EntryId>().primaryKey(),
  vesselId: text('vessel_id').$type<VesselId>().notNull(),
  batchId: text('batch_id').$type<BatchId>().notNull(),
  atMs: integer('at_ms').notNull(),
  facts: text('facts', { mode: 'json' }).$type<ToldFacts>().notNull(),
  writtenBy: writtenBy(),
});

export const overrulingTable = sqliteTable('overruling', {
  id: text('id').$type<EntryId>().primaryKey(),
  vesselId: text('vessel_id').$type<VesselId>().notNull(),
  batchId: text('batch_id').$type<BatchId>().notNull(),
  use: text('use').notNull(),
  reason: text('reason').notNull(),
  atMs: integer('at_ms').notNull(),
  writtenBy: writtenBy(),
});

export const photoTable = sqliteTable('photo', {
  id: text('id').$type<EntryId>().primaryKey(),
  vesselId: text('vessel_id').$type<VesselId>(),
  batchId: text('batch_id').$type<BatchId>(),
  checksum: text('checksum').notNull(),
  widthPx: integer('width_px').notNull(),
  heightPx: integer('height_px').notNull(),
  caption: text('caption').notNull(),
  atMs: integer('at_ms').notNull(),
  writtenBy: writtenBy(),
});

export const tastingTable = sqliteTable('tasting', {
  id: text('id').$type<EntryId>().primaryKey(),
  vesselId: text('vessel_id').$type<VesselId>(),
  batchId: text('batch_id').$type<BatchId>().notNull(),
  words: text('words', { mode: 'json' }).$type<readonly TasteWord[]>().notNull(),
  score: integer('score'),
  text: text('text').notNull(),
  by: text('tasted_by').notNull(),
  atMs: integer('at_ms').notNull(),
  writtenBy: writtenBy(),
});

export const batchFilterTable = sqliteTable('batch_filter', {
  id: text('id').$type<FilterId>().primaryKey(),
  name: text('name').notNull(),
  filter: text('filter', { mode: 'json' }).$type<KeptFilter>().notNull(),
  writtenBy: writtenBy(),
});

export const strikeTable = sqliteTable('strike', {
  id: text('id').$type<EntryId>().primaryKey(),
  writtenBy: writtenBy(),
});

export const additionTable = sqliteTable('addition', {
  id: text('id').$type<EntryId>().primaryKey(),
  vesselId: text('vessel_id').$type<VesselId>().notNull(),
  batchId: text('batch_id').$type<BatchId>().notNull(),
  atMs: integer('at_ms').notNull(),
  what: text('what').$type<ActOf<'addTo'>['what']>().notNull(),
  ingredient: text('ingredient', { mode: 'json' }).$type<Ingredient>().notNull(),
  volumeUl: integer('volume_ul').notNull(),
  writtenBy: writtenBy(),
});

export const flowTable = sqliteTable('flow', {
  id: text('id').primaryKey(),
  atMs: integer('at_ms').notNull(),
  fromVesselId: text('from_vessel_id').$type<VesselId>(),
  fromBatchId: text('from_batch_id').$type<BatchId>(),
  fromCultureId: text('from_culture_id').$type<CultureId>(),
  fromLotId: text('from_lot_id').$type<EntryId>(),
  fromTrail: text('from_trail', { mode: 'json' }).$type<readonly TrailStep[]>().notNull(),
  ontoNothing: integer('onto_nothing', { mode: 'boolean' }).notNull(),
  toVesselId: text('to_vessel_id').$type<VesselId>(),
  toBatchId: text('to_batch_id').$type<BatchId>(),
  toLotId: text('to_lot_id').$type<EntryId>(),
  volumeUl: integer('volume_ul').notNull(),
  writtenBy: writtenBy(),
});

export const restatementTable = sqliteTable('restatement', {
  id: text('id').$type<EntryId>().primaryKey(),
  act: text('act', { mode: 'json' }).$type<Act>().notNull(),
  happenedAtMs: integer('happened_at_ms').notNull(),
  writtenBy: writtenBy(),
});

export const RECORD_TABLES = {
  place: placeTable,
  shelf: shelfTable,
  vessel: vesselTable,
  fill: fillTable,
  batch: batchTable,
  culture: cultureTable,
  feeding: feedingTable,
  pull: pullTable,
  reading: readingTable,
  stageSpan: stageSpanTable,
  lot: lotTable,
  told: toldTable,
  overruling: overrulingTable,
  batchFilter: batchFilterTable,
  photo: photoTable,
  tasting: tastingTable,
  strike: strikeTable,
  addition: additionTable,
  flow: flowTable,
  restatement: restatementTable,
} as const;
