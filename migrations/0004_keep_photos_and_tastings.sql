-- Pictures by the SHA-256 of their bytes. No projection: entries refer to them, and undoing an entry leaves them here.
CREATE TABLE picture (
  checksum TEXT PRIMARY KEY CHECK (length(checksum) = 64),
  width_px INTEGER NOT NULL CHECK (width_px > 0),
  height_px INTEGER NOT NULL CHECK (height_px > 0),
  kept_at_ms INTEGER NOT NULL,
  thumbnail_checksum TEXT NOT NULL CHECK (length(thumbnail_checksum) = 64),
  thumbnail BLOB NOT NULL CHECK (length(thumbnail) > 0),
  content BLOB NOT NULL CHECK (length(content) > 0)
) STRICT;

-- What a picture shows: a projection, as all below.
CREATE TABLE photo (
  id TEXT PRIMARY KEY,
  vessel_id TEXT REFERENCES vessel (id) DEFERRABLE INITIALLY DEFERRED,
  batch_id TEXT REFERENCES batch (id) DEFERRABLE INITIALLY DEFERRED,
  checksum TEXT NOT NULL CHECK (length(checksum) = 64),
  width_px INTEGER NOT NULL CHECK (width_px > 0),
  height_px INTEGER NOT NULL CHECK (height_px > 0),
  caption TEXT NOT NULL,
  at_ms INTEGER NOT NULL,
  written_by TEXT NOT NULL,
  CHECK (vessel_id IS NOT NULL OR batch_id IS NOT NULL)
) STRICT;
CREATE INDEX photo_by_vessel ON photo (vessel_id, at_ms);
CREATE INDEX photo_by_batch ON photo (batch_id, at_ms);

CREATE TABLE tasting (
  id TEXT PRIMARY KEY,
  vessel_id TEXT REFERENCES vessel (id) DEFERRABLE INITIALLY DEFERRED,
  batch_id TEXT NOT NULL REFERENCES batch (id) DEFERRABLE INITIALLY DEFERRED,
  words TEXT NOT NULL CHECK (json_valid(words)),
  score INTEGER CHECK (score BETWEEN 1 AND 5),
  text TEXT NOT NULL,
  tasted_by TEXT NOT NULL,
  at_ms INTEGER NOT NULL,
  written_by TEXT NOT NULL
) STRICT;
CREATE INDEX tasting_by_batch ON tasting (batch_id, at_ms);
CREATE INDEX tasting_by_vessel ON tasting (vessel_id);
