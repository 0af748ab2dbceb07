-- A large file is kept in pieces, so that nobody ever holds it whole: `intake_file_bytes.bytes` is then empty, and the pieces follow one another from 1.
-- A file that was kept in one piece stays as it is.
CREATE TABLE intake_file_chunk (
  sha256 TEXT NOT NULL REFERENCES intake_file_bytes (sha256),
  number INTEGER NOT NULL CHECK (number >= 1),
  bytes BLOB NOT NULL CHECK (length(bytes) > 0),
  PRIMARY KEY (sha256, number)
) STRICT;

CREATE TRIGGER intake_file_chunk_refuses_update BEFORE UPDATE ON intake_file_chunk BEGIN
  SELECT RAISE(ABORT, 'a file is kept as received: a piece of it is never changed');
END;

CREATE TRIGGER intake_file_chunk_refuses_delete BEFORE DELETE ON intake_file_chunk BEGIN
  SELECT RAISE(ABORT, 'a file is kept as received: a piece of it is never removed');
END;

-- The rows of a report in the order of its file, a page at a time, however many there are.
DROP INDEX held_row_file;
CREATE INDEX held_row_file ON held_row (file_id, line);
DROP INDEX refused_row_file;
CREATE INDEX refused_row_file ON refused_row (file_id, line);
