-- How a value was found, when the keeper said more than the value: titration, errors, sampling.
ALTER TABLE reading ADD COLUMN detail TEXT CHECK (detail IS NULL OR json_valid(detail));

-- What a keeper told of a vessel beside its readings: answers to what the safety rules ask.
CREATE TABLE told (
  id TEXT PRIMARY KEY,
  vessel_id TEXT NOT NULL REFERENCES vessel (id) DEFERRABLE INITIALLY DEFERRED,
  batch_id TEXT NOT NULL REFERENCES batch (id) DEFERRABLE INITIALLY DEFERRED,
  at_ms INTEGER NOT NULL,
  facts TEXT NOT NULL CHECK (json_valid(facts)),
  written_by TEXT NOT NULL
) STRICT;
CREATE INDEX told_by_vessel ON told (vessel_id, batch_id, at_ms);
CREATE INDEX told_by_batch ON told (batch_id, at_ms);

-- A verdict the keeper went against, with the reason; the verdict itself never changes.
CREATE TABLE overruling (
  id TEXT PRIMARY KEY,
  vessel_id TEXT NOT NULL REFERENCES vessel (id) DEFERRABLE INITIALLY DEFERRED,
  batch_id TEXT NOT NULL REFERENCES batch (id) DEFERRABLE INITIALLY DEFERRED,
  use TEXT NOT NULL CHECK (use <> ''),
  reason TEXT NOT NULL CHECK (reason <> ''),
  at_ms INTEGER NOT NULL,
  written_by TEXT NOT NULL
) STRICT;
CREATE INDEX overruling_by_vessel ON overruling (vessel_id, batch_id, at_ms);
CREATE INDEX overruling_by_batch ON overruling (batch_id, at_ms);
