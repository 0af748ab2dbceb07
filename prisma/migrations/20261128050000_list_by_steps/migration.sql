-- What the review list asks before it shows anything, answered by a few steps in an index however many patients are followed.

-- Patients whose history is another than their standing was worked out from, and those who have none. Kept by triggers alone.
CREATE TABLE standing_behind (
  patient_id TEXT NOT NULL PRIMARY KEY REFERENCES patient (id) ON DELETE CASCADE
) STRICT, WITHOUT ROWID;

INSERT INTO standing_behind (patient_id)
SELECT id FROM patient WHERE NOT EXISTS (SELECT 1 FROM standing WHERE patient_id = patient.id AND history_revision = patient.revision);

CREATE TRIGGER patient_begins_behind AFTER INSERT ON patient BEGIN
  INSERT INTO standing_behind (patient_id) VALUES (NEW.id);
END;
CREATE TRIGGER patient_history_moves_on AFTER UPDATE OF revision ON patient BEGIN
  DELETE FROM standing_behind WHERE patient_id = NEW.id;
  INSERT INTO standing_behind (patient_id)
  SELECT NEW.id WHERE NOT EXISTS (SELECT 1 FROM standing WHERE patient_id = NEW.id AND history_revision = NEW.revision);
END;
CREATE TRIGGER standing_catches_up AFTER INSERT ON standing BEGIN
  DELETE FROM standing_behind WHERE patient_id = NEW.patient_id;
  INSERT INTO standing_behind (patient_id) SELECT id FROM patient WHERE id = NEW.patient_id AND revision <> NEW.history_revision;
END;
CREATE TRIGGER standing_catches_up_again AFTER UPDATE OF history_revision ON standing BEGIN
  DELETE FROM standing_behind WHERE patient_id = NEW.patient_id;
  INSERT INTO standing_behind (patient_id) SELECT id FROM patient WHERE id = NEW.patient_id AND revision <> NEW.history_revision;
END;
CREATE TRIGGER standing_leaves_behind AFTER DELETE ON standing BEGIN
  INSERT OR IGNORE INTO standing_behind (patient_id) SELECT id FROM patient WHERE id = OLD.patient_id;
END;

-- By which rules and plan, and on which day: what is otherwise than asked for stands at one of the ends.
DROP INDEX standing_kept;
CREATE INDEX standing_kept ON standing (rules_version, plan_version, evaluated_on);

-- Each value of a filter is one step from the last.
CREATE INDEX standing_phase ON standing (followed, phase);
CREATE INDEX standing_clinician ON standing (followed, clinician);
