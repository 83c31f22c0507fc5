-- Which way of writing tickets the shelf was last drawn in: another one than the program's, and all are written anew.
ALTER TABLE cellar ADD COLUMN ticket_format INTEGER NOT NULL DEFAULT 0;
