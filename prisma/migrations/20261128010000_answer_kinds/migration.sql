-- Answers have a kind, can be taken back, and a finding can be handed to a physician. The table is made anew because a check cannot be changed in place;
-- every row of before is kept as it was: it has no kind, and its digest stays what the log says.
CREATE TABLE decision_anew (
  id INTEGER NOT NULL PRIMARY KEY,
  patient_id TEXT NOT NULL REFERENCES patient (id),
  kind TEXT NOT NULL
    CHECK (kind IN ('review', 'handover', 'answer-withdrawn', 'attribution', 'attribution-withdrawn', 'exclusion', 'restoration')),
  made_at TEXT NOT NULL CHECK (made_at GLOB '????-??-??T??:??:??*Z'),
  made_on TEXT NOT NULL CHECK (made_on GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  made_by TEXT NOT NULL CHECK (made_by <> ''),
  text TEXT NOT NULL CHECK (length(text) = 0 OR length(text) BETWEEN 3 AND 500),
  rule TEXT CHECK (rule <> ''),
  finding_key TEXT CHECK (json_valid(finding_key)),
  bring_back_on TEXT CHECK (bring_back_on GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  shown_on TEXT CHECK (shown_on GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  shown_values TEXT CHECK (json_valid(shown_values)),
  attribution_id INTEGER REFERENCES decision (id),
  result_id INTEGER REFERENCES result (id),
  -- What was done about the finding; null in reviews of before there were kinds.
  did TEXT CHECK (did IN ('seen', 'repeat-ordered', 'visit-brought-forward', 'contacted', 'bring-back')),
  -- What was handed to a physician and is answered by this review.
  handover_id INTEGER REFERENCES decision (id),
  -- The review or handover that is taken back.
  answer_id INTEGER REFERENCES decision (id),
  -- Words may be left out only where the kind says enough by itself.
  CHECK (text <> '' OR kind IN ('handover', 'answer-withdrawn') OR coalesce(did, '') IN ('repeat-ordered', 'visit-brought-forward')),
  CHECK ((kind IN ('review', 'handover', 'attribution')) = (rule IS NOT NULL)),
  CHECK ((kind IN ('review', 'handover', 'attribution')) = (finding_key IS NOT NULL)),
  CHECK ((kind = 'review') = (bring_back_on IS NOT NULL)),
  CHECK (bring_back_on > made_on),
  CHECK (kind = 'review' OR did IS NULL),
  CHECK (kind = 'review' OR handover_id IS NULL),
  CHECK ((kind = 'answer-withdrawn') = (answer_id IS NOT NULL)),
  CHECK ((kind = 'attribution') = (shown_on IS NOT NULL)),
  CHECK ((kind = 'attribution') = (shown_values IS NOT NULL)),
  CHECK ((kind = 'attribution-withdrawn') = (attribution_id IS NOT NULL)),
  CHECK ((kind IN ('exclusion', 'restoration')) = (result_id IS NOT NULL))
) STRICT;
INSERT INTO decision_anew (id, patient_id, kind, made_at, made_on, made_by, text, rule, finding_key, bring_back_on, shown_on, shown_values, attribution_id, result_id)
  SELECT id, patient_id, kind, made_at, made_on, made_by, text, rule, finding_key, bring_back_on, shown_on, shown_values, attribution_id, result_id
  FROM decision ORDER BY id;
DROP TABLE decision;
ALTER TABLE decision_anew RENAME TO decision;

CREATE INDEX decision_patient ON decision (patient_id, id);
CREATE UNIQUE INDEX decision_withdrawn_once ON decision (attribution_id) WHERE attribution_id IS NOT NULL;
CREATE UNIQUE INDEX decision_taken_back_once ON decision (answer_id) WHERE answer_id IS NOT NULL;

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

CREATE TRIGGER decision_takes_back_an_answer BEFORE INSERT ON decision
WHEN NEW.answer_id IS NOT NULL
  AND NOT EXISTS (SELECT 1 FROM decision WHERE id = NEW.answer_id AND kind IN ('review', 'handover')) BEGIN
  SELECT RAISE(ABORT, 'only a review or a handover can be taken back');
END;

CREATE TRIGGER decision_answers_a_handover BEFORE INSERT ON decision
WHEN NEW.handover_id IS NOT NULL AND NOT EXISTS (SELECT 1 FROM decision WHERE id = NEW.handover_id AND kind = 'handover') BEGIN
  SELECT RAISE(ABORT, 'a review can name only a handover as handed over');
END;

-- Kept answers now tell what is handed to a physician. They are worked out, so they are made again when the list is next shown.
DELETE FROM standing_finding;
DELETE FROM standing;
