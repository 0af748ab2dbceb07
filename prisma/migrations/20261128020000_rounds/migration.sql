-- Rounds of the review list, what stood open at the end of each, who has which patient, and ways of looking at the list kept under a name.

CREATE TABLE review_round (
  id INTEGER NOT NULL PRIMARY KEY CHECK (id >= 1),
  started_by TEXT NOT NULL COLLATE NOCASE CHECK (started_by <> ''),
  started_at TEXT NOT NULL CHECK (started_at GLOB '????-??-??T??:??:??*Z'),
  ended_by TEXT COLLATE NOCASE CHECK (ended_by <> ''),
  ended_at TEXT CHECK (ended_at GLOB '????-??-??T??:??:??*Z'),
  -- How many were followed when it ended, and how many of them had something open.
  followed INTEGER CHECK (followed >= 0),
  open INTEGER CHECK (open BETWEEN 0 AND followed),
  CHECK ((ended_by IS NULL) = (ended_at IS NULL)),
  CHECK ((ended_at IS NULL) = (followed IS NULL)),
  CHECK ((ended_at IS NULL) = (open IS NULL)),
  CHECK (ended_at >= started_at)
) STRICT;
-- One round at a time, for the whole clinic.
CREATE UNIQUE INDEX review_round_running ON review_round ((ended_at IS NULL)) WHERE ended_at IS NULL;

CREATE TRIGGER review_round_only_appends BEFORE INSERT ON review_round
WHEN NEW.ended_at IS NOT NULL OR NEW.id <> (SELECT coalesce(max(id), 0) + 1 FROM review_round) BEGIN
  SELECT RAISE(ABORT, 'a round is started first, and follows the last one');
END;
CREATE TRIGGER review_round_stays_as_started BEFORE UPDATE OF id, started_by, started_at ON review_round BEGIN
  SELECT RAISE(ABORT, 'the start of a round is never changed');
END;
CREATE TRIGGER review_round_ends_once BEFORE UPDATE ON review_round WHEN OLD.ended_at IS NOT NULL BEGIN
  SELECT RAISE(ABORT, 'a round ends once');
END;
CREATE TRIGGER review_round_refuses_delete BEFORE DELETE ON review_round BEGIN
  SELECT RAISE(ABORT, 'a round is never removed');
END;

-- Where everybody followed stood when a round ended, and which of their findings were open. Written once, by the write that ends the round.
CREATE TABLE round_place (
  round_id INTEGER NOT NULL REFERENCES review_round (id),
  patient_id TEXT NOT NULL REFERENCES patient (id),
  window_rank INTEGER NOT NULL CHECK (window_rank BETWEEN 0 AND 4),
  PRIMARY KEY (round_id, patient_id)
) STRICT, WITHOUT ROWID;

CREATE TABLE round_finding (
  round_id INTEGER NOT NULL,
  patient_id TEXT NOT NULL,
  -- The first 128 bits of the SHA-256 of the finding's key: its rule, subject, state, certainty, window and evidence.
  key TEXT NOT NULL CHECK (length(key) = 32 AND key NOT GLOB '*[^0-9a-f]*'),
  -- Rule and subject: the same finding whatever its evidence.
  topic TEXT NOT NULL CHECK (topic <> ''),
  PRIMARY KEY (round_id, patient_id, key),
  FOREIGN KEY (round_id, patient_id) REFERENCES round_place (round_id, patient_id)
) STRICT, WITHOUT ROWID;

CREATE TRIGGER round_place_only_while_it_runs BEFORE INSERT ON round_place
WHEN (SELECT ended_at FROM review_round WHERE id = NEW.round_id) IS NOT NULL BEGIN
  SELECT RAISE(ABORT, 'what stood open at the end of a round is written once');
END;
CREATE TRIGGER round_place_refuses_update BEFORE UPDATE ON round_place BEGIN
  SELECT RAISE(ABORT, 'what stood open at the end of a round is never changed');
