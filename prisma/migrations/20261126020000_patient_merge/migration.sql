-- Two records of one person, joined by a decision of two people. Nothing else is changed by it: while a merge is in force the history of `into_id` is read as
-- that of both records, and once it is ended each is read alone again.
CREATE TABLE patient_merge (
  id INTEGER NOT NULL PRIMARY KEY,
  from_id TEXT NOT NULL REFERENCES patient (id),
  into_id TEXT NOT NULL REFERENCES patient (id),
  proposed_by TEXT NOT NULL COLLATE NOCASE CHECK (proposed_by <> ''),
  proposed_at TEXT NOT NULL CHECK (proposed_at GLOB '????-??-??T??:??:??*Z'),
  reason TEXT NOT NULL CHECK (length(reason) BETWEEN 3 AND 500),
  -- SHA-256 of what identified both records when it was proposed.
  identity_sha256 TEXT NOT NULL CHECK (length(identity_sha256) = 64 AND identity_sha256 NOT GLOB '*[^0-9a-f]*'),
  decision TEXT CHECK (decision IN ('confirmed', 'declined')),
  decided_by TEXT COLLATE NOCASE CHECK (decided_by <> ''),
  decided_at TEXT CHECK (decided_at GLOB '????-??-??T??:??:??*Z'),
  decision_reason TEXT CHECK (length(decision_reason) BETWEEN 3 AND 500),
  ended_by TEXT CHECK (ended_by <> ''),
  ended_at TEXT CHECK (ended_at GLOB '????-??-??T??:??:??*Z'),
  end_reason TEXT CHECK (length(end_reason) BETWEEN 3 AND 500),
  CHECK (from_id <> into_id),
  CHECK ((decision IS NULL) = (decided_by IS NULL)),
  CHECK ((decision IS NULL) = (decided_at IS NULL)),
  CHECK (decision_reason IS NULL OR decision = 'declined'),
  CHECK ((ended_at IS NULL) = (ended_by IS NULL)),
  CHECK ((ended_at IS NULL) = (end_reason IS NULL)),
  CHECK (ended_at IS NULL OR decision = 'confirmed'),
  -- Four eyes: nobody confirms a proposal of their own.
  CHECK (decision <> 'confirmed' OR decided_by <> proposed_by)
) STRICT;
-- A record is joined to one other at most. A proposal that waits is found by either of its records.
CREATE UNIQUE INDEX patient_merge_in_force ON patient_merge (from_id) WHERE decision = 'confirmed' AND ended_at IS NULL;
CREATE UNIQUE INDEX patient_merge_waiting ON patient_merge (min(from_id, into_id), max(from_id, into_id)) WHERE decision IS NULL;
CREATE INDEX patient_merge_from ON patient_merge (from_id, id);
CREATE INDEX patient_merge_into ON patient_merge (into_id, id);

CREATE TRIGGER patient_merge_only_appends BEFORE INSERT ON patient_merge
WHEN NEW.decision IS NOT NULL OR NEW.ended_at IS NOT NULL OR NEW.id <> (SELECT coalesce(max(id), 0) + 1 FROM patient_merge) BEGIN
  SELECT RAISE(ABORT, 'a merge is proposed first, and follows the last one');
END;

CREATE TRIGGER patient_merge_stays_as_proposed BEFORE UPDATE OF id, from_id, into_id, proposed_by, proposed_at, reason, identity_sha256 ON patient_merge BEGIN
  SELECT RAISE(ABORT, 'a merge is never changed: it is declined or ended, and proposed again');
END;

CREATE TRIGGER patient_merge_stays_as_decided BEFORE UPDATE OF decision, decided_by, decided_at, decision_reason ON patient_merge
WHEN OLD.decision IS NOT NULL BEGIN
  SELECT RAISE(ABORT, 'a merge that was decided on is never decided again');
END;

CREATE TRIGGER patient_merge_stays_ended BEFORE UPDATE OF ended_by, ended_at, end_reason ON patient_merge
WHEN OLD.ended_at IS NOT NULL OR OLD.decision IS NOT 'confirmed' BEGIN
  SELECT RAISE(ABORT, 'a merge is ended once, while it is in force');
END;

-- No chain and no circle: a record that is joined to another takes none in, and one that took others in is joined to none.
CREATE TRIGGER patient_merge_makes_no_chain BEFORE UPDATE OF decision ON patient_merge
WHEN NEW.decision = 'confirmed' AND EXISTS (
  SELECT 1 FROM patient_merge WHERE decision = 'confirmed' AND ended_at IS NULL AND (from_id = NEW.into_id OR into_id = NEW.from_id)
) BEGIN
  SELECT RAISE(ABORT, 'merges make no chain and no circle');
END;

CREATE TRIGGER patient_merge_refuses_delete BEFORE DELETE ON patient_merge BEGIN
  SELECT RAISE(ABORT, 'a merge is never removed');
END;
