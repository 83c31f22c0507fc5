-- The book: written once, never changed or deleted (triggers.sql refuses it).
CREATE TABLE entry (
  sequence INTEGER PRIMARY KEY,
  entry_id TEXT NOT NULL UNIQUE,
  request_id TEXT NOT NULL UNIQUE,
  kind TEXT NOT NULL,
  happened_at_ms INTEGER NOT NULL CHECK (happened_at_ms >= 0),
  written_at_ms INTEGER NOT NULL CHECK (written_at_ms >= 0),
  act_format INTEGER NOT NULL CHECK (act_format >= 1),
  act TEXT NOT NULL CHECK (json_valid(act)),
  postings TEXT NOT NULL CHECK (json_valid(postings)),
  typed TEXT NOT NULL CHECK (json_valid(typed))
) STRICT;

-- What the cellar is called and its house rules; one row.
CREATE TABLE cellar (
  id INTEGER PRIMARY KEY CHECK (id = 1),
  name TEXT NOT NULL,
  begun INTEGER NOT NULL CHECK (begun IN (0, 1)),
  is_sample INTEGER NOT NULL CHECK (is_sample IN (0, 1)),
  house_rules TEXT NOT NULL CHECK (json_valid(house_rules)),
  created_at_ms INTEGER NOT NULL
) STRICT;
INSERT INTO cellar VALUES (1, '', 0, 0, '{}', 0);

-- All tables below are projections: they can be dropped and rebuilt from the book.
CREATE TABLE entry_subject (
  kind TEXT NOT NULL CHECK (kind IN ('vessel', 'batch', 'culture')),
  subject_id TEXT NOT NULL,
  sequence INTEGER NOT NULL REFERENCES entry (sequence),
  PRIMARY KEY (kind, subject_id, sequence)
) STRICT, WITHOUT ROWID;

CREATE INDEX entry_subject_by_entry ON entry_subject (sequence);

CREATE TABLE entry_image (
  sequence INTEGER NOT NULL REFERENCES entry (sequence),
  ordinal INTEGER NOT NULL,
  record_kind TEXT NOT NULL,
  record_id TEXT NOT NULL,
  before TEXT CHECK (before IS NULL OR json_valid(before)),
  after_writer TEXT,
  PRIMARY KEY (sequence, ordinal)
) STRICT, WITHOUT ROWID;

CREATE TABLE place (
  id TEXT PRIMARY KEY,
  name TEXT NOT NULL CHECK (name <> ''),
  note TEXT NOT NULL,
  written_by TEXT NOT NULL
) STRICT;

CREATE TABLE shelf (
  id TEXT PRIMARY KEY,
  place_id TEXT NOT NULL REFERENCES place (id) DEFERRABLE INITIALLY DEFERRED,
  name TEXT NOT NULL CHECK (name <> ''),
  letter TEXT NOT NULL UNIQUE,
  positions INTEGER NOT NULL CHECK (positions BETWEEN 1 AND 2000),
  written_by TEXT NOT NULL
) STRICT;
CREATE INDEX shelf_by_place ON shelf (place_id);

CREATE TABLE culture (
  id TEXT PRIMARY KEY,
  name TEXT NOT NULL CHECK (name <> ''),
  sort TEXT NOT NULL CHECK (sort IN ('mother', 'yeast', 'tea', 'grains', 'starter')),
  source TEXT NOT NULL,
  note TEXT NOT NULL,
  parent_culture_id TEXT REFERENCES culture (id) DEFERRABLE INITIALLY DEFERRED,
  since_ms INTEGER NOT NULL,
  written_by TEXT NOT NULL
) STRICT;
CREATE INDEX culture_by_parent ON culture (parent_culture_id);

