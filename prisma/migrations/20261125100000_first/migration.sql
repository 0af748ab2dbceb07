-- What came in, and what people did. Findings are derived; `standing` keeps the last answer. Decimals are TEXT, so that none passes through binary floating point.

CREATE TABLE intake_file_bytes (
  sha256 TEXT NOT NULL PRIMARY KEY CHECK (length(sha256) = 64 AND sha256 NOT GLOB '*[^0-9a-f]*'),
  bytes BLOB NOT NULL
) STRICT;

CREATE TABLE intake_file (
  id INTEGER NOT NULL PRIMARY KEY,
  name TEXT NOT NULL CHECK (name <> ''),
  sha256 TEXT NOT NULL REFERENCES intake_file_bytes (sha256),
  byte_count INTEGER NOT NULL CHECK (byte_count >= 0),
  kind TEXT CHECK (kind IN ('patients', 'course', 'results')),
  source TEXT,
  received_at TEXT NOT NULL CHECK (received_at GLOB '????-??-??T??:??:??*Z'),
  received_by TEXT NOT NULL,
  -- More than rows_read while the file is being taken in part by part, or where that was interrupted.
  rows_in_file INTEGER NOT NULL DEFAULT 0 CHECK (rows_in_file >= rows_read),
  rows_read INTEGER NOT NULL DEFAULT 0 CHECK (rows_read = filed + known + corrected + held + refused),
  filed INTEGER NOT NULL DEFAULT 0 CHECK (filed >= 0),
  known INTEGER NOT NULL DEFAULT 0 CHECK (known >= 0),
  corrected INTEGER NOT NULL DEFAULT 0 CHECK (corrected >= 0),
  held INTEGER NOT NULL DEFAULT 0 CHECK (held >= 0),
  refused INTEGER NOT NULL DEFAULT 0 CHECK (refused >= 0),
  released INTEGER NOT NULL DEFAULT 0 CHECK (released >= 0),
  refused_whole_reason TEXT,
  refused_whole_sentence TEXT,
  CHECK ((refused_whole_reason IS NULL) = (refused_whole_sentence IS NULL)),
  CHECK (refused_whole_reason IS NULL OR rows_read = 0)
) STRICT;
CREATE INDEX intake_file_received ON intake_file (received_at);
CREATE INDEX intake_file_sha256 ON intake_file (sha256);

