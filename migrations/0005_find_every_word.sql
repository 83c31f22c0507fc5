-- What full-text search reads, folded by the program before it is kept: the words of each line of the book under the
-- line's number, and those of each batch as it stands under a number of its own. Filled when the file is opened.
DROP TABLE note_text;
CREATE VIRTUAL TABLE line_words USING fts5 (text, tokenize = "trigram case_sensitive 1");
CREATE VIRTUAL TABLE batch_words USING fts5 (text, tokenize = "trigram case_sensitive 1");
CREATE TABLE batch_number (
  number INTEGER PRIMARY KEY,
  batch_id TEXT NOT NULL UNIQUE
) STRICT;
ALTER TABLE cellar ADD COLUMN words_format INTEGER NOT NULL DEFAULT 0;

-- Filters of the ledger of batches that were given a name.
CREATE TABLE batch_filter (
  id TEXT PRIMARY KEY,
  name TEXT NOT NULL CHECK (name <> ''),
  filter TEXT NOT NULL CHECK (json_valid(filter)),
  written_by TEXT NOT NULL
) STRICT;
