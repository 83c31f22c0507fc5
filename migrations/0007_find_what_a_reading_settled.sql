-- Which entries settled what a vessel is made of by a reading.
CREATE INDEX entry_by_settling ON entry (json_extract(act, '$.readingId')) WHERE kind = 'reconcile';
