-- What physicians changed of a course: phases, treatment lines, care, the clinician. What intake told stays as it came in course_event. A change is never
-- altered or removed: taking it back is a row of its own. `told` is what intake had told of the same thing by then.
CREATE TABLE course_change (
  id INTEGER NOT NULL PRIMARY KEY,
  patient_id TEXT NOT NULL REFERENCES patient (id),
  kind TEXT NOT NULL CHECK (
    kind IN (
      'phase-recorded', 'phase-corrected', 'phase-withdrawn', 'line-started', 'line-corrected', 'line-ended', 'line-goes-on', 'line-withdrawn',
      'care-changed', 'clinician-changed', 'taken-back'
    )
  ),
  made_at TEXT NOT NULL CHECK (made_at GLOB '????-??-??T??:??:??*Z'),
  made_on TEXT NOT NULL CHECK (made_on GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  made_by TEXT NOT NULL CHECK (made_by <> ''),
  text TEXT NOT NULL CHECK (length(text) BETWEEN 3 AND 500),
  told TEXT NOT NULL CHECK (json_valid(told)),
  phase TEXT CHECK (phase IN ('mgus', 'smouldering', 'active', 'plasmacytoma', 'amyloidosis', 'plasma-cell-leukaemia')),
  began_on TEXT CHECK (began_on GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  was_phase TEXT CHECK (was_phase IN ('mgus', 'smouldering', 'active', 'plasmacytoma', 'amyloidosis', 'plasma-cell-leukaemia')),
  was_on TEXT CHECK (was_on GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  line INTEGER CHECK (line >= 1),
  regimen TEXT CHECK (json_valid(regimen)),
  intent TEXT CHECK (intent IN ('induction', 'transplant', 'consolidation', 'maintenance', 'relapse')),
  ended_on TEXT CHECK (ended_on GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  care TEXT CHECK (care IN ('on-treatment', 'maintenance', 'off-treatment')),
  clinician TEXT CHECK (clinician <> ''),
  instead TEXT,
  change_id INTEGER REFERENCES course_change (id),
  CHECK ((kind IN ('phase-recorded', 'phase-corrected')) = (phase IS NOT NULL)),
  CHECK ((kind IN ('phase-recorded', 'phase-corrected', 'line-started', 'line-corrected', 'care-changed')) = (began_on IS NOT NULL)),
  CHECK ((kind IN ('phase-corrected', 'phase-withdrawn')) = (was_phase IS NOT NULL)),
  CHECK ((kind IN ('phase-corrected', 'phase-withdrawn')) = (was_on IS NOT NULL)),
  CHECK ((kind IN ('line-started', 'line-corrected', 'line-ended', 'line-goes-on', 'line-withdrawn')) = (line IS NOT NULL)),
  CHECK ((kind IN ('line-started', 'line-corrected')) = (regimen IS NOT NULL)),
  CHECK (intent IS NULL OR kind IN ('line-started', 'line-corrected')),
  CHECK ((kind = 'line-ended') = (ended_on IS NOT NULL)),
  CHECK ((kind = 'care-changed') = (care IS NOT NULL)),
  CHECK ((kind = 'clinician-changed') = (clinician IS NOT NULL)),
  CHECK (instead IS NULL OR kind = 'clinician-changed'),
  CHECK ((kind = 'taken-back') = (change_id IS NOT NULL)),
  CHECK (began_on <= made_on),
  CHECK (ended_on <= made_on)
) STRICT;
CREATE INDEX course_change_patient ON course_change (patient_id, id);
CREATE UNIQUE INDEX course_change_taken_back_once ON course_change (change_id) WHERE change_id IS NOT NULL;

CREATE TRIGGER course_change_refuses_update BEFORE UPDATE ON course_change BEGIN
  SELECT RAISE(ABORT, 'a change of the course is never altered: taking it back is a row of its own');
END;

CREATE TRIGGER course_change_refuses_delete BEFORE DELETE ON course_change BEGIN
  SELECT RAISE(ABORT, 'a change of the course is never removed');
END;

-- A replacing insert would delete without asking the trigger above.
CREATE TRIGGER course_change_only_appends BEFORE INSERT ON course_change
WHEN NEW.id <> (SELECT coalesce(max(id), 0) + 1 FROM course_change) BEGIN
  SELECT RAISE(ABORT, 'a change of the course is never replaced: it follows the last one');
END;
