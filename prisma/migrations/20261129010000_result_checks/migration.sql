-- The same checks of a result, written as comparisons. For a list behind IN, SQLite makes a table anew at every statement; a large file is a statement a row, and a
-- third of what storing a row took went into four such lists. The table is made anew because a check cannot be changed in place; every row stays as it was.
CREATE TABLE result_anew (
  id INTEGER NOT NULL PRIMARY KEY,
  patient_id TEXT NOT NULL REFERENCES patient (id),
  identity TEXT NOT NULL CHECK (identity <> ''),
  version INTEGER NOT NULL CHECK (version >= 1),
  current INTEGER NOT NULL CHECK (current = 1 OR current = 0),
  code TEXT NOT NULL CHECK (code <> ''),
  analyte TEXT NOT NULL CHECK (analyte <> ''),
  collected_at TEXT NOT NULL,
  collected_on TEXT NOT NULL CHECK (collected_on GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  collected_order INTEGER NOT NULL,
  status TEXT NOT NULL CHECK (status = 'final' OR status = 'corrected' OR status = 'preliminary' OR status = 'cancelled' OR status = 'entered-in-error'),
  kind TEXT NOT NULL CHECK (kind = 'number' OR kind = 'not-detected' OR kind = 'present' OR kind = 'immunofixation' OR kind = 'none'),
  comparator TEXT CHECK (comparator = '<' OR comparator = '<=' OR comparator = '>' OR comparator = '>='),
  kept_low TEXT CHECK (kept_low NOT GLOB '*[^0-9.-]*' AND kept_low <> ''),
  kept_high TEXT CHECK (kept_high NOT GLOB '*[^0-9.-]*' AND kept_high <> ''),
  printed_low TEXT CHECK (printed_low NOT GLOB '*[^0-9.-]*' AND printed_low <> ''),
  printed_high TEXT CHECK (printed_high NOT GLOB '*[^0-9.-]*' AND printed_high <> ''),
  printed_unit TEXT,
  reading TEXT CHECK (json_valid(reading)),
  none_reason TEXT,
  up_to TEXT CHECK (up_to NOT GLOB '*[^0-9.-]*' AND up_to <> ''),
  accession TEXT,
  laboratory TEXT,
  method TEXT,
  reference_low_kept TEXT CHECK (reference_low_kept NOT GLOB '*[^0-9.-]*' AND reference_low_kept <> ''),
  reference_low_printed TEXT CHECK (reference_low_printed NOT GLOB '*[^0-9.-]*' AND reference_low_printed <> ''),
  reference_high_kept TEXT CHECK (reference_high_kept NOT GLOB '*[^0-9.-]*' AND reference_high_kept <> ''),
  reference_high_printed TEXT CHECK (reference_high_printed NOT GLOB '*[^0-9.-]*' AND reference_high_printed <> ''),
  reported_at TEXT,
  value_text TEXT NOT NULL,
  unit_text TEXT NOT NULL,
  file_id INTEGER NOT NULL REFERENCES intake_file (id),
  line INTEGER NOT NULL CHECK (line >= 1),
  UNIQUE (identity, version),
  CHECK ((kind = 'number') = (kept_low IS NOT NULL)),
  CHECK ((kind = 'number') = (printed_low IS NOT NULL)),
  CHECK ((kind = 'number') = (printed_unit IS NOT NULL)),
  CHECK (kind = 'number' OR (kept_high IS NULL AND printed_high IS NULL AND comparator IS NULL)),
  CHECK ((kind = 'immunofixation') = (reading IS NOT NULL)),
  CHECK ((kind = 'none') = (none_reason IS NOT NULL)),
  CHECK (kind = 'present' OR up_to IS NULL),
  CHECK ((reference_low_kept IS NULL) = (reference_low_printed IS NULL)),
  CHECK ((reference_high_kept IS NULL) = (reference_high_printed IS NULL))
) STRICT;
INSERT INTO result_anew (id, patient_id, identity, version, current, code, analyte, collected_at, collected_on, collected_order, status, kind, comparator, kept_low, kept_high,
  printed_low, printed_high, printed_unit, reading, none_reason, up_to, accession, laboratory, method, reference_low_kept, reference_low_printed,
  reference_high_kept, reference_high_printed, reported_at, value_text, unit_text, file_id, line)
  SELECT id, patient_id, identity, version, current, code, analyte, collected_at, collected_on, collected_order, status, kind, comparator, kept_low, kept_high,
  printed_low, printed_high, printed_unit, reading, none_reason, up_to, accession, laboratory, method, reference_low_kept, reference_low_printed,
  reference_high_kept, reference_high_printed, reported_at, value_text, unit_text, file_id, line
  FROM result ORDER BY id;
DROP TABLE result;
ALTER TABLE result_anew RENAME TO result;

CREATE INDEX result_patient ON result (patient_id, current);
CREATE UNIQUE INDEX result_one_current ON result (identity) WHERE current = 1;

CREATE TRIGGER result_taken_back_never_counts BEFORE UPDATE OF current ON result
WHEN NEW.current = 1 AND EXISTS (SELECT 1 FROM version_taken_back WHERE result_id = NEW.id) BEGIN
  SELECT RAISE(ABORT, 'a version that was taken back never counts again');
END;