CREATE TABLE patient (
  id TEXT NOT NULL PRIMARY KEY CHECK (id <> ''),
  family_name TEXT,
  given_name TEXT,
  birth_date TEXT NOT NULL CHECK (birth_date GLOB '[0-9][0-9][0-9][0-9]*' AND length(birth_date) IN (4, 7, 10)),
  sex TEXT NOT NULL CHECK (sex IN ('female', 'male')),
  weight_kg TEXT CHECK (weight_kg NOT GLOB '*[^0-9.]*' AND weight_kg <> ''),
  clinician TEXT,
  status TEXT NOT NULL CHECK (status IN ('followed', 'transferred', 'discharged', 'died')),
  status_on TEXT CHECK (status_on GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  revision INTEGER NOT NULL DEFAULT 0 CHECK (revision >= 0),
  version INTEGER NOT NULL DEFAULT 1 CHECK (version >= 1),
  file_id INTEGER NOT NULL REFERENCES intake_file (id),
  line INTEGER NOT NULL CHECK (line >= 1)
) STRICT;
CREATE INDEX patient_status ON patient (status);

CREATE TABLE patient_version (
  patient_id TEXT NOT NULL REFERENCES patient (id),
  version INTEGER NOT NULL CHECK (version >= 1),
  row TEXT NOT NULL CHECK (json_valid(row)),
  replaced_at TEXT NOT NULL CHECK (replaced_at GLOB '????-??-??T??:??:??*Z'),
  PRIMARY KEY (patient_id, version)
) STRICT;

CREATE TABLE result (
  id INTEGER NOT NULL PRIMARY KEY,
  patient_id TEXT NOT NULL REFERENCES patient (id),
  identity TEXT NOT NULL CHECK (identity <> ''),
  version INTEGER NOT NULL CHECK (version >= 1),
  current INTEGER NOT NULL CHECK (current IN (0, 1)),
  code TEXT NOT NULL CHECK (code <> ''),
  analyte TEXT NOT NULL CHECK (analyte <> ''),
  collected_at TEXT NOT NULL,
  collected_on TEXT NOT NULL CHECK (collected_on GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  collected_order INTEGER NOT NULL,
  status TEXT NOT NULL CHECK (status IN ('final', 'corrected', 'preliminary', 'cancelled', 'entered-in-error')),
  kind TEXT NOT NULL CHECK (kind IN ('number', 'not-detected', 'present', 'immunofixation', 'none')),
  comparator TEXT CHECK (comparator IN ('<', '<=', '>', '>=')),
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
CREATE INDEX result_patient ON result (patient_id, current);
CREATE UNIQUE INDEX result_one_current ON result (identity) WHERE current = 1;

CREATE TABLE course_event (
  id INTEGER NOT NULL PRIMARY KEY,
  patient_id TEXT NOT NULL REFERENCES patient (id),
  identity TEXT NOT NULL CHECK (identity <> ''),
  version INTEGER NOT NULL CHECK (version >= 1),
  current INTEGER NOT NULL CHECK (current IN (0, 1)),
  on_day TEXT NOT NULL CHECK (on_day GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  event TEXT NOT NULL CHECK (event IN ('diagnosis', 'phase', 'line-start', 'line-end', 'imaging', 'marrow', 'bone-agent', 'left')),
  payload TEXT NOT NULL CHECK (json_valid(payload)),
  file_id INTEGER NOT NULL REFERENCES intake_file (id),
  line INTEGER NOT NULL CHECK (line >= 1),
  UNIQUE (identity, version)
) STRICT;
CREATE INDEX course_event_patient ON course_event (patient_id, current);
CREATE UNIQUE INDEX course_event_one_current ON course_event (identity) WHERE current = 1;

-- A held row may be about a patient nobody knows yet, so patient_id points nowhere.
CREATE TABLE held_row (
  id INTEGER NOT NULL PRIMARY KEY,
  file_id INTEGER NOT NULL REFERENCES intake_file (id),
  line INTEGER NOT NULL CHECK (line >= 1),
  kind TEXT NOT NULL CHECK (kind IN ('patients', 'course', 'results')),
  patient_id TEXT,
  reason TEXT NOT NULL,
  sentence TEXT NOT NULL,
  row TEXT NOT NULL,
  fields TEXT NOT NULL CHECK (json_valid(fields)),
  received_at TEXT NOT NULL CHECK (received_at GLOB '????-??-??T??:??:??*Z'),
  received_on TEXT NOT NULL CHECK (received_on GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  collected_on TEXT CHECK (collected_on GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  resolved_at TEXT CHECK (resolved_at GLOB '????-??-??T??:??:??*Z'),
  resolved_by TEXT,
  decision TEXT CHECK (decision IN ('file', 'refuse')),
  decision_reason TEXT CHECK (decision_reason <> ''),
  CHECK ((resolved_at IS NULL) = (resolved_by IS NULL)),
  CHECK ((resolved_at IS NULL) = (decision IS NULL)),
  CHECK ((resolved_at IS NULL) = (decision_reason IS NULL))
) STRICT;
CREATE INDEX held_row_patient ON held_row (patient_id, resolved_at);
CREATE INDEX held_row_waiting ON held_row (resolved_at, received_at);
CREATE INDEX held_row_file ON held_row (file_id);

CREATE TABLE refused_row (
  id INTEGER NOT NULL PRIMARY KEY,
  file_id INTEGER NOT NULL REFERENCES intake_file (id),
  line INTEGER NOT NULL CHECK (line >= 1),
  reason TEXT NOT NULL,
  sentence TEXT NOT NULL,
  row TEXT NOT NULL
) STRICT;
CREATE INDEX refused_row_file ON refused_row (file_id);

CREATE TABLE standing (
  patient_id TEXT NOT NULL PRIMARY KEY REFERENCES patient (id),
  history_revision INTEGER NOT NULL CHECK (history_revision >= 0),
  -- 0 for those who left: their answer is kept, and the list does not show it.
  followed INTEGER NOT NULL CHECK (followed IN (0, 1)),
  rules_version TEXT NOT NULL,
  plan_version TEXT NOT NULL,
  evaluated_on TEXT NOT NULL CHECK (evaluated_on GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  holds_until TEXT CHECK (holds_until GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  window_rank INTEGER NOT NULL CHECK (window_rank BETWEEN 0 AND 4),
  state_rank INTEGER NOT NULL CHECK (state_rank BETWEEN 0 AND 9),
  organ_rank INTEGER NOT NULL CHECK (organ_rank BETWEEN 0 AND 9),
  since TEXT CHECK (since GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  -- STRICT lets Infinity into REAL; a place in the order must be a finite number.
  excess REAL NOT NULL CHECK (excess BETWEEN -1e300 AND 1e300),
  next_due_on TEXT CHECK (next_due_on GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  phase TEXT NOT NULL,
  care TEXT,
  clinician TEXT,
  rule TEXT,
  state TEXT,
  window TEXT NOT NULL CHECK (window IN ('same-day', 'within-7-days', 'within-30-days', 'next-visit', 'on-schedule')),
  answer TEXT NOT NULL CHECK (json_valid(answer))
) STRICT;
CREATE INDEX standing_urgency ON standing (followed, window_rank, state_rank, organ_rank, since, excess DESC, patient_id);
CREATE INDEX standing_since ON standing (followed, since, patient_id);
CREATE INDEX standing_next_due ON standing (followed, next_due_on, patient_id);
CREATE INDEX standing_phase ON standing (followed, phase, window_rank);
CREATE INDEX standing_clinician ON standing (followed, clinician, window_rank);
CREATE INDEX standing_holds ON standing (holds_until);

CREATE TABLE standing_finding (
  patient_id TEXT NOT NULL REFERENCES standing (patient_id) ON DELETE CASCADE,
  rule TEXT NOT NULL,
  PRIMARY KEY (patient_id, rule)
) STRICT;
CREATE INDEX standing_finding_rule ON standing_finding (rule, patient_id);

CREATE TABLE account (
  id INTEGER NOT NULL PRIMARY KEY,
  name TEXT NOT NULL UNIQUE COLLATE NOCASE CHECK (name <> ''),
  role TEXT NOT NULL CHECK (role IN ('navigator', 'physician', 'quality', 'administrator')),
  password_hash TEXT,
  code_hash TEXT,
  code_expires_at TEXT CHECK (code_expires_at GLOB '????-??-??T??:??:??*Z'),
  created_at TEXT NOT NULL CHECK (created_at GLOB '????-??-??T??:??:??*Z'),
  disabled_at TEXT CHECK (disabled_at GLOB '????-??-??T??:??:??*Z'),
  failures INTEGER NOT NULL DEFAULT 0 CHECK (failures >= 0),
  wait_until TEXT CHECK (wait_until GLOB '????-??-??T??:??:??*Z'),
  last_sign_in_at TEXT CHECK (last_sign_in_at GLOB '????-??-??T??:??:??*Z'),
  CHECK ((code_hash IS NULL) = (code_expires_at IS NULL))
) STRICT;

-- The id is the SHA-256 of what the browser holds: a copy of this table signs nobody in.
CREATE TABLE session (
  id TEXT NOT NULL PRIMARY KEY CHECK (length(id) = 64 AND id NOT GLOB '*[^0-9a-f]*'),
  account_id INTEGER NOT NULL REFERENCES account (id),
  created_at TEXT NOT NULL CHECK (created_at GLOB '????-??-??T??:??:??*Z'),
  last_seen_at TEXT NOT NULL CHECK (last_seen_at >= created_at),
  ended_at TEXT CHECK (ended_at GLOB '????-??-??T??:??:??*Z'),
  ended_because TEXT CHECK (ended_because IN ('sign-out', 'disabled', 'role-changed', 'ended-by-administrator', 'idle', 'too-long')),
  address TEXT,
  CHECK ((ended_at IS NULL) = (ended_because IS NULL))
) STRICT;
CREATE INDEX session_account ON session (account_id, ended_at);

CREATE TABLE trail (
  sequence INTEGER NOT NULL PRIMARY KEY CHECK (sequence >= 1),
  at TEXT NOT NULL CHECK (at GLOB '????-??-??T??:??:??*Z'),
  actor TEXT NOT NULL,
  role TEXT NOT NULL CHECK (role IN ('navigator', 'physician', 'quality', 'administrator', 'console', 'none')),
  session_hash TEXT,
  address TEXT,
  action TEXT NOT NULL,
  outcome TEXT NOT NULL CHECK (outcome IN ('success', 'failure')),
  purpose TEXT,
  patient_id TEXT,
  object TEXT,
  object_version INTEGER,
  request_id TEXT NOT NULL,
  before_hash TEXT,
  after_hash TEXT,
  event TEXT NOT NULL CHECK (json_valid(event)),
  previous_hash TEXT NOT NULL CHECK (length(previous_hash) = 64),
  hash TEXT NOT NULL CHECK (length(hash) = 64)
) STRICT;
CREATE INDEX trail_actor ON trail (actor, sequence);
CREATE INDEX trail_action ON trail (action, sequence);
CREATE INDEX trail_patient ON trail (patient_id, sequence);

CREATE TRIGGER trail_refuses_update BEFORE UPDATE ON trail BEGIN
  SELECT RAISE(ABORT, 'the log is append-only: a row is never changed');
END;

CREATE TRIGGER trail_refuses_delete BEFORE DELETE ON trail BEGIN
  SELECT RAISE(ABORT, 'the log is append-only: a row is never removed');
END;

-- A replacing insert would delete without asking the trigger above.
CREATE TRIGGER trail_only_appends BEFORE INSERT ON trail
WHEN NEW.sequence <> (SELECT coalesce(max(sequence), 0) + 1 FROM trail) BEGIN
  SELECT RAISE(ABORT, 'the log is append-only: a row follows the last one');
END;

CREATE TABLE setting (
  key TEXT NOT NULL PRIMARY KEY CHECK (key <> ''),
  value TEXT NOT NULL
) STRICT;
