-- Held rows resolved: what a person decided of one row, who proposed whose it is and who confirmed it, and what a revoked mapping takes back.

-- What a person decided that single columns of this row mean. The text and the fields as received never change.
ALTER TABLE held_row ADD COLUMN decided TEXT CHECK (json_valid(decided));
-- The mapping whose revocation put this row into the queue again; null for a row that intake held.
ALTER TABLE held_row ADD COLUMN returned_by INTEGER REFERENCES source_mapping (id);
-- What rows that wait for one and the same decision have in common, beside source, kind and reason.
ALTER TABLE held_row ADD COLUMN alike TEXT GENERATED ALWAYS AS (
  CASE
    WHEN kind <> 'results' OR reason IN ('unknown-patient', 'birth-date-differs', 'sex-differs', 'patient-unclear') THEN json_array(
      trim(coalesce(json_extract(fields, '$.patient_id'), ''), ' ' || char(9, 10, 13)),
      trim(coalesce(json_extract(fields, '$.birth_date'), ''), ' ' || char(9, 10, 13)),
      trim(coalesce(json_extract(fields, '$.sex'), ''), ' ' || char(9, 10, 13)))
    WHEN reason = 'unknown-code' THEN json_array(trim(coalesce(json_extract(fields, '$.code'), ''), ' ' || char(9, 10, 13)))
    ELSE json_array(
      trim(coalesce(json_extract(fields, '$.code'), ''), ' ' || char(9, 10, 13)),
      trim(coalesce(json_extract(fields, '$.unit'), ''), ' ' || char(9, 10, 13)))
  END
) VIRTUAL;
CREATE INDEX held_row_alike ON held_row (reason, kind, alike) WHERE resolved_at IS NULL;

CREATE TRIGGER held_row_keeps_what_came BEFORE UPDATE ON held_row
WHEN NEW.id <> OLD.id OR NEW.file_id <> OLD.file_id OR NEW.line <> OLD.line OR NEW.kind <> OLD.kind OR NEW.row <> OLD.row OR NEW.fields <> OLD.fields
  OR NEW.received_at <> OLD.received_at OR NEW.returned_by IS NOT OLD.returned_by
  OR (OLD.resolved_at IS NOT NULL AND (NEW.resolved_at IS NOT OLD.resolved_at OR NEW.resolved_by IS NOT OLD.resolved_by
    OR NEW.decision IS NOT OLD.decision OR NEW.decision_reason IS NOT OLD.decision_reason OR NEW.decided IS NOT OLD.decided)) BEGIN
  SELECT RAISE(ABORT, 'what came in, and what was decided of it, is never changed');
END;

CREATE TABLE held_choice (
  id INTEGER NOT NULL PRIMARY KEY,
  held_id INTEGER NOT NULL REFERENCES held_row (id),
  -- For every row alike, or for this one.
  alike INTEGER NOT NULL CHECK (alike IN (0, 1)),
  -- Whether the identifier as received means this patient for later files too.
  remember INTEGER NOT NULL CHECK (remember IN (0, 1)),
  patient_id TEXT NOT NULL CHECK (patient_id <> ''),
  reason TEXT NOT NULL CHECK (length(reason) BETWEEN 3 AND 500),
  proposed_by TEXT NOT NULL COLLATE NOCASE CHECK (proposed_by <> ''),
  proposed_at TEXT NOT NULL CHECK (proposed_at GLOB '????-??-??T??:??:??*Z'),
  decision TEXT CHECK (decision IN ('confirmed', 'declined')),
  decided_by TEXT COLLATE NOCASE CHECK (decided_by <> ''),
  decided_at TEXT CHECK (decided_at GLOB '????-??-??T??:??:??*Z'),
  decision_reason TEXT CHECK (length(decision_reason) BETWEEN 3 AND 500),
  CHECK ((decision IS NULL) = (decided_by IS NULL)),
  CHECK ((decision IS NULL) = (decided_at IS NULL)),
  CHECK ((decision IS 'declined') = (decision_reason IS NOT NULL)),
  -- Four eyes: nobody confirms a choice of their own.
  CHECK (decision IS NOT 'confirmed' OR decided_by <> proposed_by)
) STRICT;
CREATE UNIQUE INDEX held_choice_waiting ON held_choice (held_id) WHERE decision IS NULL;

