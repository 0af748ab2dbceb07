-- Emergency views of closed records, the review of the log, and what makes the questions to a log of millions of rows quick.

CREATE TABLE emergency_view (
  id INTEGER NOT NULL PRIMARY KEY,
  opened_by TEXT NOT NULL COLLATE NOCASE CHECK (opened_by <> ''),
  -- SHA-256 of what the browser of that session holds, as in the log.
  session_hash TEXT NOT NULL CHECK (session_hash <> ''),
  patient_id TEXT NOT NULL REFERENCES patient (id),
  reason TEXT NOT NULL CHECK (length(reason) BETWEEN 10 AND 500),
  from_at TEXT NOT NULL CHECK (from_at GLOB '????-??-??T??:??:??*Z'),
  until_at TEXT NOT NULL CHECK (until_at GLOB '????-??-??T??:??:??*Z'),
  ended_at TEXT CHECK (ended_at GLOB '????-??-??T??:??:??*Z'),
  acknowledged_by TEXT COLLATE NOCASE CHECK (acknowledged_by <> ''),
  acknowledged_at TEXT CHECK (acknowledged_at GLOB '????-??-??T??:??:??*Z'),
  note TEXT CHECK (length(note) BETWEEN 3 AND 500),
  CHECK (unixepoch(until_at) - unixepoch(from_at) BETWEEN 1 AND 3600),
  CHECK (ended_at BETWEEN from_at AND until_at),
  CHECK ((acknowledged_by IS NULL) = (acknowledged_at IS NULL)),
  CHECK (note IS NULL OR acknowledged_by IS NOT NULL),
  -- Nobody acknowledges a view of their own.
  CHECK (acknowledged_by <> opened_by)
) STRICT;
CREATE INDEX emergency_view_opened ON emergency_view (opened_by, id);
CREATE INDEX emergency_view_waiting ON emergency_view (id) WHERE acknowledged_at IS NULL;

CREATE TRIGGER emergency_view_only_appends BEFORE INSERT ON emergency_view
WHEN NEW.ended_at IS NOT NULL OR NEW.acknowledged_at IS NOT NULL OR NEW.id <> (SELECT coalesce(max(id), 0) + 1 FROM emergency_view) BEGIN
  SELECT RAISE(ABORT, 'an emergency view is opened first, and follows the last one');
END;

CREATE TRIGGER emergency_view_stays_as_opened BEFORE UPDATE OF id, opened_by, session_hash, patient_id, reason, from_at, until_at ON emergency_view BEGIN
  SELECT RAISE(ABORT, 'an emergency view is never changed');
END;

CREATE TRIGGER emergency_view_ends_once BEFORE UPDATE OF ended_at ON emergency_view WHEN OLD.ended_at IS NOT NULL BEGIN
  SELECT RAISE(ABORT, 'an emergency view ends once');
END;

CREATE TRIGGER emergency_view_acknowledged_once BEFORE UPDATE OF acknowledged_by, acknowledged_at, note ON emergency_view
WHEN OLD.acknowledged_at IS NOT NULL BEGIN
  SELECT RAISE(ABORT, 'an emergency view is acknowledged once');
END;

CREATE TRIGGER emergency_view_refuses_delete BEFORE DELETE ON emergency_view BEGIN
  SELECT RAISE(ABORT, 'an emergency view is never removed');
END;

-- A person looked through the entries of these days (UTC, both included).
CREATE TABLE log_review (
  id INTEGER NOT NULL PRIMARY KEY,
  from_day TEXT NOT NULL CHECK (from_day GLOB '????-??-??'),
  to_day TEXT NOT NULL CHECK (to_day GLOB '????-??-??'),
  reviewed_by TEXT NOT NULL COLLATE NOCASE CHECK (reviewed_by <> ''),
  reviewed_at TEXT NOT NULL CHECK (reviewed_at GLOB '????-??-??T??:??:??*Z'),
  looked_at TEXT NOT NULL CHECK (json_valid(looked_at)),
  note TEXT CHECK (length(note) BETWEEN 3 AND 500),
  -- How many entries those days had, and how many of them are of whoever reviewed them.
  entries INTEGER NOT NULL CHECK (entries >= 0),
  own_entries INTEGER NOT NULL CHECK (own_entries BETWEEN 0 AND entries),
  CHECK (from_day <= to_day)
) STRICT;

CREATE TRIGGER log_review_only_appends BEFORE INSERT ON log_review WHEN NEW.id <> (SELECT coalesce(max(id), 0) + 1 FROM log_review) BEGIN
  SELECT RAISE(ABORT, 'a review of the log follows the last one');
END;

CREATE TRIGGER log_review_refuses_update BEFORE UPDATE ON log_review BEGIN
  SELECT RAISE(ABORT, 'a review of the log is never changed');
END;

CREATE TRIGGER log_review_refuses_delete BEFORE DELETE ON log_review BEGIN
  SELECT RAISE(ABORT, 'a review of the log is never removed');
END;

-- Whose data an entry of the log tells were shown. Filled by the write that appends the entry, and goes with it where entries are taken out of the log.
CREATE TABLE trail_shown (
  patient_id TEXT NOT NULL,
  sequence INTEGER NOT NULL,
  PRIMARY KEY (patient_id, sequence)
) STRICT, WITHOUT ROWID;

INSERT OR IGNORE INTO trail_shown (patient_id, sequence)
SELECT patient_id, sequence FROM trail
WHERE patient_id IS NOT NULL AND action IN ('patient-opened', 'pseudonymous-patient-opened', 'held-opened', 'held-compared', 'records-compared')
UNION
SELECT json_extract(event, '$.fromId'), sequence FROM trail WHERE action = 'records-compared'
UNION
SELECT named.value, sequence FROM trail, json_each(trail.event, '$.patients') AS named
WHERE action IN ('list-shown', 'list-exported', 'pseudonymous-list-shown', 'merges-shown', 'plan-tried')
UNION
SELECT named.value, sequence FROM trail, json_each(trail.event, '$.beside') AS named WHERE action = 'held-opened';

CREATE TRIGGER trail_shown_refuses_update BEFORE UPDATE ON trail_shown BEGIN
  SELECT RAISE(ABORT, 'whom an entry of the log tells of is never changed');
END;

CREATE TRIGGER trail_shown_refuses_delete BEFORE DELETE ON trail_shown WHEN EXISTS (SELECT 1 FROM trail WHERE sequence = OLD.sequence) BEGIN
  SELECT RAISE(ABORT, 'whom an entry of the log tells of is never removed while the entry stands');
END;

-- The entry itself says whom to look for, so that no second index is needed.
CREATE TRIGGER trail_shown_goes_with_its_entry AFTER DELETE ON trail BEGIN
  DELETE FROM trail_shown WHERE sequence = OLD.sequence AND patient_id IN (
    SELECT OLD.patient_id UNION SELECT json_extract(OLD.event, '$.fromId')
    UNION SELECT value FROM json_each(OLD.event, '$.patients') UNION SELECT value FROM json_each(OLD.event, '$.beside')
  );
END;

CREATE INDEX trail_at ON trail (at);
CREATE INDEX trail_actor_action ON trail (actor, action);
CREATE INDEX trail_failure ON trail (sequence) WHERE outcome = 'failure';
CREATE INDEX trail_failure_of ON trail (actor, address, action, at) WHERE outcome = 'failure';
CREATE INDEX trail_emergency ON trail (json_extract(event, '$.emergencyId')) WHERE json_extract(event, '$.emergencyId') IS NOT NULL;
