-- What people decided about findings and results. A decision is never changed or removed: taking it back is a row of its own.
CREATE TABLE decision (
  id INTEGER NOT NULL PRIMARY KEY,
  patient_id TEXT NOT NULL REFERENCES patient (id),
  kind TEXT NOT NULL CHECK (kind IN ('review', 'attribution', 'attribution-withdrawn', 'exclusion', 'restoration')),
  made_at TEXT NOT NULL CHECK (made_at GLOB '????-??-??T??:??:??*Z'),
  made_on TEXT NOT NULL CHECK (made_on GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  made_by TEXT NOT NULL CHECK (made_by <> ''),
  text TEXT NOT NULL CHECK (length(text) BETWEEN 3 AND 500),
  rule TEXT CHECK (rule <> ''),
  finding_key TEXT CHECK (json_valid(finding_key)),
  bring_back_on TEXT CHECK (bring_back_on GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  shown_on TEXT CHECK (shown_on GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  shown_values TEXT CHECK (json_valid(shown_values)),
  attribution_id INTEGER REFERENCES decision (id),
  result_id INTEGER REFERENCES result (id),
  CHECK ((kind IN ('review', 'attribution')) = (rule IS NOT NULL)),
  CHECK ((kind IN ('review', 'attribution')) = (finding_key IS NOT NULL)),
  CHECK ((kind = 'review') = (bring_back_on IS NOT NULL)),
  CHECK (bring_back_on > made_on),
  CHECK ((kind = 'attribution') = (shown_on IS NOT NULL)),
  CHECK ((kind = 'attribution') = (shown_values IS NOT NULL)),
  CHECK ((kind = 'attribution-withdrawn') = (attribution_id IS NOT NULL)),
  CHECK ((kind IN ('exclusion', 'restoration')) = (result_id IS NOT NULL))
) STRICT;
CREATE INDEX decision_patient ON decision (patient_id, id);
CREATE UNIQUE INDEX decision_withdrawn_once ON decision (attribution_id) WHERE attribution_id IS NOT NULL;

CREATE TRIGGER decision_refuses_update BEFORE UPDATE ON decision BEGIN
  SELECT RAISE(ABORT, 'a decision is never changed: taking it back is a decision of its own');
END;

CREATE TRIGGER decision_refuses_delete BEFORE DELETE ON decision BEGIN
  SELECT RAISE(ABORT, 'a decision is never removed');
END;

-- A replacing insert would delete without asking the trigger above.
CREATE TRIGGER decision_only_appends BEFORE INSERT ON decision
WHEN NEW.id <> (SELECT coalesce(max(id), 0) + 1 FROM decision) BEGIN
  SELECT RAISE(ABORT, 'a decision is never replaced: it follows the last one');
END;

-- Kept answers now count what is answered. They are worked out, so they are made again when the list is next shown.
DELETE FROM standing_finding;
DELETE FROM standing;