CREATE TABLE batch (
  id TEXT PRIMARY KEY,
  code TEXT NOT NULL UNIQUE,
  name TEXT NOT NULL CHECK (name <> ''),
  ferment TEXT NOT NULL,
  started_at_ms INTEGER NOT NULL,
  started_ul INTEGER NOT NULL CHECK (started_ul > 0),
  ingredients TEXT NOT NULL CHECK (json_valid(ingredients)),
  note TEXT NOT NULL,
  parent_batch_id TEXT REFERENCES batch (id) DEFERRABLE INITIALLY DEFERRED,
  parent_ul INTEGER,
  keeps_culture_id TEXT REFERENCES culture (id) DEFERRABLE INITIALLY DEFERRED,
  written_by TEXT NOT NULL
) STRICT;
CREATE INDEX batch_by_parent ON batch (parent_batch_id);
CREATE INDEX batch_by_kept_culture ON batch (keeps_culture_id);
CREATE INDEX batch_by_start ON batch (started_at_ms);

CREATE TABLE vessel (
  id TEXT PRIMARY KEY,
  number INTEGER NOT NULL UNIQUE CHECK (number >= 1),
  name TEXT NOT NULL,
  silhouette TEXT NOT NULL,
  capacity_ul INTEGER NOT NULL CHECK (capacity_ul > 0),
  mouth TEXT NOT NULL CHECK (mouth IN ('wide', 'narrow')),
  material TEXT NOT NULL,
  closure TEXT NOT NULL,
  note TEXT NOT NULL,
  shelf_id TEXT REFERENCES shelf (id) DEFERRABLE INITIALLY DEFERRED,
  position INTEGER CHECK (position IS NULL OR position >= 1),
  retired INTEGER NOT NULL CHECK (retired IN (0, 1)),
  written_by TEXT NOT NULL,
  CHECK ((shelf_id IS NULL) = (position IS NULL))
) STRICT;
CREATE UNIQUE INDEX vessel_by_spot ON vessel (shelf_id, position) WHERE shelf_id IS NOT NULL;

CREATE TABLE fill (
  id TEXT PRIMARY KEY REFERENCES vessel (id) DEFERRABLE INITIALLY DEFERRED,
  batch_id TEXT NOT NULL REFERENCES batch (id) DEFERRABLE INITIALLY DEFERRED,
  volume_ul INTEGER NOT NULL CHECK (volume_ul > 0),
  stage TEXT NOT NULL CHECK (stage <> 'empty'),
  stage_since_ms INTEGER NOT NULL,
  since_ms INTEGER NOT NULL,
  culture_id TEXT REFERENCES culture (id) DEFERRABLE INITIALLY DEFERRED,
  pull INTEGER,
  origins TEXT NOT NULL CHECK (json_valid(origins)),
  composed_at_ms INTEGER NOT NULL,
  composed_by TEXT NOT NULL,
  trail TEXT NOT NULL CHECK (json_valid(trail)),
  on_lees INTEGER NOT NULL CHECK (on_lees IN (0, 1)),
  written_by TEXT NOT NULL
) STRICT;
CREATE INDEX fill_by_batch ON fill (batch_id);
CREATE INDEX fill_by_culture ON fill (culture_id);

CREATE TABLE feeding (
  id TEXT PRIMARY KEY,
  culture_id TEXT NOT NULL REFERENCES culture (id) DEFERRABLE INITIALLY DEFERRED,
  at_ms INTEGER NOT NULL,
  written_by TEXT NOT NULL
) STRICT;
CREATE INDEX feeding_by_culture ON feeding (culture_id, at_ms);

CREATE TABLE pull (
  id TEXT PRIMARY KEY,
  culture_id TEXT NOT NULL REFERENCES culture (id) DEFERRABLE INITIALLY DEFERRED,
  number INTEGER NOT NULL CHECK (number >= 1),
  at_ms INTEGER NOT NULL,
  vessel_id TEXT NOT NULL REFERENCES vessel (id) DEFERRABLE INITIALLY DEFERRED,
  batch_id TEXT NOT NULL REFERENCES batch (id) DEFERRABLE INITIALLY DEFERRED,
  volume_ul INTEGER NOT NULL CHECK (volume_ul >= 0),
  written_by TEXT NOT NULL
) STRICT;
CREATE INDEX pull_by_culture ON pull (culture_id, number);
CREATE INDEX pull_by_batch ON pull (batch_id);
CREATE INDEX pull_by_vessel ON pull (vessel_id);