END;
CREATE TRIGGER round_place_refuses_delete BEFORE DELETE ON round_place BEGIN
  SELECT RAISE(ABORT, 'what stood open at the end of a round is never removed');
END;
CREATE TRIGGER round_finding_only_while_it_runs BEFORE INSERT ON round_finding
WHEN (SELECT ended_at FROM review_round WHERE id = NEW.round_id) IS NOT NULL BEGIN
  SELECT RAISE(ABORT, 'what stood open at the end of a round is written once');
END;
CREATE TRIGGER round_finding_refuses_update BEFORE UPDATE ON round_finding BEGIN
  SELECT RAISE(ABORT, 'what stood open at the end of a round is never changed');
END;
CREATE TRIGGER round_finding_refuses_delete BEFORE DELETE ON round_finding BEGIN
  SELECT RAISE(ABORT, 'what stood open at the end of a round is never removed');
END;

-- The day on which something was first seen open on the list, while it stays open. No part of a standing: it cannot be worked out again.
CREATE TABLE on_list (
  patient_id TEXT NOT NULL REFERENCES patient (id),
  topic TEXT NOT NULL CHECK (topic <> ''),
  seen_on TEXT NOT NULL CHECK (seen_on GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  PRIMARY KEY (patient_id, topic)
) STRICT, WITHOUT ROWID;

-- The open findings of a standing, and whom it comes back to. Worked out, like the standing.
CREATE TABLE standing_open (
  patient_id TEXT NOT NULL REFERENCES standing (patient_id) ON DELETE CASCADE,
  key TEXT NOT NULL CHECK (length(key) = 32 AND key NOT GLOB '*[^0-9a-f]*'),
  topic TEXT NOT NULL CHECK (topic <> ''),
  -- The last review that answered it before, and why that answers it no longer.
  answered_at TEXT CHECK (answered_at GLOB '????-??-??T??:??:??*Z'),
  back TEXT CHECK (back IN ('day', 'evidence', 'corrected')),
  -- Handed to a physician, and answered by none yet.
  handed INTEGER NOT NULL CHECK (handed IN (0, 1)),
  PRIMARY KEY (patient_id, key),
  CHECK ((answered_at IS NULL) = (back IS NULL))
) STRICT, WITHOUT ROWID;

CREATE INDEX standing_open_handed ON standing_open (patient_id) WHERE handed = 1;

CREATE TABLE standing_back_to (
  name TEXT NOT NULL CHECK (name <> ''),
  patient_id TEXT NOT NULL REFERENCES standing (patient_id) ON DELETE CASCADE,
  PRIMARY KEY (name, patient_id)
) STRICT, WITHOUT ROWID;
CREATE INDEX standing_back_to_patient ON standing_back_to (patient_id);

-- Since when the longest waiting of the open findings has been on the list.
ALTER TABLE standing ADD COLUMN seen_on TEXT CHECK (seen_on GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]');

-- One index holds all that the list filters and sorts by, so that no wide row is read but those of the page; the other tells whose answer no longer holds.
DROP INDEX standing_urgency;
DROP INDEX standing_since;
DROP INDEX standing_next_due;
DROP INDEX standing_phase;
DROP INDEX standing_clinician;
CREATE INDEX standing_urgency ON standing (
  followed, window_rank, state_rank, organ_rank, since, excess DESC, patient_id, seen_on, next_due_on, phase, clinician
);
CREATE INDEX standing_kept ON standing (patient_id, history_revision, rules_version, plan_version, evaluated_on, holds_until);

-- Who has a patient. A row is never changed: giving the patient to somebody else, or to nobody, is a row of its own.
CREATE TABLE assignment (
  id INTEGER NOT NULL PRIMARY KEY CHECK (id >= 1),
  patient_id TEXT NOT NULL REFERENCES patient (id),
  -- Null: nobody has the patient any more.
  account_id INTEGER REFERENCES account (id),
  made_by TEXT NOT NULL COLLATE NOCASE CHECK (made_by <> ''),
  made_at TEXT NOT NULL CHECK (made_at GLOB '????-??-??T??:??:??*Z')
) STRICT;
CREATE INDEX assignment_patient ON assignment (patient_id, id);

CREATE TRIGGER assignment_only_appends BEFORE INSERT ON assignment WHEN NEW.id <> (SELECT coalesce(max(id), 0) + 1 FROM assignment) BEGIN
  SELECT RAISE(ABORT, 'an assignment follows the last one');
END;
CREATE TRIGGER assignment_refuses_update BEFORE UPDATE ON assignment BEGIN
  SELECT RAISE(ABORT, 'an assignment is never changed: another one follows it');
END;
CREATE TRIGGER assignment_refuses_delete BEFORE DELETE ON assignment BEGIN
  SELECT RAISE(ABORT, 'an assignment is never removed');
END;

-- The last assignment of each patient somebody has, so that the list need not look for it.
CREATE TABLE assigned (
  patient_id TEXT NOT NULL PRIMARY KEY REFERENCES patient (id),
  account_id INTEGER NOT NULL REFERENCES account (id),
  assignment_id INTEGER NOT NULL REFERENCES assignment (id)
) STRICT, WITHOUT ROWID;
CREATE INDEX assigned_account ON assigned (account_id, patient_id);

CREATE TRIGGER assignment_is_the_last AFTER INSERT ON assignment BEGIN
  DELETE FROM assigned WHERE patient_id = NEW.patient_id;
  INSERT INTO assigned (patient_id, account_id, assignment_id)
  SELECT NEW.patient_id, NEW.account_id, NEW.id WHERE NEW.account_id IS NOT NULL;
END;

-- Filters and order of the list under a name. Each save is a version of its own, and so is taking it away.
CREATE TABLE saved_view (
  id INTEGER NOT NULL CHECK (id >= 1),
  version INTEGER NOT NULL CHECK (version >= 1),
  name TEXT NOT NULL CHECK (length(name) BETWEEN 3 AND 60),
  -- Null: the whole clinic has it.
  owner_id INTEGER REFERENCES account (id),
  -- What the list is asked, as JSON; nothing that names a patient.
  asks TEXT NOT NULL CHECK (json_valid(asks)),
  removed INTEGER NOT NULL CHECK (removed IN (0, 1)),
  made_by TEXT NOT NULL COLLATE NOCASE CHECK (made_by <> ''),
  made_at TEXT NOT NULL CHECK (made_at GLOB '????-??-??T??:??:??*Z'),
  PRIMARY KEY (id, version)
) STRICT, WITHOUT ROWID;

CREATE TRIGGER saved_view_only_appends BEFORE INSERT ON saved_view
WHEN NEW.version <> (SELECT coalesce(max(version), 0) + 1 FROM saved_view WHERE id = NEW.id) OR NEW.id > (SELECT coalesce(max(id), 0) + 1 FROM saved_view) BEGIN
  SELECT RAISE(ABORT, 'a version of a saved view follows the last one');
END;
CREATE TRIGGER saved_view_removed_stays_so BEFORE INSERT ON saved_view
WHEN EXISTS (SELECT 1 FROM saved_view WHERE id = NEW.id AND removed = 1) BEGIN
  SELECT RAISE(ABORT, 'a saved view that was removed stays so');
END;
CREATE TRIGGER saved_view_refuses_update BEFORE UPDATE ON saved_view BEGIN
  SELECT RAISE(ABORT, 'a version of a saved view is never changed');
END;
CREATE TRIGGER saved_view_refuses_delete BEFORE DELETE ON saved_view BEGIN
  SELECT RAISE(ABORT, 'a version of a saved view is never removed: removing it is a version');
END;

CREATE INDEX decision_made ON decision (made_at);

-- Kept answers now say which findings are open. They are worked out, so they are made again when the list is next shown.
DELETE FROM standing_finding;
DELETE FROM standing;
