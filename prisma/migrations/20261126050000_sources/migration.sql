-- What is known of a source of results: how it writes (its profile, in versions), and what texts of it mean (mappings, each decided by a person).

CREATE TABLE source_profile (
  source TEXT NOT NULL CHECK (source <> '' AND length(source) <= 100),
  version INTEGER NOT NULL CHECK (version >= 1),
  payload TEXT NOT NULL CHECK (json_valid(payload)),
  reason TEXT NOT NULL CHECK (length(reason) BETWEEN 3 AND 500),
  made_by TEXT NOT NULL CHECK (made_by <> ''),
  made_at TEXT NOT NULL CHECK (made_at GLOB '????-??-??T??:??:??*Z'),
  PRIMARY KEY (source, version)
) STRICT;

CREATE TRIGGER source_profile_only_appends BEFORE INSERT ON source_profile
WHEN NEW.version <> (SELECT coalesce(max(version), 0) + 1 FROM source_profile WHERE source = NEW.source) BEGIN
  SELECT RAISE(ABORT, 'a version of a source follows the last one');
END;

CREATE TRIGGER source_profile_refuses_update BEFORE UPDATE ON source_profile BEGIN
  SELECT RAISE(ABORT, 'a version of a source is never changed');
END;

CREATE TRIGGER source_profile_refuses_delete BEFORE DELETE ON source_profile BEGIN
  SELECT RAISE(ABORT, 'a version of a source is never removed');
END;

CREATE TABLE source_mapping (
  id INTEGER NOT NULL PRIMARY KEY,
  source TEXT NOT NULL CHECK (source <> '' AND length(source) <= 100),
  kind TEXT NOT NULL CHECK (kind IN ('code', 'unit', 'patient')),
  -- As received, without blanks around.
  received TEXT NOT NULL CHECK (received <> ''),
  -- Of a unit: the code it stood beside, as received.
  of_code TEXT CHECK (of_code <> ''),
  meaning TEXT NOT NULL CHECK (meaning <> ''),
  reason TEXT NOT NULL CHECK (length(reason) BETWEEN 3 AND 500),
  made_by TEXT NOT NULL COLLATE NOCASE CHECK (made_by <> ''),
  made_at TEXT NOT NULL CHECK (made_at GLOB '????-??-??T??:??:??*Z'),
  confirmed_by TEXT COLLATE NOCASE CHECK (confirmed_by <> ''),
  revoked_by TEXT CHECK (revoked_by <> ''),
  revoked_at TEXT CHECK (revoked_at GLOB '????-??-??T??:??:??*Z'),
  revoked_reason TEXT CHECK (length(revoked_reason) BETWEEN 3 AND 500),
  CHECK ((kind = 'unit') = (of_code IS NOT NULL)),
  -- Four eyes: who an identifier belongs to is never one person's word.
  CHECK ((kind = 'patient') = (confirmed_by IS NOT NULL)),
  CHECK (confirmed_by IS NULL OR confirmed_by <> made_by),
  CHECK ((revoked_at IS NULL) = (revoked_by IS NULL)),
  CHECK ((revoked_at IS NULL) = (revoked_reason IS NULL))
) STRICT;
CREATE UNIQUE INDEX source_mapping_in_force ON source_mapping (source, kind, received, coalesce(of_code, '')) WHERE revoked_at IS NULL;

CREATE TRIGGER source_mapping_stays_as_decided BEFORE UPDATE ON source_mapping
WHEN OLD.revoked_at IS NOT NULL OR NEW.id <> OLD.id OR NEW.source <> OLD.source OR NEW.kind <> OLD.kind OR NEW.received <> OLD.received
  OR NEW.of_code IS NOT OLD.of_code OR NEW.meaning <> OLD.meaning OR NEW.reason <> OLD.reason OR NEW.made_by <> OLD.made_by
  OR NEW.made_at <> OLD.made_at OR NEW.confirmed_by IS NOT OLD.confirmed_by BEGIN
  SELECT RAISE(ABORT, 'a mapping is never changed: it is revoked, and decided again');
END;

CREATE TRIGGER source_mapping_only_appends BEFORE INSERT ON source_mapping
WHEN NEW.id <> (SELECT coalesce(max(id), 0) + 1 FROM source_mapping) OR NEW.revoked_at IS NOT NULL BEGIN
  SELECT RAISE(ABORT, 'a mapping follows the last one');
END;

CREATE TRIGGER source_mapping_refuses_delete BEFORE DELETE ON source_mapping BEGIN
  SELECT RAISE(ABORT, 'a mapping is never removed');
END;

-- Which rows were filed with which mapping, so that revoking one finds them.
CREATE TABLE mapping_use (
  mapping_id INTEGER NOT NULL REFERENCES source_mapping (id),
  file_id INTEGER NOT NULL REFERENCES intake_file (id),
  line INTEGER NOT NULL CHECK (line >= 1),
  patient_id TEXT NOT NULL,
  PRIMARY KEY (mapping_id, file_id, line, patient_id)
) STRICT, WITHOUT ROWID;
CREATE INDEX mapping_use_row ON mapping_use (file_id, line);

CREATE TRIGGER mapping_use_refuses_update BEFORE UPDATE ON mapping_use BEGIN
  SELECT RAISE(ABORT, 'what a row was filed with is never changed');
END;

CREATE TRIGGER mapping_use_refuses_delete BEFORE DELETE ON mapping_use BEGIN
  SELECT RAISE(ABORT, 'what a row was filed with is never removed');
END;
