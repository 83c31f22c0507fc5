-- Made anew at every opening that migrates, so that a migration never trips over them.
CREATE TRIGGER entry_is_never_changed BEFORE UPDATE ON entry
BEGIN
  SELECT RAISE(ABORT, 'entries of the book are never changed');
END;

CREATE TRIGGER entry_is_never_deleted BEFORE DELETE ON entry
BEGIN
  SELECT RAISE(ABORT, 'entries of the book are never deleted');
END;

CREATE TRIGGER picture_is_never_changed BEFORE UPDATE ON picture
BEGIN
  SELECT RAISE(ABORT, 'pictures are never changed');
END;

CREATE TRIGGER picture_is_never_deleted BEFORE DELETE ON picture
BEGIN
  SELECT RAISE(ABORT, 'pictures are never deleted');
END;
