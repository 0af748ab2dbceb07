-- The log outside the program: which database a head or an exported entry comes from, and the oldest entries that went to a file.

-- Drawn once; a backup that is restored keeps it, another database has another.
CREATE TABLE database_identity (
  id INTEGER NOT NULL PRIMARY KEY CHECK (id = 1),
  code TEXT NOT NULL CHECK (length(code) = 32 AND code NOT GLOB '*[^0-9a-f]*')
) STRICT;
INSERT INTO database_identity (id, code) VALUES (1, lower(hex(randomblob(16))));

CREATE TRIGGER database_identity_refuses_update BEFORE UPDATE ON database_identity BEGIN
  SELECT RAISE(ABORT, 'a database keeps its identity');
END;
CREATE TRIGGER database_identity_refuses_delete BEFORE DELETE ON database_identity BEGIN
  SELECT RAISE(ABORT, 'a database keeps its identity');
END;
-- A replacing insert would delete without asking the trigger above.
CREATE TRIGGER database_identity_once BEFORE INSERT ON database_identity WHEN EXISTS (SELECT 1 FROM database_identity) BEGIN
  SELECT RAISE(ABORT, 'a database keeps its identity');
END;

CREATE TABLE log_range (
  id INTEGER NOT NULL PRIMARY KEY CHECK (id >= 1),
  first_sequence INTEGER NOT NULL CHECK (first_sequence >= 1),
  last_sequence INTEGER NOT NULL CHECK (last_sequence >= first_sequence),
  row_count INTEGER NOT NULL CHECK (row_count = last_sequence - first_sequence + 1),
  -- The chain before the first and at the last of them: what is left of the log begins there.
  previous_hash TEXT NOT NULL CHECK (length(previous_hash) = 64),
  last_hash TEXT NOT NULL CHECK (length(last_hash) = 64),
  file_sha256 TEXT NOT NULL CHECK (length(file_sha256) = 64 AND file_sha256 NOT GLOB '*[^0-9a-f]*'),
  retired_by TEXT NOT NULL CHECK (retired_by <> ''),
  retired_at TEXT NOT NULL CHECK (retired_at GLOB '????-??-??T??:??:??*Z')
) STRICT;

CREATE TRIGGER log_range_refuses_update BEFORE UPDATE ON log_range BEGIN
  SELECT RAISE(ABORT, 'a retired range of the log is never changed');
END;
CREATE TRIGGER log_range_refuses_delete BEFORE DELETE ON log_range BEGIN
  SELECT RAISE(ABORT, 'a retired range of the log is never removed');
END;
CREATE TRIGGER log_range_only_appends BEFORE INSERT ON log_range
WHEN NEW.id <> (SELECT coalesce(max(id), 0) + 1 FROM log_range)
  OR NEW.first_sequence <> (SELECT coalesce(max(last_sequence), 0) + 1 FROM log_range) BEGIN
  SELECT RAISE(ABORT, 'a retired range of the log follows the last one');
END;
CREATE TRIGGER log_range_is_of_the_log BEFORE INSERT ON log_range
WHEN NEW.previous_hash IS NOT (SELECT previous_hash FROM trail WHERE sequence = NEW.first_sequence)
  OR NEW.last_hash IS NOT (SELECT hash FROM trail WHERE sequence = NEW.last_sequence) BEGIN
  SELECT RAISE(ABORT, 'a range is retired with the hashes it has in the log');
END;
CREATE TRIGGER log_range_leaves_the_last BEFORE INSERT ON log_range
WHEN NEW.last_sequence >= (SELECT coalesce(max(sequence), 0) FROM trail) BEGIN
  SELECT RAISE(ABORT, 'the last row of the log is never retired');
END;
-- 45 CFR 164.316(b)(2)(i): six years.
CREATE TRIGGER log_range_is_old_enough BEFORE INSERT ON log_range
WHEN EXISTS (
  SELECT 1 FROM trail WHERE sequence BETWEEN NEW.first_sequence AND NEW.last_sequence
    AND at >= strftime('%Y-%m-%dT%H:%M:%fZ', NEW.retired_at, '-6 years')
) BEGIN
  SELECT RAISE(ABORT, 'the log is kept for six years');
END;

DROP TRIGGER trail_refuses_delete;
CREATE TRIGGER trail_refuses_delete BEFORE DELETE ON trail
WHEN OLD.sequence > (SELECT coalesce(max(last_sequence), 0) FROM log_range) BEGIN
  SELECT RAISE(ABORT, 'the log is append-only: a row is never removed');
END;