CREATE TRIGGER held_choice_stays_as_proposed BEFORE UPDATE ON held_choice
WHEN OLD.decision IS NOT NULL OR NEW.id <> OLD.id OR NEW.held_id <> OLD.held_id OR NEW.alike <> OLD.alike OR NEW.remember <> OLD.remember
  OR NEW.patient_id <> OLD.patient_id OR NEW.reason <> OLD.reason OR NEW.proposed_by <> OLD.proposed_by OR NEW.proposed_at <> OLD.proposed_at BEGIN
  SELECT RAISE(ABORT, 'a choice is never changed: it is confirmed or declined, once');
END;

CREATE TRIGGER held_choice_refuses_delete BEFORE DELETE ON held_choice BEGIN
  SELECT RAISE(ABORT, 'a choice is never removed');
END;

-- Versions that count for nothing because the mapping they were read with was revoked. They stay stored.
CREATE TABLE version_taken_back (
  id INTEGER NOT NULL PRIMARY KEY,
  result_id INTEGER UNIQUE REFERENCES result (id),
  course_event_id INTEGER UNIQUE REFERENCES course_event (id),
  mapping_id INTEGER NOT NULL REFERENCES source_mapping (id),
  taken_by TEXT NOT NULL CHECK (taken_by <> ''),
  taken_at TEXT NOT NULL CHECK (taken_at GLOB '????-??-??T??:??:??*Z'),
  CHECK ((result_id IS NULL) <> (course_event_id IS NULL))
) STRICT;

CREATE TRIGGER version_taken_back_refuses_update BEFORE UPDATE ON version_taken_back BEGIN
  SELECT RAISE(ABORT, 'what was taken back stays so: the row is filed anew');
END;

CREATE TRIGGER version_taken_back_refuses_delete BEFORE DELETE ON version_taken_back BEGIN
  SELECT RAISE(ABORT, 'what was taken back stays so: the row is filed anew');
END;

CREATE TRIGGER result_taken_back_never_counts BEFORE UPDATE OF current ON result
WHEN NEW.current = 1 AND EXISTS (SELECT 1 FROM version_taken_back WHERE result_id = NEW.id) BEGIN
  SELECT RAISE(ABORT, 'a version that was taken back never counts again');
END;

CREATE TRIGGER course_event_taken_back_never_counts BEFORE UPDATE OF current ON course_event
WHEN NEW.current = 1 AND EXISTS (SELECT 1 FROM version_taken_back WHERE course_event_id = NEW.id) BEGIN
  SELECT RAISE(ABORT, 'a version that was taken back never counts again');
END;

-- Which rows of a revoked mapping are taken back; those of mapping_use that are not here yet still have to be.
CREATE TABLE mapping_return (
  mapping_id INTEGER NOT NULL,
  file_id INTEGER NOT NULL,
  line INTEGER NOT NULL,
  patient_id TEXT NOT NULL,
  PRIMARY KEY (mapping_id, file_id, line, patient_id),
  FOREIGN KEY (mapping_id, file_id, line, patient_id) REFERENCES mapping_use (mapping_id, file_id, line, patient_id)
) STRICT, WITHOUT ROWID;

CREATE TRIGGER mapping_return_refuses_delete BEFORE DELETE ON mapping_return BEGIN
  SELECT RAISE(ABORT, 'what was taken back is never forgotten');
END;

-- Rows that only repeated a version read with a mapping, so that they count for themselves when it is taken back.
CREATE TABLE mapped_repeat (
  id INTEGER NOT NULL PRIMARY KEY,
  result_id INTEGER REFERENCES result (id),
  course_event_id INTEGER REFERENCES course_event (id),
  file_id INTEGER NOT NULL REFERENCES intake_file (id),
  line INTEGER NOT NULL CHECK (line >= 1),
  CHECK ((result_id IS NULL) <> (course_event_id IS NULL))
) STRICT;
CREATE INDEX mapped_repeat_result ON mapped_repeat (result_id);
CREATE INDEX mapped_repeat_course_event ON mapped_repeat (course_event_id);
