-- What corrections did to findings somebody could have seen: the finding as it was told before and since, which versions of which results made the
-- difference, and what people had decided about it. Never changed or removed: a later correction is a row of its own.
CREATE TABLE finding_change (
  id INTEGER NOT NULL PRIMARY KEY,
  patient_id TEXT NOT NULL REFERENCES patient (id),
  made_at TEXT NOT NULL CHECK (made_at GLOB '????-??-??T??:??:??*Z'),
  made_on TEXT NOT NULL CHECK (made_on GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  what TEXT NOT NULL CHECK (what IN ('removed', 'created', 'changed')),
  rule TEXT NOT NULL CHECK (rule <> ''),
  finding_key TEXT NOT NULL CHECK (json_valid(finding_key)),
  told_before TEXT CHECK (json_valid(told_before)),
  told_since TEXT CHECK (json_valid(told_since)),
  -- Pairs of numbers of result versions: the one that counted, and the one that counts in its place.
  corrections TEXT NOT NULL CHECK (json_valid(corrections) AND json_array_length(corrections) > 0),
  -- Numbers of the decisions people had made about it.
  decisions TEXT NOT NULL CHECK (json_valid(decisions) AND json_type(decisions) = 'array'),
  CHECK (what <> 'removed' OR told_before IS NOT NULL),
  CHECK (what <> 'created' OR told_since IS NOT NULL),
  CHECK (what <> 'changed' OR (told_before IS NOT NULL AND told_since IS NOT NULL))
) STRICT;
CREATE INDEX finding_change_patient ON finding_change (patient_id, id);

CREATE TRIGGER finding_change_refuses_update BEFORE UPDATE ON finding_change BEGIN
  SELECT RAISE(ABORT, 'what a correction changed is never changed: a later correction is a row of its own');
END;

CREATE TRIGGER finding_change_refuses_delete BEFORE DELETE ON finding_change BEGIN
  SELECT RAISE(ABORT, 'what a correction changed is never removed');
END;

-- A replacing insert would delete without asking the trigger above.
CREATE TRIGGER finding_change_only_appends BEFORE INSERT ON finding_change
WHEN NEW.id <> (SELECT coalesce(max(id), 0) + 1 FROM finding_change) BEGIN
  SELECT RAISE(ABORT, 'what a correction changed is never replaced: it follows the last one');
END;

-- Kept answers now say to whom something comes back. They are worked out, so they are made again when the list is next shown.
DELETE FROM standing_finding;
DELETE FROM standing;