CREATE TABLE reading (
  id TEXT PRIMARY KEY,
  vessel_id TEXT NOT NULL REFERENCES vessel (id) DEFERRABLE INITIALLY DEFERRED,
  batch_id TEXT NOT NULL REFERENCES batch (id) DEFERRABLE INITIALLY DEFERRED,
  at_ms INTEGER NOT NULL,
  gravity_sg REAL CHECK (gravity_sg BETWEEN 0.9 AND 1.6),
  gravity_instrument TEXT,
  gravity_calibration_celsius REAL,
  temperature_celsius REAL CHECK (temperature_celsius BETWEEN -20 AND 100),
  ph REAL CHECK (ph BETWEEN 0 AND 14),
  ph_method TEXT,
  acidity_grams_per_100_ml REAL CHECK (acidity_grams_per_100_ml BETWEEN 0 AND 100),
  acidity_as TEXT,
  acidity_method TEXT,
  acidity_uncertainty REAL,
  volume_ul INTEGER CHECK (volume_ul > 0),
  free_sulfite_mg_per_l REAL CHECK (free_sulfite_mg_per_l >= 0),
  alcohol_percent_volume REAL CHECK (alcohol_percent_volume BETWEEN 0 AND 100),
  taste TEXT NOT NULL,
  written_by TEXT NOT NULL
) STRICT;
CREATE INDEX reading_by_vessel ON reading (vessel_id, batch_id, at_ms);
CREATE INDEX reading_by_batch ON reading (batch_id, at_ms);

CREATE TABLE stage_span (
  id TEXT PRIMARY KEY,
  batch_id TEXT NOT NULL REFERENCES batch (id) DEFERRABLE INITIALLY DEFERRED,
  vessel_id TEXT NOT NULL REFERENCES vessel (id) DEFERRABLE INITIALLY DEFERRED,
  stage TEXT NOT NULL,
  from_ms INTEGER NOT NULL,
  written_by TEXT NOT NULL
) STRICT;
CREATE INDEX stage_span_by_batch ON stage_span (batch_id, from_ms);
CREATE INDEX stage_span_by_vessel ON stage_span (vessel_id);

CREATE TABLE lot (
  id TEXT PRIMARY KEY,
  batch_id TEXT NOT NULL REFERENCES batch (id) DEFERRABLE INITIALLY DEFERRED,
  bottles INTEGER NOT NULL CHECK (bottles >= 1),
  bottle_ul INTEGER NOT NULL CHECK (bottle_ul > 0),
  at_ms INTEGER NOT NULL,
  written_by TEXT NOT NULL
) STRICT;
CREATE INDEX lot_by_batch ON lot (batch_id);

CREATE TABLE strike (
  id TEXT PRIMARY KEY,
  written_by TEXT NOT NULL
) STRICT;

-- One line a vessel with everything the shelf shows, so that a shelf is read without a join.
CREATE TABLE shelf_row (
  vessel_id TEXT PRIMARY KEY REFERENCES vessel (id) DEFERRABLE INITIALLY DEFERRED,
  number INTEGER NOT NULL,
  shelf_id TEXT,
  position INTEGER,
  stage_rank INTEGER NOT NULL,
  stage TEXT NOT NULL,
  in_use INTEGER NOT NULL,
  silhouette TEXT NOT NULL,
  capacity_ul INTEGER NOT NULL,
  due_ideal_ms INTEGER,
  due_latest_ms INTEGER,
  search TEXT NOT NULL,
  shown TEXT NOT NULL CHECK (json_valid(shown))
) STRICT;
CREATE INDEX shelf_row_by_shelf ON shelf_row (shelf_id, position, number, in_use, silhouette, capacity_ul, due_ideal_ms, due_latest_ms);
CREATE INDEX shelf_row_by_stage ON shelf_row (stage_rank, number);
CREATE INDEX shelf_row_by_due ON shelf_row (due_ideal_ms, due_latest_ms, number);

-- Words written in notes, tastes and reasons, for finding inside words, whatever the case or accent.
CREATE VIRTUAL TABLE note_text USING fts5 (text, tokenize = "trigram remove_diacritics 1");
