-- Versions of the follow-up plan after the one Lowmark comes with, which is version 1 and stands in the program. A physician proposes, an administrator decides.

CREATE TABLE plan_version (
  version INTEGER NOT NULL PRIMARY KEY CHECK (version >= 2),
  -- The version its numbers were drawn from.
  based_on INTEGER NOT NULL CHECK (based_on >= 1 AND based_on < version),
  state TEXT NOT NULL CHECK (state IN ('proposed', 'published', 'refused', 'withdrawn')),
  payload TEXT NOT NULL CHECK (json_valid(payload)),
  note TEXT NOT NULL CHECK (note <> ''),
  proposed_by TEXT NOT NULL COLLATE NOCASE CHECK (proposed_by <> ''),
  proposed_at TEXT NOT NULL CHECK (proposed_at GLOB '????-??-??T??:??:??*Z'),
  decided_by TEXT COLLATE NOCASE CHECK (decided_by <> ''),
  decided_at TEXT CHECK (decided_at GLOB '????-??-??T??:??:??*Z'),
  -- The day wished for; of a published version the first day it is followed.
  from_day TEXT NOT NULL CHECK (from_day GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  decision_reason TEXT CHECK (decision_reason <> ''),
  CHECK ((state = 'proposed') = (decided_at IS NULL)),
  CHECK ((decided_at IS NULL) = (decided_by IS NULL)),
  CHECK ((state = 'refused') = (decision_reason IS NOT NULL)),
  -- Four eyes: nobody publishes a proposal of their own.
  CHECK (state <> 'published' OR decided_by <> proposed_by)
) STRICT;
CREATE INDEX plan_version_state ON plan_version (state, from_day);

CREATE TRIGGER plan_version_only_appends BEFORE INSERT ON plan_version
WHEN NEW.state <> 'proposed' OR NEW.version <> (SELECT coalesce(max(version), 1) + 1 FROM plan_version) BEGIN
  SELECT RAISE(ABORT, 'a version of the plan is proposed first, and follows the last one');
END;

CREATE TRIGGER plan_version_stays_as_decided BEFORE UPDATE ON plan_version
WHEN OLD.state <> 'proposed' BEGIN
  SELECT RAISE(ABORT, 'a version of the plan that was decided on is never changed');
END;

CREATE TRIGGER plan_version_stays_as_proposed BEFORE UPDATE OF version, based_on, payload, note, proposed_by, proposed_at ON plan_version BEGIN
  SELECT RAISE(ABORT, 'what was proposed is never changed: it is withdrawn, and proposed again');
END;

CREATE TRIGGER plan_version_refuses_delete BEFORE DELETE ON plan_version BEGIN
  SELECT RAISE(ABORT, 'a version of the plan is never removed');
END;
