-- What stands in a vessel and in bottles is weighed by component; vessels remember their cleaning and who has them.
ALTER TABLE fill ADD COLUMN masses_ug TEXT NOT NULL DEFAULT '{}' CHECK (json_valid(masses_ug));
ALTER TABLE fill ADD COLUMN settled_at_ms INTEGER NOT NULL DEFAULT 0;
ALTER TABLE vessel ADD COLUMN closure_since_ms INTEGER NOT NULL DEFAULT 0;
ALTER TABLE vessel ADD COLUMN cleaned_at_ms INTEGER;
ALTER TABLE vessel ADD COLUMN cleaned_how TEXT;
ALTER TABLE vessel ADD COLUMN rest_until_ms INTEGER;
ALTER TABLE vessel ADD COLUMN holder TEXT NOT NULL DEFAULT '';
ALTER TABLE lot ADD COLUMN bottles_left INTEGER NOT NULL DEFAULT 0 CHECK (bottles_left BETWEEN 0 AND bottles);
ALTER TABLE lot ADD COLUMN kept_apart_for TEXT NOT NULL DEFAULT '';
ALTER TABLE lot ADD COLUMN masses_ug TEXT NOT NULL DEFAULT '{}' CHECK (json_valid(masses_ug));
ALTER TABLE lot ADD COLUMN origins TEXT NOT NULL DEFAULT '{}' CHECK (json_valid(origins));

-- What was put into a liquid after its start.
CREATE TABLE addition (
  id TEXT PRIMARY KEY,
  vessel_id TEXT NOT NULL REFERENCES vessel (id) DEFERRABLE INITIALLY DEFERRED,
  batch_id TEXT NOT NULL REFERENCES batch (id) DEFERRABLE INITIALLY DEFERRED,
  at_ms INTEGER NOT NULL,
  what TEXT NOT NULL,
  ingredient TEXT NOT NULL CHECK (json_valid(ingredient)),
  volume_ul INTEGER NOT NULL CHECK (volume_ul >= 0),
  written_by TEXT NOT NULL
) STRICT;
CREATE INDEX addition_by_batch ON addition (batch_id, at_ms);
CREATE INDEX addition_by_vessel ON addition (vessel_id);

-- Steps of the pedigree: liquid of one batch came into another vessel, into bottles, or out of them.
CREATE TABLE flow (
  id TEXT PRIMARY KEY,
  at_ms INTEGER NOT NULL,
  from_vessel_id TEXT REFERENCES vessel (id) DEFERRABLE INITIALLY DEFERRED,
  from_batch_id TEXT REFERENCES batch (id) DEFERRABLE INITIALLY DEFERRED,
  from_culture_id TEXT REFERENCES culture (id) DEFERRABLE INITIALLY DEFERRED,
  from_lot_id TEXT REFERENCES lot (id) DEFERRABLE INITIALLY DEFERRED,
  from_trail TEXT NOT NULL CHECK (json_valid(from_trail)),
  onto_nothing INTEGER NOT NULL CHECK (onto_nothing IN (0, 1)),
  to_vessel_id TEXT REFERENCES vessel (id) DEFERRABLE INITIALLY DEFERRED,
  to_batch_id TEXT REFERENCES batch (id) DEFERRABLE INITIALLY DEFERRED,
  to_lot_id TEXT REFERENCES lot (id) DEFERRABLE INITIALLY DEFERRED,
  volume_ul INTEGER NOT NULL CHECK (volume_ul >= 0),
  written_by TEXT NOT NULL
) STRICT;
CREATE INDEX flow_by_giver ON flow (from_batch_id, at_ms);
CREATE INDEX flow_by_taker ON flow (to_batch_id, at_ms);
CREATE INDEX flow_by_giving_vessel ON flow (from_vessel_id);
CREATE INDEX flow_by_taking_vessel ON flow (to_vessel_id);
CREATE INDEX flow_by_culture ON flow (from_culture_id);
CREATE INDEX flow_by_giving_lot ON flow (from_lot_id);
CREATE INDEX flow_by_taking_lot ON flow (to_lot_id);

-- Entries told anew: what each now says, beside the line as it was written.
CREATE TABLE restatement (
  id TEXT PRIMARY KEY,
  act TEXT NOT NULL CHECK (json_valid(act)),
  happened_at_ms INTEGER NOT NULL,
  written_by TEXT NOT NULL
) STRICT;

-- Which way of projecting the book the file was last written in: another one than the program's, and all is rebuilt.
ALTER TABLE cellar ADD COLUMN projection_format INTEGER NOT NULL DEFAULT 0;

-- Which entries took an entry back, or brought it back.
CREATE INDEX entry_by_reversed ON entry (json_extract(act, '$.entryId')) WHERE kind = 'reverse';
CREATE INDEX entry_restating ON entry (sequence) WHERE kind = 'restate';

-- What a record was at any line of the book: the next line that wrote it knows.
CREATE INDEX entry_image_by_record ON entry_image (record_id);
