-- Sheets for talking with a patient, as a physician released them: kept word for word, and taken back with a reason, never changed.

CREATE TABLE patient_sheet (
  id INTEGER NOT NULL PRIMARY KEY,
  patient_id TEXT NOT NULL REFERENCES patient (id),
  -- The revision of the history it was made from, and the records read as that patient then.
  revision INTEGER NOT NULL CHECK (revision >= 0),
  record_ids TEXT NOT NULL CHECK (json_type(record_ids) = 'array'),
  content TEXT NOT NULL CHECK (json_type(content) = 'object'),
  content_sha256 TEXT NOT NULL CHECK (length(content_sha256) = 64),
  released_by TEXT NOT NULL COLLATE NOCASE CHECK (released_by <> ''),
  released_at TEXT NOT NULL CHECK (released_at GLOB '????-??-??T??:??:??*Z'),
  withdrawn_by TEXT COLLATE NOCASE CHECK (withdrawn_by <> ''),
  withdrawn_at TEXT CHECK (withdrawn_at GLOB '????-??-??T??:??:??*Z'),
  withdrawal_reason TEXT CHECK (length(withdrawal_reason) BETWEEN 3 AND 500),
  CHECK ((withdrawn_by IS NULL) = (withdrawn_at IS NULL)),
  CHECK ((withdrawn_by IS NULL) = (withdrawal_reason IS NULL))
) STRICT;
CREATE INDEX patient_sheet_patient ON patient_sheet (patient_id, id);

CREATE TRIGGER patient_sheet_only_appends BEFORE INSERT ON patient_sheet
WHEN NEW.withdrawn_at IS NOT NULL OR NEW.id <> (SELECT coalesce(max(id), 0) + 1 FROM patient_sheet) BEGIN
  SELECT RAISE(ABORT, 'a sheet is released first, and follows the last one');
END;

CREATE TRIGGER patient_sheet_stays_as_released
BEFORE UPDATE OF id, patient_id, revision, record_ids, content, content_sha256, released_by, released_at ON patient_sheet BEGIN
  SELECT RAISE(ABORT, 'a released sheet is never changed');
END;

CREATE TRIGGER patient_sheet_withdrawn_once BEFORE UPDATE OF withdrawn_by, withdrawn_at, withdrawal_reason ON patient_sheet
WHEN OLD.withdrawn_at IS NOT NULL BEGIN
  SELECT RAISE(ABORT, 'a sheet is withdrawn once');
END;

CREATE TRIGGER patient_sheet_refuses_delete BEFORE DELETE ON patient_sheet BEGIN
  SELECT RAISE(ABORT, 'a sheet is never removed');
END;
