-- The schema of PostgreSQL, as the migrations of SQLite have left that of SQLite: the same tables, columns, checks, indexes and guards, and the same sentences
-- where something is refused. tests/store/sameSchema.test.ts compares the two. Where they differ, the reason stands beside it.
--
-- * Text is compared byte by byte, as in SQLite: COLLATE "C" on every column, whatever the database was made with. Names of people ignore case (nocase).
-- * SQLite puts what is null before everything else, PostgreSQL behind it: an index says NULLS FIRST on a column that can be null and is sorted by.
-- * Patterns of GLOB with classes are regular expressions; those of "any character" are LIKE.
-- * A guard that only compares the old row with the new one calls refuse(); one that looks other rows up is a function of its own. It looks with the owner's
--   eyes (SECURITY DEFINER): a rule about the last row holds for whoever sees only some of them. search_path is fixed in these, so that no table somebody
--   makes in a session takes the place of one of ours.
-- * All that is refused here by a guard has SQLSTATE LM001.

CREATE COLLATION nocase (provider = icu, locale = 'und-u-ks-level2', deterministic = false);

-- What SQLite has, under the same names, for the statements both engines are asked with.

-- The value at a path of names ("$.a", "$.a.b") as text; null where there is none. Plain SQL, so that an index on it is found.
CREATE FUNCTION json_extract(json text, path text) RETURNS text LANGUAGE sql IMMUTABLE PARALLEL SAFE
AS $$ SELECT $1::json #>> string_to_array(substr($2, 3), '.') $$;

-- Never an error: PostgreSQL 15 can ask only by trying.
CREATE FUNCTION json_valid(json text) RETURNS boolean LANGUAGE plpgsql IMMUTABLE STRICT PARALLEL SAFE AS $$
BEGIN
  PERFORM $1::json;
  RETURN true;
EXCEPTION WHEN data_exception OR program_limit_exceeded THEN
  RETURN false;
END $$;

-- The elements of a list by their place from 0, or the fields of an object by their names; no rows for null.
CREATE FUNCTION json_each(json text) RETURNS TABLE (key text, value text) LANGUAGE sql IMMUTABLE PARALLEL SAFE AS $$
  SELECT (place - 1)::text, element
  FROM json_array_elements_text(CASE json_typeof($1::json) WHEN 'array' THEN $1::json END) WITH ORDINALITY AS of_list (element, place)
  UNION ALL
  SELECT of_object.key, of_object.value FROM json_each_text(CASE json_typeof($1::json) WHEN 'object' THEN $1::json END) AS of_object
$$;

-- What a patch says takes the place of what was there; here it is always texts by name.
CREATE FUNCTION json_patch(json text, patch text) RETURNS text LANGUAGE sql IMMUTABLE PARALLEL SAFE
  RETURN ($1::jsonb || $2::jsonb)::text;

CREATE FUNCTION json_array_length(json text) RETURNS bigint LANGUAGE sql IMMUTABLE PARALLEL SAFE
AS $$ SELECT pg_catalog.json_array_length($1::json)::bigint $$;

-- Texts as a list. That of PostgreSQL counts as changing with the session, because it takes moments too; of texts it does not.
CREATE FUNCTION json_texts(VARIADIC texts text[]) RETURNS text LANGUAGE sql IMMUTABLE PARALLEL SAFE
AS $$ SELECT array_to_json($1)::text $$;

-- Whole seconds since 1970 of an instant.
CREATE FUNCTION unixepoch(instant text) RETURNS bigint LANGUAGE sql IMMUTABLE STRICT PARALLEL SAFE
AS $$ SELECT floor(extract(epoch FROM $1::timestamptz))::bigint $$;

-- 128 random bits as 32 hexadecimal digits; a UUID alone has 122.
CREATE FUNCTION random_code() RETURNS text LANGUAGE sql VOLATILE
AS $$ SELECT left(encode(sha256(uuid_send(gen_random_uuid()) || uuid_send(gen_random_uuid())), 'hex'), 32) $$;

CREATE FUNCTION refuse() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  RAISE EXCEPTION USING MESSAGE = TG_ARGV[0], ERRCODE = 'LM001';
END $$;

-- The number a new row takes where none is given: as SQLite gives it, the one after the highest. Exact because one transaction writes at a time; a sequence
-- would leave gaps where one is rolled back, and a gap looks like a row somebody removed.
DO $$
DECLARE
  numbered text;
BEGIN
  FOREACH numbered IN ARRAY ARRAY[
    'account', 'account_identity', 'assignment', 'course_change', 'course_event', 'decision', 'emergency_view', 'failed_try',
    'finding_change', 'held_choice', 'held_row', 'intake_file', 'log_range', 'log_review', 'mapped_repeat', 'patient_merge',
    'patient_sheet', 'refused_row', 'result', 'review_round', 'saved_view', 'source_mapping', 'version_taken_back'
  ] LOOP
    EXECUTE format(
      'CREATE FUNCTION %I() RETURNS bigint LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp '
        'AS $f$ BEGIN RETURN (SELECT coalesce(max(id), 0) + 1 FROM %I); END $f$',
      'next_' || numbered || '_id', numbered);
  END LOOP;
END $$;
CREATE FUNCTION next_trail_sequence() RETURNS bigint LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp
AS $$ BEGIN RETURN (SELECT coalesce(max(sequence), 0) + 1 FROM trail); END $$;

-- What the program is set to, and which database this is.

CREATE TABLE setting (
  key text COLLATE "C" NOT NULL PRIMARY KEY CHECK (key <> ''),
  value text COLLATE "C" NOT NULL
);

CREATE TABLE database_identity (
  id bigint NOT NULL PRIMARY KEY CHECK (id = 1),
  code text COLLATE "C" NOT NULL CHECK (length(code) = 32 AND code !~ '[^0-9a-f]')
);
-- Made of 128 random bits, as the address of a patient is.
INSERT INTO database_identity (id, code) VALUES (1, random_code());
CREATE TRIGGER database_identity_refuses_update BEFORE UPDATE ON database_identity FOR EACH ROW
EXECUTE FUNCTION refuse('a database keeps its identity');
CREATE TRIGGER database_identity_refuses_delete BEFORE DELETE ON database_identity FOR EACH ROW
EXECUTE FUNCTION refuse('a database keeps its identity');
CREATE FUNCTION database_identity_once() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  IF EXISTS (SELECT 1 FROM database_identity) THEN
    RAISE EXCEPTION 'a database keeps its identity' USING ERRCODE = 'LM001';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER database_identity_once BEFORE INSERT ON database_identity FOR EACH ROW
EXECUTE FUNCTION database_identity_once();

-- Who may enter.

CREATE TABLE account (
  id bigint NOT NULL DEFAULT next_account_id() PRIMARY KEY,
  name text COLLATE nocase NOT NULL UNIQUE CHECK (name <> ''),
  role text COLLATE "C" NOT NULL CHECK (role IN ('navigator', 'physician', 'quality', 'administrator')),
  password_hash text COLLATE "C",
  code_hash text COLLATE "C",
  code_expires_at text COLLATE "C" CHECK (code_expires_at LIKE '____-__-__T__:__:__%Z'),
  created_at text COLLATE "C" NOT NULL CHECK (created_at LIKE '____-__-__T__:__:__%Z'),
  disabled_at text COLLATE "C" CHECK (disabled_at LIKE '____-__-__T__:__:__%Z'),
  failures bigint NOT NULL DEFAULT 0 CHECK (failures >= 0),
  wait_until text COLLATE "C" CHECK (wait_until LIKE '____-__-__T__:__:__%Z'),
  last_sign_in_at text COLLATE "C" CHECK (last_sign_in_at LIKE '____-__-__T__:__:__%Z'),
  CHECK ((code_hash IS NULL) = (code_expires_at IS NULL))
);

CREATE TABLE session (
  id text COLLATE "C" NOT NULL PRIMARY KEY CHECK (length(id) = 64 AND id !~ '[^0-9a-f]'),
  account_id bigint NOT NULL REFERENCES account (id),
  created_at text COLLATE "C" NOT NULL CHECK (created_at LIKE '____-__-__T__:__:__%Z'),
  last_seen_at text COLLATE "C" NOT NULL CHECK (last_seen_at >= created_at),
  ended_at text COLLATE "C" CHECK (ended_at LIKE '____-__-__T__:__:__%Z'),
  ended_because text COLLATE "C" CHECK (ended_because IN ('sign-out', 'disabled', 'role-changed', 'ended-by-administrator', 'idle', 'too-long')),
  address text COLLATE "C",
  means text COLLATE "C" NOT NULL DEFAULT 'password'
  CHECK (means IN ('password', 'short-password', 'password-and-code', 'recovery-code', 'provider')),
  CHECK ((ended_at IS NULL) = (ended_because IS NULL))
);
CREATE INDEX session_account ON session (account_id, ended_at NULLS FIRST);

CREATE TABLE second_factor (
  account_id bigint NOT NULL PRIMARY KEY REFERENCES account (id),
  -- Null: it was turned off or taken away.
  sealed text COLLATE "C" CHECK (sealed LIKE 'v1.%.%.%'),
  -- When it was last set up, turned off or taken away.
  changed_at text COLLATE "C" NOT NULL CHECK (changed_at LIKE '____-__-__T__:__:__%Z'),
  -- The time step (RFC 6238) of the last code that counted: none of this or an earlier step counts again.
  last_step bigint CHECK (last_step >= 0),
  CHECK ((sealed IS NULL) = (last_step IS NULL))
);
CREATE TRIGGER second_factor_code_counts_once BEFORE UPDATE ON second_factor FOR EACH ROW
WHEN (NEW.account_id <> OLD.account_id OR (NEW.sealed = OLD.sealed AND NEW.last_step <= OLD.last_step))
EXECUTE FUNCTION refuse('a code counts once, and none before it counts any more');

CREATE TABLE recovery_code (
  -- SHA-256 of the code, which is random itself.
  digest text COLLATE "C" NOT NULL PRIMARY KEY CHECK (length(digest) = 64 AND digest !~ '[^0-9a-f]'),
  account_id bigint NOT NULL REFERENCES account (id),
  made_at text COLLATE "C" NOT NULL CHECK (made_at LIKE '____-__-__T__:__:__%Z'),
  used_at text COLLATE "C" CHECK (used_at LIKE '____-__-__T__:__:__%Z')
);
CREATE INDEX recovery_code_account ON recovery_code (account_id);
CREATE TRIGGER recovery_code_counts_once BEFORE UPDATE ON recovery_code FOR EACH ROW
WHEN (OLD.used_at IS NOT NULL OR NEW.digest <> OLD.digest OR NEW.account_id <> OLD.account_id OR NEW.made_at <> OLD.made_at)
EXECUTE FUNCTION refuse('a recovery code counts once');

CREATE TABLE account_identity (
  id bigint NOT NULL DEFAULT next_account_identity_id() PRIMARY KEY,
  account_id bigint NOT NULL REFERENCES account (id),
  issuer text COLLATE "C" NOT NULL CHECK (issuer <> '' AND length(issuer) <= 500),
  -- At most 255 characters of ASCII (OpenID Connect Core 1.0, 2).
  subject text COLLATE "C" NOT NULL CHECK (subject <> '' AND length(subject) <= 255),
  made_by text COLLATE "C" NOT NULL CHECK (made_by <> ''),
  made_at text COLLATE "C" NOT NULL CHECK (made_at LIKE '____-__-__T__:__:__%Z'),
  ended_by text COLLATE "C" CHECK (ended_by <> ''),
  ended_at text COLLATE "C" CHECK (ended_at LIKE '____-__-__T__:__:__%Z'),
  CHECK ((ended_at IS NULL) = (ended_by IS NULL))
);
CREATE UNIQUE INDEX account_identity_in_force ON account_identity (issuer, subject) WHERE ended_at IS NULL;
CREATE UNIQUE INDEX account_identity_one_each ON account_identity (account_id) WHERE ended_at IS NULL;
CREATE TRIGGER account_identity_only_appends BEFORE INSERT ON account_identity FOR EACH ROW
WHEN (NEW.id <> next_account_identity_id() OR NEW.ended_at IS NOT NULL)
EXECUTE FUNCTION refuse('an identity follows the last one');
CREATE TRIGGER account_identity_stays_as_made BEFORE UPDATE ON account_identity FOR EACH ROW
WHEN (OLD.ended_at IS NOT NULL OR NEW.id <> OLD.id OR NEW.account_id <> OLD.account_id OR NEW.issuer <> OLD.issuer OR NEW.subject <> OLD.subject
  OR NEW.made_by <> OLD.made_by OR NEW.made_at <> OLD.made_at)
EXECUTE FUNCTION refuse('an identity is never changed: it is ended, and joined again');
CREATE TRIGGER account_identity_refuses_delete BEFORE DELETE ON account_identity FOR EACH ROW
EXECUTE FUNCTION refuse('an identity is never removed');

CREATE TABLE failed_try (
  id bigint NOT NULL DEFAULT next_failed_try_id() PRIMARY KEY,
  address text COLLATE "C" NOT NULL CHECK (address <> ''),
  at text COLLATE "C" NOT NULL CHECK (at LIKE '____-__-__T__:__:__%Z')
);
CREATE INDEX failed_try_address ON failed_try (address, at);

-- What came in, as received.

CREATE TABLE intake_file_bytes (
  sha256 text COLLATE "C" NOT NULL PRIMARY KEY CHECK (length(sha256) = 64 AND sha256 !~ '[^0-9a-f]'),
  bytes bytea NOT NULL
);

CREATE TABLE intake_file_chunk (
  sha256 text COLLATE "C" NOT NULL REFERENCES intake_file_bytes (sha256),
  number bigint NOT NULL CHECK (number >= 1),
  bytes bytea NOT NULL CHECK (length(bytes) > 0),
  PRIMARY KEY (sha256, number)
);
CREATE TRIGGER intake_file_chunk_refuses_update BEFORE UPDATE ON intake_file_chunk FOR EACH ROW
EXECUTE FUNCTION refuse('a file is kept as received: a piece of it is never changed');
CREATE TRIGGER intake_file_chunk_refuses_delete BEFORE DELETE ON intake_file_chunk FOR EACH ROW
EXECUTE FUNCTION refuse('a file is kept as received: a piece of it is never removed');

CREATE TABLE intake_file (
  id bigint NOT NULL DEFAULT next_intake_file_id() PRIMARY KEY,
  name text COLLATE "C" NOT NULL CHECK (name <> ''),
  sha256 text COLLATE "C" NOT NULL REFERENCES intake_file_bytes (sha256),
  byte_count bigint NOT NULL CHECK (byte_count >= 0),
  kind text COLLATE "C" CHECK (kind IN ('patients', 'course', 'results')),
  source text COLLATE "C",
  received_at text COLLATE "C" NOT NULL CHECK (received_at LIKE '____-__-__T__:__:__%Z'),
  received_by text COLLATE "C" NOT NULL,
  -- More than rows_read while the file is being taken in part by part, or where that was interrupted.
  rows_in_file bigint NOT NULL DEFAULT 0 CHECK (rows_in_file >= rows_read),
  rows_read bigint NOT NULL DEFAULT 0 CHECK (rows_read = filed + known + corrected + held + refused),
  filed bigint NOT NULL DEFAULT 0 CHECK (filed >= 0),
  known bigint NOT NULL DEFAULT 0 CHECK (known >= 0),
  corrected bigint NOT NULL DEFAULT 0 CHECK (corrected >= 0),
  held bigint NOT NULL DEFAULT 0 CHECK (held >= 0),
  refused bigint NOT NULL DEFAULT 0 CHECK (refused >= 0),
  released bigint NOT NULL DEFAULT 0 CHECK (released >= 0),
  refused_whole_reason text COLLATE "C",
  refused_whole_sentence text COLLATE "C",
  patients_added bigint NOT NULL DEFAULT 0 CHECK (patients_added >= 0),
  CHECK ((refused_whole_reason IS NULL) = (refused_whole_sentence IS NULL)),
  CHECK (refused_whole_reason IS NULL OR rows_read = 0)
);
CREATE INDEX intake_file_received ON intake_file (received_at);
CREATE INDEX intake_file_sha256 ON intake_file (sha256);
CREATE INDEX intake_file_source ON intake_file (source NULLS FIRST);

CREATE TABLE hl7_message (
  sending_application text COLLATE "C" NOT NULL,
  sending_facility text COLLATE "C" NOT NULL,
  control_id text COLLATE "C" NOT NULL CHECK (control_id <> ''),
  sha256 text COLLATE "C" NOT NULL REFERENCES intake_file_bytes (sha256),
  file_id bigint NOT NULL UNIQUE REFERENCES intake_file (id),
  accepted_at text COLLATE "C" NOT NULL CHECK (accepted_at LIKE '____-__-__T__:__:__%Z'),
  PRIMARY KEY (sending_application, sending_facility, control_id)
);
CREATE TRIGGER hl7_message_refuses_update BEFORE UPDATE ON hl7_message FOR EACH ROW
EXECUTE FUNCTION refuse('an accepted message is never changed');
CREATE TRIGGER hl7_message_refuses_delete BEFORE DELETE ON hl7_message FOR EACH ROW
EXECUTE FUNCTION refuse('an accepted message is never forgotten');
CREATE FUNCTION hl7_message_only_once() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  IF EXISTS (
    SELECT 1 FROM hl7_message
    WHERE file_id = NEW.file_id
      OR (sending_application = NEW.sending_application AND sending_facility = NEW.sending_facility AND control_id = NEW.control_id)
  ) THEN
    RAISE EXCEPTION 'a message is accepted once' USING ERRCODE = 'LM001';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER hl7_message_only_once BEFORE INSERT ON hl7_message FOR EACH ROW
EXECUTE FUNCTION hl7_message_only_once();

-- Who sends, and what their texts mean.

CREATE TABLE source_profile (
  source text COLLATE "C" NOT NULL CHECK (source <> '' AND length(source) <= 100),
  version bigint NOT NULL CHECK (version >= 1),
  payload text COLLATE "C" NOT NULL CHECK (json_valid(payload)),
  reason text COLLATE "C" NOT NULL CHECK (length(reason) BETWEEN 3 AND 500),
  made_by text COLLATE "C" NOT NULL CHECK (made_by <> ''),
  made_at text COLLATE "C" NOT NULL CHECK (made_at LIKE '____-__-__T__:__:__%Z'),
  PRIMARY KEY (source, version)
);
CREATE FUNCTION source_profile_only_appends() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  IF NEW.version <> (SELECT coalesce(max(version), 0) + 1 FROM source_profile WHERE source = NEW.source) THEN
    RAISE EXCEPTION 'a version of a source follows the last one' USING ERRCODE = 'LM001';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER source_profile_only_appends BEFORE INSERT ON source_profile FOR EACH ROW
EXECUTE FUNCTION source_profile_only_appends();
CREATE TRIGGER source_profile_refuses_update BEFORE UPDATE ON source_profile FOR EACH ROW
EXECUTE FUNCTION refuse('a version of a source is never changed');
CREATE TRIGGER source_profile_refuses_delete BEFORE DELETE ON source_profile FOR EACH ROW
EXECUTE FUNCTION refuse('a version of a source is never removed');

CREATE TABLE source_mapping (
  id bigint NOT NULL DEFAULT next_source_mapping_id() PRIMARY KEY,
  source text COLLATE "C" NOT NULL CHECK (source <> '' AND length(source) <= 100),
  kind text COLLATE "C" NOT NULL CHECK (kind IN ('code', 'unit', 'patient')),
  -- As received, without blanks around.
  received text COLLATE "C" NOT NULL CHECK (received <> ''),
  -- Of a unit: the code it stood beside, as received.
  of_code text COLLATE "C" CHECK (of_code <> ''),
  meaning text COLLATE "C" NOT NULL CHECK (meaning <> ''),
  reason text COLLATE "C" NOT NULL CHECK (length(reason) BETWEEN 3 AND 500),
  made_by text COLLATE nocase NOT NULL CHECK (made_by <> ''),
  made_at text COLLATE "C" NOT NULL CHECK (made_at LIKE '____-__-__T__:__:__%Z'),
  confirmed_by text COLLATE nocase CHECK (confirmed_by <> ''),
  revoked_by text COLLATE "C" CHECK (revoked_by <> ''),
  revoked_at text COLLATE "C" CHECK (revoked_at LIKE '____-__-__T__:__:__%Z'),
  revoked_reason text COLLATE "C" CHECK (length(revoked_reason) BETWEEN 3 AND 500),
  CHECK ((kind = 'unit') = (of_code IS NOT NULL)),
  -- Four eyes: who an identifier belongs to is never one person's word.
  CHECK ((kind = 'patient') = (confirmed_by IS NOT NULL)),
  CHECK (confirmed_by IS NULL OR confirmed_by <> made_by),
  CHECK ((revoked_at IS NULL) = (revoked_by IS NULL)),
  CHECK ((revoked_at IS NULL) = (revoked_reason IS NULL))
);
CREATE UNIQUE INDEX source_mapping_in_force ON source_mapping (source, kind, received, coalesce(of_code, '')) WHERE revoked_at IS NULL;
CREATE TRIGGER source_mapping_stays_as_decided BEFORE UPDATE ON source_mapping FOR EACH ROW
WHEN (OLD.revoked_at IS NOT NULL OR NEW.id <> OLD.id OR NEW.source <> OLD.source OR NEW.kind <> OLD.kind OR NEW.received <> OLD.received
  OR NEW.of_code IS DISTINCT FROM OLD.of_code OR NEW.meaning <> OLD.meaning OR NEW.reason <> OLD.reason OR NEW.made_by <> OLD.made_by
  OR NEW.made_at <> OLD.made_at OR NEW.confirmed_by IS DISTINCT FROM OLD.confirmed_by)
EXECUTE FUNCTION refuse('a mapping is never changed: it is revoked, and decided again');
CREATE TRIGGER source_mapping_only_appends BEFORE INSERT ON source_mapping FOR EACH ROW
WHEN (NEW.id <> next_source_mapping_id() OR NEW.revoked_at IS NOT NULL)
EXECUTE FUNCTION refuse('a mapping follows the last one');
CREATE TRIGGER source_mapping_refuses_delete BEFORE DELETE ON source_mapping FOR EACH ROW
EXECUTE FUNCTION refuse('a mapping is never removed');

-- Patients, and what is known of their course.

CREATE TABLE patient (
  id text COLLATE "C" NOT NULL PRIMARY KEY CHECK (id <> ''),
  family_name text COLLATE "C",
  given_name text COLLATE "C",
  birth_date text COLLATE "C" NOT NULL CHECK (birth_date ~ '^[0-9]{4}' AND length(birth_date) IN (4, 7, 10)),
  sex text COLLATE "C" NOT NULL CHECK (sex IN ('female', 'male')),
  weight_kg text COLLATE "C" CHECK (weight_kg !~ '[^0-9.]' AND weight_kg <> ''),
  clinician text COLLATE "C",
  status text COLLATE "C" NOT NULL CHECK (status IN ('followed', 'transferred', 'discharged', 'died')),
  status_on text COLLATE "C" CHECK (status_on ~ '^[0-9]{4}-[0-9]{2}-[0-9]{2}$'),
  revision bigint NOT NULL DEFAULT 0 CHECK (revision >= 0),
  version bigint NOT NULL DEFAULT 1 CHECK (version >= 1),
  file_id bigint NOT NULL REFERENCES intake_file (id),
  line bigint NOT NULL CHECK (line >= 1)
);
CREATE INDEX patient_status ON patient (status);
CREATE FUNCTION patient_has_an_address() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  INSERT INTO patient_address (patient_id) VALUES (NEW.id);
  RETURN NULL;
END $$;
CREATE TRIGGER patient_has_an_address AFTER INSERT ON patient FOR EACH ROW EXECUTE FUNCTION patient_has_an_address();
CREATE FUNCTION patient_begins_behind() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  INSERT INTO standing_behind (patient_id) VALUES (NEW.id);
  RETURN NULL;
END $$;
CREATE TRIGGER patient_begins_behind AFTER INSERT ON patient FOR EACH ROW EXECUTE FUNCTION patient_begins_behind();
CREATE FUNCTION patient_history_moves_on() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  DELETE FROM standing_behind WHERE patient_id = NEW.id;
  INSERT INTO standing_behind (patient_id)
  SELECT NEW.id WHERE NOT EXISTS (SELECT 1 FROM standing WHERE patient_id = NEW.id AND history_revision = NEW.revision);
  RETURN NULL;
END $$;
CREATE TRIGGER patient_history_moves_on AFTER UPDATE OF revision ON patient FOR EACH ROW EXECUTE FUNCTION patient_history_moves_on();

CREATE TABLE patient_version (
  patient_id text COLLATE "C" NOT NULL REFERENCES patient (id),
  version bigint NOT NULL CHECK (version >= 1),
  row text COLLATE "C" NOT NULL CHECK (json_valid(row)),
  replaced_at text COLLATE "C" NOT NULL CHECK (replaced_at LIKE '____-__-__T__:__:__%Z'),
  PRIMARY KEY (patient_id, version)
);

CREATE TABLE course_event (
  id bigint NOT NULL DEFAULT next_course_event_id() PRIMARY KEY,
  patient_id text COLLATE "C" NOT NULL REFERENCES patient (id),
  identity text COLLATE "C" NOT NULL CHECK (identity <> ''),
  version bigint NOT NULL CHECK (version >= 1),
  current bigint NOT NULL CHECK (current IN (0, 1)),
  on_day text COLLATE "C" NOT NULL CHECK (on_day ~ '^[0-9]{4}-[0-9]{2}-[0-9]{2}$'),
  event text COLLATE "C" NOT NULL CHECK (event IN ('diagnosis', 'phase', 'line-start', 'line-end', 'imaging', 'marrow', 'bone-agent', 'left')),
  payload text COLLATE "C" NOT NULL CHECK (json_valid(payload)),
  file_id bigint NOT NULL REFERENCES intake_file (id),
  line bigint NOT NULL CHECK (line >= 1),
  UNIQUE (identity, version)
);
CREATE INDEX course_event_patient ON course_event (patient_id, current);
CREATE UNIQUE INDEX course_event_one_current ON course_event (identity) WHERE current = 1;
CREATE FUNCTION course_event_taken_back_never_counts() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  IF EXISTS (SELECT 1 FROM version_taken_back WHERE course_event_id = NEW.id) THEN
    RAISE EXCEPTION 'a version that was taken back never counts again' USING ERRCODE = 'LM001';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER course_event_taken_back_never_counts BEFORE UPDATE OF current ON course_event FOR EACH ROW
WHEN (NEW.current = 1)
EXECUTE FUNCTION course_event_taken_back_never_counts();

CREATE TABLE held_row (
  id bigint NOT NULL DEFAULT next_held_row_id() PRIMARY KEY,
  file_id bigint NOT NULL REFERENCES intake_file (id),
  line bigint NOT NULL CHECK (line >= 1),
  kind text COLLATE "C" NOT NULL CHECK (kind IN ('patients', 'course', 'results')),
  patient_id text COLLATE "C",
  reason text COLLATE "C" NOT NULL,
  sentence text COLLATE "C" NOT NULL,
  row text COLLATE "C" NOT NULL,
  fields text COLLATE "C" NOT NULL CHECK (json_valid(fields)),
  received_at text COLLATE "C" NOT NULL CHECK (received_at LIKE '____-__-__T__:__:__%Z'),
  received_on text COLLATE "C" NOT NULL CHECK (received_on ~ '^[0-9]{4}-[0-9]{2}-[0-9]{2}$'),
  collected_on text COLLATE "C" CHECK (collected_on ~ '^[0-9]{4}-[0-9]{2}-[0-9]{2}$'),
  resolved_at text COLLATE "C" CHECK (resolved_at LIKE '____-__-__T__:__:__%Z'),
  resolved_by text COLLATE "C",
  decision text COLLATE "C" CHECK (decision IN ('file', 'refuse')),
  decision_reason text COLLATE "C" CHECK (decision_reason <> ''),
  decided text COLLATE "C" CHECK (json_valid(decided)),
  returned_by bigint REFERENCES source_mapping (id),
  -- What makes rows alike: the texts as received, without blanks around. Stored, since PostgreSQL 15 works nothing out at reading.
  alike text COLLATE "C" GENERATED ALWAYS AS (
    CASE
      WHEN kind <> 'results' OR reason IN ('unknown-patient', 'birth-date-differs', 'sex-differs', 'patient-unclear') THEN json_texts(
        btrim(coalesce(json_extract(fields, '$.patient_id'), ''), E' \t\n\r'),
        btrim(coalesce(json_extract(fields, '$.birth_date'), ''), E' \t\n\r'),
        btrim(coalesce(json_extract(fields, '$.sex'), ''), E' \t\n\r'))
      WHEN reason = 'unknown-code' THEN json_texts(btrim(coalesce(json_extract(fields, '$.code'), ''), E' \t\n\r'))
      ELSE json_texts(
        btrim(coalesce(json_extract(fields, '$.code'), ''), E' \t\n\r'),
        btrim(coalesce(json_extract(fields, '$.unit'), ''), E' \t\n\r'))
    END
  ) STORED,
  CHECK ((resolved_at IS NULL) = (resolved_by IS NULL)),
  CHECK ((resolved_at IS NULL) = (decision IS NULL)),
  CHECK ((resolved_at IS NULL) = (decision_reason IS NULL))
);
CREATE INDEX held_row_patient ON held_row (patient_id NULLS FIRST, resolved_at NULLS FIRST);
CREATE INDEX held_row_waiting ON held_row (resolved_at NULLS FIRST, received_at);
CREATE INDEX held_row_file ON held_row (file_id, line);
CREATE INDEX held_row_alike ON held_row (reason, kind, alike NULLS FIRST) WHERE resolved_at IS NULL;
CREATE TRIGGER held_row_keeps_what_came BEFORE UPDATE ON held_row FOR EACH ROW
WHEN (NEW.id <> OLD.id OR NEW.file_id <> OLD.file_id OR NEW.line <> OLD.line OR NEW.kind <> OLD.kind OR NEW.row <> OLD.row OR NEW.fields <> OLD.fields
  OR NEW.received_at <> OLD.received_at OR NEW.returned_by IS DISTINCT FROM OLD.returned_by
  OR (OLD.resolved_at IS NOT NULL AND (NEW.resolved_at IS DISTINCT FROM OLD.resolved_at OR NEW.resolved_by IS DISTINCT FROM OLD.resolved_by
  OR NEW.decision IS DISTINCT FROM OLD.decision OR NEW.decision_reason IS DISTINCT FROM OLD.decision_reason OR NEW.decided IS DISTINCT FROM OLD.decided)))
EXECUTE FUNCTION refuse('what came in, and what was decided of it, is never changed');

CREATE TABLE refused_row (
  id bigint NOT NULL DEFAULT next_refused_row_id() PRIMARY KEY,
  file_id bigint NOT NULL REFERENCES intake_file (id),
  line bigint NOT NULL CHECK (line >= 1),
  reason text COLLATE "C" NOT NULL,
  sentence text COLLATE "C" NOT NULL,
  row text COLLATE "C" NOT NULL
);
CREATE INDEX refused_row_file ON refused_row (file_id, line);

CREATE TABLE standing (
  patient_id text COLLATE "C" NOT NULL PRIMARY KEY REFERENCES patient (id),
  history_revision bigint NOT NULL CHECK (history_revision >= 0),
  -- 0 for those who left: their answer is kept, and the list does not show it.
  followed bigint NOT NULL CHECK (followed IN (0, 1)),
  rules_version text COLLATE "C" NOT NULL,
  plan_version text COLLATE "C" NOT NULL,
  evaluated_on text COLLATE "C" NOT NULL CHECK (evaluated_on ~ '^[0-9]{4}-[0-9]{2}-[0-9]{2}$'),
  holds_until text COLLATE "C" CHECK (holds_until ~ '^[0-9]{4}-[0-9]{2}-[0-9]{2}$'),
  window_rank bigint NOT NULL CHECK (window_rank BETWEEN 0 AND 4),
  state_rank bigint NOT NULL CHECK (state_rank BETWEEN 0 AND 9),
  organ_rank bigint NOT NULL CHECK (organ_rank BETWEEN 0 AND 9),
  since text COLLATE "C" CHECK (since ~ '^[0-9]{4}-[0-9]{2}-[0-9]{2}$'),
  -- STRICT lets Infinity into double precision; a place in the order must be a finite number.
  excess double precision NOT NULL CHECK (excess BETWEEN -1e300 AND 1e300),
  next_due_on text COLLATE "C" CHECK (next_due_on ~ '^[0-9]{4}-[0-9]{2}-[0-9]{2}$'),
  phase text COLLATE "C" NOT NULL,
  care text COLLATE "C",
  clinician text COLLATE "C",
  rule text COLLATE "C",
  state text COLLATE "C",
  "window" text COLLATE "C" NOT NULL CHECK ("window" IN ('same-day', 'within-7-days', 'within-30-days', 'next-visit', 'on-schedule')),
  answer text COLLATE "C" NOT NULL CHECK (json_valid(answer)),
  seen_on text COLLATE "C" CHECK (seen_on ~ '^[0-9]{4}-[0-9]{2}-[0-9]{2}$')
);
CREATE INDEX standing_holds ON standing (holds_until NULLS FIRST);
CREATE INDEX standing_urgency ON standing (
  followed, window_rank, state_rank, organ_rank, since NULLS FIRST, excess DESC, patient_id,
  seen_on NULLS FIRST, next_due_on NULLS FIRST, phase, clinician NULLS FIRST
);
CREATE INDEX standing_kept ON standing (rules_version, plan_version, evaluated_on);
CREATE INDEX standing_phase ON standing (followed, phase);
CREATE INDEX standing_clinician ON standing (followed, clinician NULLS FIRST);
CREATE FUNCTION standing_catches_up() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  DELETE FROM standing_behind WHERE patient_id = NEW.patient_id;
  INSERT INTO standing_behind (patient_id) SELECT id FROM patient WHERE id = NEW.patient_id AND revision <> NEW.history_revision;
  RETURN NULL;
END $$;
CREATE TRIGGER standing_catches_up AFTER INSERT ON standing FOR EACH ROW EXECUTE FUNCTION standing_catches_up();
CREATE TRIGGER standing_catches_up_again AFTER UPDATE OF history_revision ON standing FOR EACH ROW EXECUTE FUNCTION standing_catches_up();
CREATE FUNCTION standing_leaves_behind() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  INSERT INTO standing_behind (patient_id) SELECT id FROM patient WHERE id = OLD.patient_id ON CONFLICT DO NOTHING;
  RETURN NULL;
END $$;
CREATE TRIGGER standing_leaves_behind AFTER DELETE ON standing FOR EACH ROW EXECUTE FUNCTION standing_leaves_behind();

CREATE TABLE standing_finding (
  patient_id text COLLATE "C" NOT NULL REFERENCES standing (patient_id) ON DELETE CASCADE,
  rule text COLLATE "C" NOT NULL,
  PRIMARY KEY (patient_id, rule)
);
CREATE INDEX standing_finding_rule ON standing_finding (rule, patient_id);

-- The log.

CREATE TABLE trail (
  sequence bigint NOT NULL PRIMARY KEY CHECK (sequence >= 1),
  at text COLLATE "C" NOT NULL CHECK (at LIKE '____-__-__T__:__:__%Z'),
  actor text COLLATE "C" NOT NULL,
  role text COLLATE "C" NOT NULL CHECK (role IN ('navigator', 'physician', 'quality', 'administrator', 'console', 'none')),
  session_hash text COLLATE "C",
  address text COLLATE "C",
  action text COLLATE "C" NOT NULL,
  outcome text COLLATE "C" NOT NULL CHECK (outcome IN ('success', 'failure')),
  purpose text COLLATE "C",
  patient_id text COLLATE "C",
  object text COLLATE "C",
  object_version bigint,
  request_id text COLLATE "C" NOT NULL,
  before_hash text COLLATE "C",
  after_hash text COLLATE "C",
  event text COLLATE "C" NOT NULL CHECK (json_valid(event)),
  previous_hash text COLLATE "C" NOT NULL CHECK (length(previous_hash) = 64),
  hash text COLLATE "C" NOT NULL CHECK (length(hash) = 64)
);
CREATE INDEX trail_actor ON trail (actor, sequence);
CREATE INDEX trail_action ON trail (action, sequence);
CREATE INDEX trail_patient ON trail (patient_id NULLS FIRST, sequence);
CREATE INDEX trail_at ON trail (at);
CREATE INDEX trail_actor_action ON trail (actor, action);
CREATE INDEX trail_failure ON trail (sequence) WHERE outcome = 'failure';
CREATE INDEX trail_failure_of ON trail (actor, address NULLS FIRST, action, at) WHERE outcome = 'failure';
CREATE INDEX trail_emergency ON trail (json_extract(event, '$.emergencyId')) WHERE json_extract(event, '$.emergencyId') IS NOT NULL;
CREATE TRIGGER trail_refuses_update BEFORE UPDATE ON trail FOR EACH ROW
EXECUTE FUNCTION refuse('the log is append-only: a row is never changed');
CREATE TRIGGER trail_only_appends BEFORE INSERT ON trail FOR EACH ROW
WHEN (NEW.sequence <> next_trail_sequence())
EXECUTE FUNCTION refuse('the log is append-only: a row follows the last one');
CREATE FUNCTION trail_shown_goes_with_its_entry() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  DELETE FROM trail_shown WHERE sequence = OLD.sequence AND patient_id IN (
    SELECT OLD.patient_id UNION SELECT json_extract(OLD.event, '$.fromId')
    UNION SELECT value FROM json_each(json_extract(OLD.event, '$.patients')) UNION SELECT value FROM json_each(json_extract(OLD.event, '$.beside'))
  );
  RETURN NULL;
END $$;
CREATE TRIGGER trail_shown_goes_with_its_entry AFTER DELETE ON trail FOR EACH ROW EXECUTE FUNCTION trail_shown_goes_with_its_entry();
CREATE FUNCTION trail_refuses_delete() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  IF OLD.sequence > (SELECT coalesce(max(last_sequence), 0) FROM log_range) THEN
    RAISE EXCEPTION 'the log is append-only: a row is never removed' USING ERRCODE = 'LM001';
  END IF;
  RETURN OLD;
END $$;
CREATE TRIGGER trail_refuses_delete BEFORE DELETE ON trail FOR EACH ROW
EXECUTE FUNCTION trail_refuses_delete();

CREATE TABLE plan_version (
  version bigint NOT NULL PRIMARY KEY CHECK (version >= 2),
  -- The version its numbers were drawn from.
  based_on bigint NOT NULL CHECK (based_on >= 1 AND based_on < version),
  state text COLLATE "C" NOT NULL CHECK (state IN ('proposed', 'published', 'refused', 'withdrawn')),
  payload text COLLATE "C" NOT NULL CHECK (json_valid(payload)),
  note text COLLATE "C" NOT NULL CHECK (note <> ''),
  proposed_by text COLLATE nocase NOT NULL CHECK (proposed_by <> ''),
  proposed_at text COLLATE "C" NOT NULL CHECK (proposed_at LIKE '____-__-__T__:__:__%Z'),
  decided_by text COLLATE nocase CHECK (decided_by <> ''),
  decided_at text COLLATE "C" CHECK (decided_at LIKE '____-__-__T__:__:__%Z'),
  -- The day wished for; of a published version the first day it is followed.
  from_day text COLLATE "C" NOT NULL CHECK (from_day ~ '^[0-9]{4}-[0-9]{2}-[0-9]{2}$'),
  decision_reason text COLLATE "C" CHECK (decision_reason <> ''),
  CHECK ((state = 'proposed') = (decided_at IS NULL)),
  CHECK ((decided_at IS NULL) = (decided_by IS NULL)),
  CHECK ((state = 'refused') = (decision_reason IS NOT NULL)),
  -- Four eyes: nobody publishes a proposal of their own.
  CHECK (state <> 'published' OR decided_by <> proposed_by)
);
CREATE INDEX plan_version_state ON plan_version (state, from_day);
CREATE FUNCTION plan_version_only_appends() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  IF NEW.state <> 'proposed' OR NEW.version <> (SELECT coalesce(max(version), 1) + 1 FROM plan_version) THEN
    RAISE EXCEPTION 'a version of the plan is proposed first, and follows the last one' USING ERRCODE = 'LM001';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER plan_version_only_appends BEFORE INSERT ON plan_version FOR EACH ROW
EXECUTE FUNCTION plan_version_only_appends();
CREATE TRIGGER plan_version_stays_as_decided BEFORE UPDATE ON plan_version FOR EACH ROW
WHEN (OLD.state <> 'proposed')
EXECUTE FUNCTION refuse('a version of the plan that was decided on is never changed');
CREATE TRIGGER plan_version_stays_as_proposed BEFORE UPDATE OF version, based_on, payload, note, proposed_by, proposed_at ON plan_version FOR EACH ROW
EXECUTE FUNCTION refuse('what was proposed is never changed: it is withdrawn, and proposed again');
CREATE TRIGGER plan_version_refuses_delete BEFORE DELETE ON plan_version FOR EACH ROW
EXECUTE FUNCTION refuse('a version of the plan is never removed');

CREATE TABLE patient_merge (
  id bigint NOT NULL DEFAULT next_patient_merge_id() PRIMARY KEY,
  from_id text COLLATE "C" NOT NULL REFERENCES patient (id),
  into_id text COLLATE "C" NOT NULL REFERENCES patient (id),
  proposed_by text COLLATE nocase NOT NULL CHECK (proposed_by <> ''),
  proposed_at text COLLATE "C" NOT NULL CHECK (proposed_at LIKE '____-__-__T__:__:__%Z'),
  reason text COLLATE "C" NOT NULL CHECK (length(reason) BETWEEN 3 AND 500),
  -- SHA-256 of what identified both records when it was proposed.
  identity_sha256 text COLLATE "C" NOT NULL CHECK (length(identity_sha256) = 64 AND identity_sha256 !~ '[^0-9a-f]'),
  decision text COLLATE "C" CHECK (decision IN ('confirmed', 'declined')),
  decided_by text COLLATE nocase CHECK (decided_by <> ''),
  decided_at text COLLATE "C" CHECK (decided_at LIKE '____-__-__T__:__:__%Z'),
  decision_reason text COLLATE "C" CHECK (length(decision_reason) BETWEEN 3 AND 500),
  ended_by text COLLATE "C" CHECK (ended_by <> ''),
  ended_at text COLLATE "C" CHECK (ended_at LIKE '____-__-__T__:__:__%Z'),
  end_reason text COLLATE "C" CHECK (length(end_reason) BETWEEN 3 AND 500),
  CHECK (from_id <> into_id),
  CHECK ((decision IS NULL) = (decided_by IS NULL)),
  CHECK ((decision IS NULL) = (decided_at IS NULL)),
  CHECK (decision_reason IS NULL OR decision = 'declined'),
  CHECK ((ended_at IS NULL) = (ended_by IS NULL)),
  CHECK ((ended_at IS NULL) = (end_reason IS NULL)),
  CHECK (ended_at IS NULL OR decision = 'confirmed'),
  -- Four eyes: nobody confirms a proposal of their own.
  CHECK (decision <> 'confirmed' OR decided_by <> proposed_by)
);
CREATE UNIQUE INDEX patient_merge_in_force ON patient_merge (from_id) WHERE decision = 'confirmed' AND ended_at IS NULL;
CREATE UNIQUE INDEX patient_merge_waiting ON patient_merge (least(from_id, into_id), greatest(from_id, into_id)) WHERE decision IS NULL;
CREATE INDEX patient_merge_from ON patient_merge (from_id, id);
CREATE INDEX patient_merge_into ON patient_merge (into_id, id);
CREATE TRIGGER patient_merge_only_appends BEFORE INSERT ON patient_merge FOR EACH ROW
WHEN (NEW.decision IS NOT NULL OR NEW.ended_at IS NOT NULL OR NEW.id <> next_patient_merge_id())
EXECUTE FUNCTION refuse('a merge is proposed first, and follows the last one');
CREATE TRIGGER patient_merge_stays_as_proposed
BEFORE UPDATE OF id, from_id, into_id, proposed_by, proposed_at, reason, identity_sha256 ON patient_merge FOR EACH ROW
EXECUTE FUNCTION refuse('a merge is never changed: it is declined or ended, and proposed again');
CREATE TRIGGER patient_merge_stays_as_decided BEFORE UPDATE OF decision, decided_by, decided_at, decision_reason ON patient_merge FOR EACH ROW
WHEN (OLD.decision IS NOT NULL)
EXECUTE FUNCTION refuse('a merge that was decided on is never decided again');
CREATE TRIGGER patient_merge_stays_ended BEFORE UPDATE OF ended_by, ended_at, end_reason ON patient_merge FOR EACH ROW
WHEN (OLD.ended_at IS NOT NULL OR OLD.decision IS DISTINCT FROM 'confirmed')
EXECUTE FUNCTION refuse('a merge is ended once, while it is in force');
CREATE FUNCTION patient_merge_makes_no_chain() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  IF EXISTS (
    SELECT 1 FROM patient_merge WHERE decision = 'confirmed' AND ended_at IS NULL AND (from_id = NEW.into_id OR into_id = NEW.from_id)
  ) THEN
    RAISE EXCEPTION 'merges make no chain and no circle' USING ERRCODE = 'LM001';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER patient_merge_makes_no_chain BEFORE UPDATE OF decision ON patient_merge FOR EACH ROW
WHEN (NEW.decision = 'confirmed')
EXECUTE FUNCTION patient_merge_makes_no_chain();
CREATE TRIGGER patient_merge_refuses_delete BEFORE DELETE ON patient_merge FOR EACH ROW
EXECUTE FUNCTION refuse('a merge is never removed');

CREATE TABLE finding_change (
  id bigint NOT NULL DEFAULT next_finding_change_id() PRIMARY KEY,
  patient_id text COLLATE "C" NOT NULL REFERENCES patient (id),
  made_at text COLLATE "C" NOT NULL CHECK (made_at LIKE '____-__-__T__:__:__%Z'),
  made_on text COLLATE "C" NOT NULL CHECK (made_on ~ '^[0-9]{4}-[0-9]{2}-[0-9]{2}$'),
  what text COLLATE "C" NOT NULL CHECK (what IN ('removed', 'created', 'changed')),
  rule text COLLATE "C" NOT NULL CHECK (rule <> ''),
  finding_key text COLLATE "C" NOT NULL CHECK (json_valid(finding_key)),
  told_before text COLLATE "C" CHECK (json_valid(told_before)),
  told_since text COLLATE "C" CHECK (json_valid(told_since)),
  -- Pairs of numbers of result versions: the one that counted, and the one that counts in its place.
  corrections text COLLATE "C" NOT NULL CHECK (json_valid(corrections) AND json_array_length(corrections::json) > 0),
  -- Numbers of the decisions people had made about it.
  decisions text COLLATE "C" NOT NULL CHECK (json_valid(decisions) AND json_typeof(decisions::json) = 'array'),
  CHECK (what <> 'removed' OR told_before IS NOT NULL),
  CHECK (what <> 'created' OR told_since IS NOT NULL),
  CHECK (what <> 'changed' OR (told_before IS NOT NULL AND told_since IS NOT NULL))
);
CREATE INDEX finding_change_patient ON finding_change (patient_id, id);
CREATE TRIGGER finding_change_refuses_update BEFORE UPDATE ON finding_change FOR EACH ROW
EXECUTE FUNCTION refuse('what a correction changed is never changed: a later correction is a row of its own');
CREATE TRIGGER finding_change_refuses_delete BEFORE DELETE ON finding_change FOR EACH ROW
EXECUTE FUNCTION refuse('what a correction changed is never removed');
CREATE TRIGGER finding_change_only_appends BEFORE INSERT ON finding_change FOR EACH ROW
WHEN (NEW.id <> next_finding_change_id())
EXECUTE FUNCTION refuse('what a correction changed is never replaced: it follows the last one');

CREATE TABLE mapping_use (
  mapping_id bigint NOT NULL REFERENCES source_mapping (id),
  file_id bigint NOT NULL REFERENCES intake_file (id),
  line bigint NOT NULL CHECK (line >= 1),
  patient_id text COLLATE "C" NOT NULL,
  PRIMARY KEY (mapping_id, file_id, line, patient_id)
);
CREATE INDEX mapping_use_row ON mapping_use (file_id, line);
CREATE TRIGGER mapping_use_refuses_update BEFORE UPDATE ON mapping_use FOR EACH ROW
EXECUTE FUNCTION refuse('what a row was filed with is never changed');
CREATE TRIGGER mapping_use_refuses_delete BEFORE DELETE ON mapping_use FOR EACH ROW
EXECUTE FUNCTION refuse('what a row was filed with is never removed');

CREATE TABLE held_choice (
  id bigint NOT NULL DEFAULT next_held_choice_id() PRIMARY KEY,
  held_id bigint NOT NULL REFERENCES held_row (id),
  -- For every row alike, or for this one.
  alike bigint NOT NULL CHECK (alike IN (0, 1)),
  -- Whether the identifier as received means this patient for later files too.
  remember bigint NOT NULL CHECK (remember IN (0, 1)),
  patient_id text COLLATE "C" NOT NULL CHECK (patient_id <> ''),
  reason text COLLATE "C" NOT NULL CHECK (length(reason) BETWEEN 3 AND 500),
  proposed_by text COLLATE nocase NOT NULL CHECK (proposed_by <> ''),
  proposed_at text COLLATE "C" NOT NULL CHECK (proposed_at LIKE '____-__-__T__:__:__%Z'),
  decision text COLLATE "C" CHECK (decision IN ('confirmed', 'declined')),
  decided_by text COLLATE nocase CHECK (decided_by <> ''),
  decided_at text COLLATE "C" CHECK (decided_at LIKE '____-__-__T__:__:__%Z'),
  decision_reason text COLLATE "C" CHECK (length(decision_reason) BETWEEN 3 AND 500),
  CHECK ((decision IS NULL) = (decided_by IS NULL)),
  CHECK ((decision IS NULL) = (decided_at IS NULL)),
  CHECK ((decision IS NOT DISTINCT FROM 'declined') = (decision_reason IS NOT NULL)),
  -- Four eyes: nobody confirms a choice of their own.
  CHECK (decision IS DISTINCT FROM 'confirmed' OR decided_by <> proposed_by)
);
CREATE UNIQUE INDEX held_choice_waiting ON held_choice (held_id) WHERE decision IS NULL;
CREATE TRIGGER held_choice_stays_as_proposed BEFORE UPDATE ON held_choice FOR EACH ROW
WHEN (OLD.decision IS NOT NULL OR NEW.id <> OLD.id OR NEW.held_id <> OLD.held_id OR NEW.alike <> OLD.alike OR NEW.remember <> OLD.remember
  OR NEW.patient_id <> OLD.patient_id OR NEW.reason <> OLD.reason OR NEW.proposed_by <> OLD.proposed_by OR NEW.proposed_at <> OLD.proposed_at)
EXECUTE FUNCTION refuse('a choice is never changed: it is confirmed or declined, once');
CREATE TRIGGER held_choice_refuses_delete BEFORE DELETE ON held_choice FOR EACH ROW
EXECUTE FUNCTION refuse('a choice is never removed');

CREATE TABLE mapping_return (
  mapping_id bigint NOT NULL,
  file_id bigint NOT NULL,
  line bigint NOT NULL,
  patient_id text COLLATE "C" NOT NULL,
  PRIMARY KEY (mapping_id, file_id, line, patient_id),
  FOREIGN KEY (mapping_id, file_id, line, patient_id) REFERENCES mapping_use (mapping_id, file_id, line, patient_id)
);
CREATE TRIGGER mapping_return_refuses_delete BEFORE DELETE ON mapping_return FOR EACH ROW
EXECUTE FUNCTION refuse('what was taken back is never forgotten');

CREATE TABLE emergency_view (
  id bigint NOT NULL DEFAULT next_emergency_view_id() PRIMARY KEY,
  opened_by text COLLATE nocase NOT NULL CHECK (opened_by <> ''),
  -- SHA-256 of what the browser of that session holds, as in the log.
  session_hash text COLLATE "C" NOT NULL CHECK (session_hash <> ''),
  patient_id text COLLATE "C" NOT NULL REFERENCES patient (id),
  reason text COLLATE "C" NOT NULL CHECK (length(reason) BETWEEN 10 AND 500),
  from_at text COLLATE "C" NOT NULL CHECK (from_at LIKE '____-__-__T__:__:__%Z'),
  until_at text COLLATE "C" NOT NULL CHECK (until_at LIKE '____-__-__T__:__:__%Z'),
  ended_at text COLLATE "C" CHECK (ended_at LIKE '____-__-__T__:__:__%Z'),
  acknowledged_by text COLLATE nocase CHECK (acknowledged_by <> ''),
  acknowledged_at text COLLATE "C" CHECK (acknowledged_at LIKE '____-__-__T__:__:__%Z'),
  note text COLLATE "C" CHECK (length(note) BETWEEN 3 AND 500),
  CHECK (unixepoch(until_at) - unixepoch(from_at) BETWEEN 1 AND 3600),
  CHECK (ended_at BETWEEN from_at AND until_at),
  CHECK ((acknowledged_by IS NULL) = (acknowledged_at IS NULL)),
  CHECK (note IS NULL OR acknowledged_by IS NOT NULL),
  -- Nobody acknowledges a view of their own.
  CHECK (acknowledged_by <> opened_by)
);
CREATE INDEX emergency_view_opened ON emergency_view (opened_by, id);
CREATE INDEX emergency_view_waiting ON emergency_view (id) WHERE acknowledged_at IS NULL;
CREATE TRIGGER emergency_view_only_appends BEFORE INSERT ON emergency_view FOR EACH ROW
WHEN (NEW.ended_at IS NOT NULL OR NEW.acknowledged_at IS NOT NULL OR NEW.id <> next_emergency_view_id())
EXECUTE FUNCTION refuse('an emergency view is opened first, and follows the last one');
CREATE TRIGGER emergency_view_stays_as_opened BEFORE UPDATE OF id, opened_by, session_hash, patient_id, reason, from_at, until_at ON emergency_view FOR EACH ROW
EXECUTE FUNCTION refuse('an emergency view is never changed');
CREATE TRIGGER emergency_view_ends_once BEFORE UPDATE OF ended_at ON emergency_view FOR EACH ROW
WHEN (OLD.ended_at IS NOT NULL)
EXECUTE FUNCTION refuse('an emergency view ends once');
CREATE TRIGGER emergency_view_acknowledged_once BEFORE UPDATE OF acknowledged_by, acknowledged_at, note ON emergency_view FOR EACH ROW
WHEN (OLD.acknowledged_at IS NOT NULL)
EXECUTE FUNCTION refuse('an emergency view is acknowledged once');
CREATE TRIGGER emergency_view_refuses_delete BEFORE DELETE ON emergency_view FOR EACH ROW
EXECUTE FUNCTION refuse('an emergency view is never removed');

CREATE TABLE log_review (
  id bigint NOT NULL DEFAULT next_log_review_id() PRIMARY KEY,
  from_day text COLLATE "C" NOT NULL CHECK (from_day LIKE '____-__-__'),
  to_day text COLLATE "C" NOT NULL CHECK (to_day LIKE '____-__-__'),
  reviewed_by text COLLATE nocase NOT NULL CHECK (reviewed_by <> ''),
  reviewed_at text COLLATE "C" NOT NULL CHECK (reviewed_at LIKE '____-__-__T__:__:__%Z'),
  looked_at text COLLATE "C" NOT NULL CHECK (json_valid(looked_at)),
  note text COLLATE "C" CHECK (length(note) BETWEEN 3 AND 500),
  -- How many entries those days had, and how many of them are of whoever reviewed them.
  entries bigint NOT NULL CHECK (entries >= 0),
  own_entries bigint NOT NULL CHECK (own_entries BETWEEN 0 AND entries),
  CHECK (from_day <= to_day)
);
CREATE TRIGGER log_review_only_appends BEFORE INSERT ON log_review FOR EACH ROW
WHEN (NEW.id <> next_log_review_id())
EXECUTE FUNCTION refuse('a review of the log follows the last one');
CREATE TRIGGER log_review_refuses_update BEFORE UPDATE ON log_review FOR EACH ROW
EXECUTE FUNCTION refuse('a review of the log is never changed');
CREATE TRIGGER log_review_refuses_delete BEFORE DELETE ON log_review FOR EACH ROW
EXECUTE FUNCTION refuse('a review of the log is never removed');

CREATE TABLE trail_shown (
  patient_id text COLLATE "C" NOT NULL,
  sequence bigint NOT NULL,
  PRIMARY KEY (patient_id, sequence)
);
CREATE TRIGGER trail_shown_refuses_update BEFORE UPDATE ON trail_shown FOR EACH ROW
EXECUTE FUNCTION refuse('whom an entry of the log tells of is never changed');
CREATE FUNCTION trail_shown_refuses_delete() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  IF EXISTS (SELECT 1 FROM trail WHERE sequence = OLD.sequence) THEN
    RAISE EXCEPTION 'whom an entry of the log tells of is never removed while the entry stands' USING ERRCODE = 'LM001';
  END IF;
  RETURN OLD;
END $$;
CREATE TRIGGER trail_shown_refuses_delete BEFORE DELETE ON trail_shown FOR EACH ROW
EXECUTE FUNCTION trail_shown_refuses_delete();

CREATE TABLE log_range (
  id bigint NOT NULL DEFAULT next_log_range_id() PRIMARY KEY CHECK (id >= 1),
  first_sequence bigint NOT NULL CHECK (first_sequence >= 1),
  last_sequence bigint NOT NULL CHECK (last_sequence >= first_sequence),
  row_count bigint NOT NULL CHECK (row_count = last_sequence - first_sequence + 1),
  -- The chain before the first and at the last of them: what is left of the log begins there.
  previous_hash text COLLATE "C" NOT NULL CHECK (length(previous_hash) = 64),
  last_hash text COLLATE "C" NOT NULL CHECK (length(last_hash) = 64),
  file_sha256 text COLLATE "C" NOT NULL CHECK (length(file_sha256) = 64 AND file_sha256 !~ '[^0-9a-f]'),
  retired_by text COLLATE "C" NOT NULL CHECK (retired_by <> ''),
  retired_at text COLLATE "C" NOT NULL CHECK (retired_at LIKE '____-__-__T__:__:__%Z')
);
CREATE TRIGGER log_range_refuses_update BEFORE UPDATE ON log_range FOR EACH ROW
EXECUTE FUNCTION refuse('a retired range of the log is never changed');
CREATE TRIGGER log_range_refuses_delete BEFORE DELETE ON log_range FOR EACH ROW
EXECUTE FUNCTION refuse('a retired range of the log is never removed');
CREATE FUNCTION log_range_only_appends() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  IF NEW.id <> (SELECT coalesce(max(id), 0) + 1 FROM log_range)
    OR NEW.first_sequence <> (SELECT coalesce(max(last_sequence), 0) + 1 FROM log_range) THEN
    RAISE EXCEPTION 'a retired range of the log follows the last one' USING ERRCODE = 'LM001';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER log_range_only_appends BEFORE INSERT ON log_range FOR EACH ROW
EXECUTE FUNCTION log_range_only_appends();
CREATE FUNCTION log_range_is_of_the_log() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  IF NEW.previous_hash IS DISTINCT FROM (SELECT previous_hash FROM trail WHERE sequence = NEW.first_sequence)
    OR NEW.last_hash IS DISTINCT FROM (SELECT hash FROM trail WHERE sequence = NEW.last_sequence) THEN
    RAISE EXCEPTION 'a range is retired with the hashes it has in the log' USING ERRCODE = 'LM001';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER log_range_is_of_the_log BEFORE INSERT ON log_range FOR EACH ROW
EXECUTE FUNCTION log_range_is_of_the_log();
CREATE FUNCTION log_range_leaves_the_last() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  IF NEW.last_sequence >= (SELECT coalesce(max(sequence), 0) FROM trail) THEN
    RAISE EXCEPTION 'the last row of the log is never retired' USING ERRCODE = 'LM001';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER log_range_leaves_the_last BEFORE INSERT ON log_range FOR EACH ROW
EXECUTE FUNCTION log_range_leaves_the_last();
-- Six years before 29 February is 1 March, as SQLite reckons; PostgreSQL alone would say 28 February.
CREATE FUNCTION log_range_is_old_enough() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  IF EXISTS (
    SELECT 1 FROM trail WHERE sequence BETWEEN NEW.first_sequence AND NEW.last_sequence
      AND at >= to_char(
        (NEW.retired_at::timestamptz AT TIME ZONE 'UTC') - interval '6 years'
          + CASE WHEN substr(NEW.retired_at, 6, 5) = '02-29' THEN interval '1 day' ELSE interval '0' END,
        'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"')
  ) THEN
    RAISE EXCEPTION 'the log is kept for six years' USING ERRCODE = 'LM001';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER log_range_is_old_enough BEFORE INSERT ON log_range FOR EACH ROW
EXECUTE FUNCTION log_range_is_old_enough();

CREATE TABLE patient_address (
  patient_id text COLLATE "C" NOT NULL PRIMARY KEY REFERENCES patient (id),
  address text COLLATE "C" NOT NULL UNIQUE DEFAULT random_code() CHECK (length(address) = 32 AND address !~ '[^0-9a-f]')
);
CREATE TRIGGER patient_address_refuses_update BEFORE UPDATE ON patient_address FOR EACH ROW
EXECUTE FUNCTION refuse('the address of a patient never changes');
CREATE TRIGGER patient_address_refuses_delete BEFORE DELETE ON patient_address FOR EACH ROW
EXECUTE FUNCTION refuse('the address of a patient is never removed');

CREATE TABLE review_round (
  id bigint NOT NULL DEFAULT next_review_round_id() PRIMARY KEY CHECK (id >= 1),
  started_by text COLLATE nocase NOT NULL CHECK (started_by <> ''),
  started_at text COLLATE "C" NOT NULL CHECK (started_at LIKE '____-__-__T__:__:__%Z'),
  ended_by text COLLATE nocase CHECK (ended_by <> ''),
  ended_at text COLLATE "C" CHECK (ended_at LIKE '____-__-__T__:__:__%Z'),
  -- How many were followed when it ended, and how many of them had something open.
  followed bigint CHECK (followed >= 0),
  open bigint CHECK (open BETWEEN 0 AND followed),
  CHECK ((ended_by IS NULL) = (ended_at IS NULL)),
  CHECK ((ended_at IS NULL) = (followed IS NULL)),
  CHECK ((ended_at IS NULL) = (open IS NULL)),
  CHECK (ended_at >= started_at)
);
CREATE UNIQUE INDEX review_round_running ON review_round ((ended_at IS NULL)) WHERE ended_at IS NULL;
CREATE TRIGGER review_round_only_appends BEFORE INSERT ON review_round FOR EACH ROW
WHEN (NEW.ended_at IS NOT NULL OR NEW.id <> next_review_round_id())
EXECUTE FUNCTION refuse('a round is started first, and follows the last one');
CREATE TRIGGER review_round_stays_as_started BEFORE UPDATE OF id, started_by, started_at ON review_round FOR EACH ROW
EXECUTE FUNCTION refuse('the start of a round is never changed');
CREATE TRIGGER review_round_ends_once BEFORE UPDATE ON review_round FOR EACH ROW
WHEN (OLD.ended_at IS NOT NULL)
EXECUTE FUNCTION refuse('a round ends once');
CREATE TRIGGER review_round_refuses_delete BEFORE DELETE ON review_round FOR EACH ROW
EXECUTE FUNCTION refuse('a round is never removed');

CREATE TABLE round_place (
  round_id bigint NOT NULL REFERENCES review_round (id),
  patient_id text COLLATE "C" NOT NULL REFERENCES patient (id),
  window_rank bigint NOT NULL CHECK (window_rank BETWEEN 0 AND 4),
  PRIMARY KEY (round_id, patient_id)
);
CREATE FUNCTION round_place_only_while_it_runs() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  IF (SELECT ended_at FROM review_round WHERE id = NEW.round_id) IS NOT NULL THEN
    RAISE EXCEPTION 'what stood open at the end of a round is written once' USING ERRCODE = 'LM001';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER round_place_only_while_it_runs BEFORE INSERT ON round_place FOR EACH ROW
EXECUTE FUNCTION round_place_only_while_it_runs();
CREATE TRIGGER round_place_refuses_update BEFORE UPDATE ON round_place FOR EACH ROW
EXECUTE FUNCTION refuse('what stood open at the end of a round is never changed');
CREATE TRIGGER round_place_refuses_delete BEFORE DELETE ON round_place FOR EACH ROW
EXECUTE FUNCTION refuse('what stood open at the end of a round is never removed');

CREATE TABLE round_finding (
  round_id bigint NOT NULL,
  patient_id text COLLATE "C" NOT NULL,
  -- The first 128 bits of the SHA-256 of the finding's key: its rule, subject, state, certainty, window and evidence.
  key text COLLATE "C" NOT NULL CHECK (length(key) = 32 AND key !~ '[^0-9a-f]'),
  -- Rule and subject: the same finding whatever its evidence.
  topic text COLLATE "C" NOT NULL CHECK (topic <> ''),
  PRIMARY KEY (round_id, patient_id, key),
  FOREIGN KEY (round_id, patient_id) REFERENCES round_place (round_id, patient_id)
);
CREATE TRIGGER round_finding_only_while_it_runs BEFORE INSERT ON round_finding FOR EACH ROW
EXECUTE FUNCTION round_place_only_while_it_runs();
CREATE TRIGGER round_finding_refuses_update BEFORE UPDATE ON round_finding FOR EACH ROW
EXECUTE FUNCTION refuse('what stood open at the end of a round is never changed');
CREATE TRIGGER round_finding_refuses_delete BEFORE DELETE ON round_finding FOR EACH ROW
EXECUTE FUNCTION refuse('what stood open at the end of a round is never removed');

CREATE TABLE on_list (
  patient_id text COLLATE "C" NOT NULL REFERENCES patient (id),
  topic text COLLATE "C" NOT NULL CHECK (topic <> ''),
  seen_on text COLLATE "C" NOT NULL CHECK (seen_on ~ '^[0-9]{4}-[0-9]{2}-[0-9]{2}$'),
  PRIMARY KEY (patient_id, topic)
);

CREATE TABLE standing_open (
  patient_id text COLLATE "C" NOT NULL REFERENCES standing (patient_id) ON DELETE CASCADE,
  key text COLLATE "C" NOT NULL CHECK (length(key) = 32 AND key !~ '[^0-9a-f]'),
  topic text COLLATE "C" NOT NULL CHECK (topic <> ''),
  -- The last review that answered it before, and why that answers it no longer.
  answered_at text COLLATE "C" CHECK (answered_at LIKE '____-__-__T__:__:__%Z'),
  back text COLLATE "C" CHECK (back IN ('day', 'evidence', 'corrected')),
  -- Handed to a physician, and answered by none yet.
  handed bigint NOT NULL CHECK (handed IN (0, 1)),
  PRIMARY KEY (patient_id, key),
  CHECK ((answered_at IS NULL) = (back IS NULL))
);
CREATE INDEX standing_open_handed ON standing_open (patient_id) WHERE handed = 1;

CREATE TABLE standing_back_to (
  name text COLLATE "C" NOT NULL CHECK (name <> ''),
  patient_id text COLLATE "C" NOT NULL REFERENCES standing (patient_id) ON DELETE CASCADE,
  PRIMARY KEY (name, patient_id)
);
CREATE INDEX standing_back_to_patient ON standing_back_to (patient_id);

CREATE TABLE assignment (
  id bigint NOT NULL DEFAULT next_assignment_id() PRIMARY KEY CHECK (id >= 1),
  patient_id text COLLATE "C" NOT NULL REFERENCES patient (id),
  -- Null: nobody has the patient any more.
  account_id bigint REFERENCES account (id),
  made_by text COLLATE nocase NOT NULL CHECK (made_by <> ''),
  made_at text COLLATE "C" NOT NULL CHECK (made_at LIKE '____-__-__T__:__:__%Z')
);
CREATE INDEX assignment_patient ON assignment (patient_id, id);
CREATE TRIGGER assignment_only_appends BEFORE INSERT ON assignment FOR EACH ROW
WHEN (NEW.id <> next_assignment_id())
EXECUTE FUNCTION refuse('an assignment follows the last one');
CREATE TRIGGER assignment_refuses_update BEFORE UPDATE ON assignment FOR EACH ROW
EXECUTE FUNCTION refuse('an assignment is never changed: another one follows it');
CREATE TRIGGER assignment_refuses_delete BEFORE DELETE ON assignment FOR EACH ROW
EXECUTE FUNCTION refuse('an assignment is never removed');
CREATE FUNCTION assignment_is_the_last() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  DELETE FROM assigned WHERE patient_id = NEW.patient_id;
  INSERT INTO assigned (patient_id, account_id, assignment_id)
  SELECT NEW.patient_id, NEW.account_id, NEW.id WHERE NEW.account_id IS NOT NULL;
  RETURN NULL;
END $$;
CREATE TRIGGER assignment_is_the_last AFTER INSERT ON assignment FOR EACH ROW EXECUTE FUNCTION assignment_is_the_last();

CREATE TABLE assigned (
  patient_id text COLLATE "C" NOT NULL PRIMARY KEY REFERENCES patient (id),
  account_id bigint NOT NULL REFERENCES account (id),
  assignment_id bigint NOT NULL REFERENCES assignment (id)
);
CREATE INDEX assigned_account ON assigned (account_id, patient_id);

CREATE TABLE saved_view (
  id bigint NOT NULL CHECK (id >= 1),
  version bigint NOT NULL CHECK (version >= 1),
  name text COLLATE "C" NOT NULL CHECK (length(name) BETWEEN 3 AND 60),
  -- Null: the whole clinic has it.
  owner_id bigint REFERENCES account (id),
  -- What the list is asked, as JSON; nothing that names a patient.
  asks text COLLATE "C" NOT NULL CHECK (json_valid(asks)),
  removed bigint NOT NULL CHECK (removed IN (0, 1)),
  made_by text COLLATE nocase NOT NULL CHECK (made_by <> ''),
  made_at text COLLATE "C" NOT NULL CHECK (made_at LIKE '____-__-__T__:__:__%Z'),
  PRIMARY KEY (id, version)
);
CREATE FUNCTION saved_view_only_appends() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  IF NEW.version <> (SELECT coalesce(max(version), 0) + 1 FROM saved_view WHERE id = NEW.id)
    OR NEW.id > (SELECT coalesce(max(id), 0) + 1 FROM saved_view) THEN
    RAISE EXCEPTION 'a version of a saved view follows the last one' USING ERRCODE = 'LM001';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER saved_view_only_appends BEFORE INSERT ON saved_view FOR EACH ROW
EXECUTE FUNCTION saved_view_only_appends();
CREATE FUNCTION saved_view_removed_stays_so() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  IF EXISTS (SELECT 1 FROM saved_view WHERE id = NEW.id AND removed = 1) THEN
    RAISE EXCEPTION 'a saved view that was removed stays so' USING ERRCODE = 'LM001';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER saved_view_removed_stays_so BEFORE INSERT ON saved_view FOR EACH ROW
EXECUTE FUNCTION saved_view_removed_stays_so();
CREATE TRIGGER saved_view_refuses_update BEFORE UPDATE ON saved_view FOR EACH ROW
EXECUTE FUNCTION refuse('a version of a saved view is never changed');
CREATE TRIGGER saved_view_refuses_delete BEFORE DELETE ON saved_view FOR EACH ROW
EXECUTE FUNCTION refuse('a version of a saved view is never removed: removing it is a version');

CREATE TABLE course_change (
  id bigint NOT NULL DEFAULT next_course_change_id() PRIMARY KEY,
  patient_id text COLLATE "C" NOT NULL REFERENCES patient (id),
  kind text COLLATE "C" NOT NULL CHECK (
    kind IN (
      'phase-recorded', 'phase-corrected', 'phase-withdrawn', 'line-started', 'line-corrected', 'line-ended', 'line-goes-on', 'line-withdrawn',
      'care-changed', 'clinician-changed', 'taken-back'
    )
  ),
  made_at text COLLATE "C" NOT NULL CHECK (made_at LIKE '____-__-__T__:__:__%Z'),
  made_on text COLLATE "C" NOT NULL CHECK (made_on ~ '^[0-9]{4}-[0-9]{2}-[0-9]{2}$'),
  made_by text COLLATE "C" NOT NULL CHECK (made_by <> ''),
  text text COLLATE "C" NOT NULL CHECK (length(text) BETWEEN 3 AND 500),
  told text COLLATE "C" NOT NULL CHECK (json_valid(told)),
  phase text COLLATE "C" CHECK (phase IN ('mgus', 'smouldering', 'active', 'plasmacytoma', 'amyloidosis', 'plasma-cell-leukaemia')),
  began_on text COLLATE "C" CHECK (began_on ~ '^[0-9]{4}-[0-9]{2}-[0-9]{2}$'),
  was_phase text COLLATE "C" CHECK (was_phase IN ('mgus', 'smouldering', 'active', 'plasmacytoma', 'amyloidosis', 'plasma-cell-leukaemia')),
  was_on text COLLATE "C" CHECK (was_on ~ '^[0-9]{4}-[0-9]{2}-[0-9]{2}$'),
  line bigint CHECK (line >= 1),
  regimen text COLLATE "C" CHECK (json_valid(regimen)),
  intent text COLLATE "C" CHECK (intent IN ('induction', 'transplant', 'consolidation', 'maintenance', 'relapse')),
  ended_on text COLLATE "C" CHECK (ended_on ~ '^[0-9]{4}-[0-9]{2}-[0-9]{2}$'),
  care text COLLATE "C" CHECK (care IN ('on-treatment', 'maintenance', 'off-treatment')),
  clinician text COLLATE "C" CHECK (clinician <> ''),
  instead text COLLATE "C",
  change_id bigint REFERENCES course_change (id),
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
);
CREATE INDEX course_change_patient ON course_change (patient_id, id);
CREATE UNIQUE INDEX course_change_taken_back_once ON course_change (change_id) WHERE change_id IS NOT NULL;
CREATE TRIGGER course_change_refuses_update BEFORE UPDATE ON course_change FOR EACH ROW
EXECUTE FUNCTION refuse('a change of the course is never altered: taking it back is a row of its own');
CREATE TRIGGER course_change_refuses_delete BEFORE DELETE ON course_change FOR EACH ROW
EXECUTE FUNCTION refuse('a change of the course is never removed');
CREATE TRIGGER course_change_only_appends BEFORE INSERT ON course_change FOR EACH ROW
WHEN (NEW.id <> next_course_change_id())
EXECUTE FUNCTION refuse('a change of the course is never replaced: it follows the last one');

CREATE TABLE patient_sheet (
  id bigint NOT NULL DEFAULT next_patient_sheet_id() PRIMARY KEY,
  patient_id text COLLATE "C" NOT NULL REFERENCES patient (id),
  -- The revision of the history it was made from, and the records read as that patient then.
  revision bigint NOT NULL CHECK (revision >= 0),
  record_ids text COLLATE "C" NOT NULL CHECK (json_typeof(record_ids::json) = 'array'),
  content text COLLATE "C" NOT NULL CHECK (json_typeof(content::json) = 'object'),
  content_sha256 text COLLATE "C" NOT NULL CHECK (length(content_sha256) = 64),
  released_by text COLLATE nocase NOT NULL CHECK (released_by <> ''),
  released_at text COLLATE "C" NOT NULL CHECK (released_at LIKE '____-__-__T__:__:__%Z'),
  withdrawn_by text COLLATE nocase CHECK (withdrawn_by <> ''),
  withdrawn_at text COLLATE "C" CHECK (withdrawn_at LIKE '____-__-__T__:__:__%Z'),
  withdrawal_reason text COLLATE "C" CHECK (length(withdrawal_reason) BETWEEN 3 AND 500),
  CHECK ((withdrawn_by IS NULL) = (withdrawn_at IS NULL)),
  CHECK ((withdrawn_by IS NULL) = (withdrawal_reason IS NULL))
);
CREATE INDEX patient_sheet_patient ON patient_sheet (patient_id, id);
CREATE TRIGGER patient_sheet_only_appends BEFORE INSERT ON patient_sheet FOR EACH ROW
WHEN (NEW.withdrawn_at IS NOT NULL OR NEW.id <> next_patient_sheet_id())
EXECUTE FUNCTION refuse('a sheet is released first, and follows the last one');
CREATE TRIGGER patient_sheet_stays_as_released
BEFORE UPDATE OF id, patient_id, revision, record_ids, content, content_sha256, released_by, released_at ON patient_sheet FOR EACH ROW
EXECUTE FUNCTION refuse('a released sheet is never changed');
CREATE TRIGGER patient_sheet_withdrawn_once BEFORE UPDATE OF withdrawn_by, withdrawn_at, withdrawal_reason ON patient_sheet FOR EACH ROW
WHEN (OLD.withdrawn_at IS NOT NULL)
EXECUTE FUNCTION refuse('a sheet is withdrawn once');
CREATE TRIGGER patient_sheet_refuses_delete BEFORE DELETE ON patient_sheet FOR EACH ROW
EXECUTE FUNCTION refuse('a sheet is never removed');

CREATE TABLE standing_behind (
  patient_id text COLLATE "C" NOT NULL PRIMARY KEY REFERENCES patient (id) ON DELETE CASCADE
);

CREATE TABLE result (
  id bigint NOT NULL,
  patient_id text COLLATE "C" NOT NULL REFERENCES patient (id),
  identity text COLLATE "C" NOT NULL CHECK (identity <> ''),
  version bigint NOT NULL CHECK (version >= 1),
  current bigint NOT NULL CHECK (current = 1 OR current = 0),
  code text COLLATE "C" NOT NULL CHECK (code <> ''),
  analyte text COLLATE "C" NOT NULL CHECK (analyte <> ''),
  collected_at text COLLATE "C" NOT NULL,
  collected_on text COLLATE "C" NOT NULL CHECK (collected_on ~ '^[0-9]{4}-[0-9]{2}-[0-9]{2}$'),
  collected_order bigint NOT NULL,
  status text COLLATE "C" NOT NULL CHECK (status = 'final' OR status = 'corrected' OR status = 'preliminary' OR status = 'cancelled' OR status = 'entered-in-error'),
  kind text COLLATE "C" NOT NULL CHECK (kind = 'number' OR kind = 'not-detected' OR kind = 'present' OR kind = 'immunofixation' OR kind = 'none'),
  comparator text COLLATE "C" CHECK (comparator = '<' OR comparator = '<=' OR comparator = '>' OR comparator = '>='),
  kept_low text COLLATE "C" CHECK (kept_low !~ '[^0-9.-]' AND kept_low <> ''),
  kept_high text COLLATE "C" CHECK (kept_high !~ '[^0-9.-]' AND kept_high <> ''),
  printed_low text COLLATE "C" CHECK (printed_low !~ '[^0-9.-]' AND printed_low <> ''),
  printed_high text COLLATE "C" CHECK (printed_high !~ '[^0-9.-]' AND printed_high <> ''),
  printed_unit text COLLATE "C",
  reading text COLLATE "C" CHECK (json_valid(reading)),
  none_reason text COLLATE "C",
  up_to text COLLATE "C" CHECK (up_to !~ '[^0-9.-]' AND up_to <> ''),
  accession text COLLATE "C",
  laboratory text COLLATE "C",
  method text COLLATE "C",
  reference_low_kept text COLLATE "C" CHECK (reference_low_kept !~ '[^0-9.-]' AND reference_low_kept <> ''),
  reference_low_printed text COLLATE "C" CHECK (reference_low_printed !~ '[^0-9.-]' AND reference_low_printed <> ''),
  reference_high_kept text COLLATE "C" CHECK (reference_high_kept !~ '[^0-9.-]' AND reference_high_kept <> ''),
  reference_high_printed text COLLATE "C" CHECK (reference_high_printed !~ '[^0-9.-]' AND reference_high_printed <> ''),
  reported_at text COLLATE "C",
  value_text text COLLATE "C" NOT NULL,
  unit_text text COLLATE "C" NOT NULL,
  file_id bigint NOT NULL REFERENCES intake_file (id),
  line bigint NOT NULL CHECK (line >= 1),
  PRIMARY KEY (patient_id, id),
  -- One version of a number, and below one that counts: both name the patient because a partition can keep only its own rows apart, and both hold for
  -- the identity alone because an identity is of one patient: one that is written as a list begins with whose it is, any other is looked up.
  UNIQUE (identity, version, patient_id),
  CHECK (identity NOT LIKE '[%' OR starts_with(identity, '[' || to_json(patient_id)::text || ',')),
  CHECK ((kind = 'number') = (kept_low IS NOT NULL)),
  CHECK ((kind = 'number') = (printed_low IS NOT NULL)),
  CHECK ((kind = 'number') = (printed_unit IS NOT NULL)),
  CHECK (kind = 'number' OR (kept_high IS NULL AND printed_high IS NULL AND comparator IS NULL)),
  CHECK ((kind = 'immunofixation') = (reading IS NOT NULL)),
  CHECK ((kind = 'none') = (none_reason IS NOT NULL)),
  CHECK (kind = 'present' OR up_to IS NULL),
  CHECK ((reference_low_kept IS NULL) = (reference_low_printed IS NULL)),
  CHECK ((reference_high_kept IS NULL) = (reference_high_printed IS NULL))
) PARTITION BY HASH (patient_id);
CREATE TABLE result_00 PARTITION OF result FOR VALUES WITH (MODULUS 16, REMAINDER 0);
CREATE TABLE result_01 PARTITION OF result FOR VALUES WITH (MODULUS 16, REMAINDER 1);
CREATE TABLE result_02 PARTITION OF result FOR VALUES WITH (MODULUS 16, REMAINDER 2);
CREATE TABLE result_03 PARTITION OF result FOR VALUES WITH (MODULUS 16, REMAINDER 3);
CREATE TABLE result_04 PARTITION OF result FOR VALUES WITH (MODULUS 16, REMAINDER 4);
CREATE TABLE result_05 PARTITION OF result FOR VALUES WITH (MODULUS 16, REMAINDER 5);
CREATE TABLE result_06 PARTITION OF result FOR VALUES WITH (MODULUS 16, REMAINDER 6);
CREATE TABLE result_07 PARTITION OF result FOR VALUES WITH (MODULUS 16, REMAINDER 7);
CREATE TABLE result_08 PARTITION OF result FOR VALUES WITH (MODULUS 16, REMAINDER 8);
CREATE TABLE result_09 PARTITION OF result FOR VALUES WITH (MODULUS 16, REMAINDER 9);
CREATE TABLE result_10 PARTITION OF result FOR VALUES WITH (MODULUS 16, REMAINDER 10);
CREATE TABLE result_11 PARTITION OF result FOR VALUES WITH (MODULUS 16, REMAINDER 11);
CREATE TABLE result_12 PARTITION OF result FOR VALUES WITH (MODULUS 16, REMAINDER 12);
CREATE TABLE result_13 PARTITION OF result FOR VALUES WITH (MODULUS 16, REMAINDER 13);
CREATE TABLE result_14 PARTITION OF result FOR VALUES WITH (MODULUS 16, REMAINDER 14);
CREATE TABLE result_15 PARTITION OF result FOR VALUES WITH (MODULUS 16, REMAINDER 15);
-- A key must name the patient; what asks by the number alone goes by this one.
CREATE INDEX result_id ON result (id);
CREATE INDEX result_patient ON result (patient_id, current);
CREATE UNIQUE INDEX result_one_current ON result (identity, patient_id) WHERE current = 1;
-- A number is nobody else's, which no key over all parts can say: it is given here, or looked up where the row brings one. To ask sixteen parts for the highest
-- takes longer than to store the row, so the last one given is remembered for the transaction, in a setting that is undone with what is rolled back. A setting
-- can be written by whoever asks: it counts only while it is also the highest number ever given, which the sequence knows, and then the next one is free.
CREATE SEQUENCE result_number;
CREATE FUNCTION result_takes_a_number() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
DECLARE
  highest bigint := pg_sequence_last_value('result_number');
BEGIN
  IF NEW.id IS NOT NULL THEN
    IF EXISTS (SELECT 1 FROM result WHERE id = NEW.id) THEN
      RAISE EXCEPTION 'row violates unique constraint: result % is stored already', NEW.id USING ERRCODE = 'unique_violation';
    END IF;
    PERFORM setval('result_number', greatest(NEW.id, highest, 1)), set_config('lowmark.last_result', '', true);
  ELSE
    IF current_setting('lowmark.last_result', true) = highest::text THEN
      NEW.id := nextval('result_number');
    ELSE
      NEW.id := setval('result_number', (SELECT coalesce(max(id), 0) + 1 FROM result));
    END IF;
    PERFORM set_config('lowmark.last_result', NEW.id::text, true);
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER result_takes_a_number BEFORE INSERT ON result FOR EACH ROW EXECUTE FUNCTION result_takes_a_number();
CREATE FUNCTION result_identity_is_of_one_patient() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  IF EXISTS (SELECT 1 FROM result WHERE identity = NEW.identity AND patient_id <> NEW.patient_id) THEN
    RAISE EXCEPTION 'row violates unique constraint: an identity is of one patient' USING ERRCODE = 'unique_violation';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER result_identity_is_of_one_patient BEFORE INSERT OR UPDATE OF identity, patient_id ON result FOR EACH ROW
WHEN (NEW.identity NOT LIKE '[%')
EXECUTE FUNCTION result_identity_is_of_one_patient();

-- What points to a result names its number, and not always the patient it came for: a result of a joined record is decided on at the one that is kept. No key
-- of a divided table has the number alone, so the reference is kept from both ends here; the row that is pointed to is held as a foreign key holds it.
CREATE FUNCTION points_to_a_result() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  PERFORM 1 FROM result WHERE id = NEW.result_id FOR KEY SHARE;
  IF NOT FOUND THEN
    RAISE EXCEPTION 'row of "%" violates foreign key constraint: there is no result %', TG_TABLE_NAME, NEW.result_id USING ERRCODE = 'foreign_key_violation';
  END IF;
  RETURN NULL;
END $$;
CREATE FUNCTION result_is_pointed_to() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  IF TG_OP = 'UPDATE' AND NEW.id = OLD.id THEN
    RETURN NULL;
  END IF;
  IF EXISTS (SELECT 1 FROM decision WHERE result_id = OLD.id) OR EXISTS (SELECT 1 FROM mapped_repeat WHERE result_id = OLD.id)
    OR EXISTS (SELECT 1 FROM version_taken_back WHERE result_id = OLD.id) THEN
    RAISE EXCEPTION 'result % violates foreign key constraint: other rows point to it', OLD.id USING ERRCODE = 'foreign_key_violation';
  END IF;
  RETURN NULL;
END $$;
CREATE TRIGGER result_is_pointed_to AFTER DELETE OR UPDATE OF id ON result FOR EACH ROW EXECUTE FUNCTION result_is_pointed_to();
CREATE FUNCTION result_taken_back_never_counts() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  IF EXISTS (SELECT 1 FROM version_taken_back WHERE result_id = NEW.id) THEN
    RAISE EXCEPTION 'a version that was taken back never counts again' USING ERRCODE = 'LM001';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER result_taken_back_never_counts BEFORE UPDATE OF current ON result FOR EACH ROW
WHEN (NEW.current = 1)
EXECUTE FUNCTION result_taken_back_never_counts();

CREATE TABLE version_taken_back (
  id bigint NOT NULL DEFAULT next_version_taken_back_id() PRIMARY KEY,
  result_id bigint UNIQUE,
  course_event_id bigint UNIQUE REFERENCES course_event (id),
  mapping_id bigint NOT NULL REFERENCES source_mapping (id),
  taken_by text COLLATE "C" NOT NULL CHECK (taken_by <> ''),
  taken_at text COLLATE "C" NOT NULL CHECK (taken_at LIKE '____-__-__T__:__:__%Z'),
  CHECK ((result_id IS NULL) <> (course_event_id IS NULL))
);
CREATE CONSTRAINT TRIGGER version_taken_back_points_to_a_result AFTER INSERT OR UPDATE OF result_id ON version_taken_back FOR EACH ROW
WHEN (NEW.result_id IS NOT NULL)
EXECUTE FUNCTION points_to_a_result();
CREATE TRIGGER version_taken_back_refuses_update BEFORE UPDATE ON version_taken_back FOR EACH ROW
EXECUTE FUNCTION refuse('what was taken back stays so: the row is filed anew');
CREATE TRIGGER version_taken_back_refuses_delete BEFORE DELETE ON version_taken_back FOR EACH ROW
EXECUTE FUNCTION refuse('what was taken back stays so: the row is filed anew');

CREATE TABLE mapped_repeat (
  id bigint NOT NULL DEFAULT next_mapped_repeat_id() PRIMARY KEY,
  result_id bigint,
  course_event_id bigint REFERENCES course_event (id),
  file_id bigint NOT NULL REFERENCES intake_file (id),
  line bigint NOT NULL CHECK (line >= 1),
  CHECK ((result_id IS NULL) <> (course_event_id IS NULL))
);
CREATE INDEX mapped_repeat_result ON mapped_repeat (result_id NULLS FIRST);
CREATE INDEX mapped_repeat_course_event ON mapped_repeat (course_event_id NULLS FIRST);
CREATE CONSTRAINT TRIGGER mapped_repeat_points_to_a_result AFTER INSERT OR UPDATE OF result_id ON mapped_repeat FOR EACH ROW
WHEN (NEW.result_id IS NOT NULL)
EXECUTE FUNCTION points_to_a_result();

CREATE TABLE decision (
  id bigint NOT NULL DEFAULT next_decision_id() PRIMARY KEY,
  patient_id text COLLATE "C" NOT NULL REFERENCES patient (id),
  kind text COLLATE "C" NOT NULL
    CHECK (kind IN ('review', 'handover', 'answer-withdrawn', 'attribution', 'attribution-withdrawn', 'exclusion', 'restoration')),
  made_at text COLLATE "C" NOT NULL CHECK (made_at LIKE '____-__-__T__:__:__%Z'),
  made_on text COLLATE "C" NOT NULL CHECK (made_on ~ '^[0-9]{4}-[0-9]{2}-[0-9]{2}$'),
  made_by text COLLATE "C" NOT NULL CHECK (made_by <> ''),
  text text COLLATE "C" NOT NULL CHECK (length(text) = 0 OR length(text) BETWEEN 3 AND 500),
  rule text COLLATE "C" CHECK (rule <> ''),
  finding_key text COLLATE "C" CHECK (json_valid(finding_key)),
  bring_back_on text COLLATE "C" CHECK (bring_back_on ~ '^[0-9]{4}-[0-9]{2}-[0-9]{2}$'),
  shown_on text COLLATE "C" CHECK (shown_on ~ '^[0-9]{4}-[0-9]{2}-[0-9]{2}$'),
  shown_values text COLLATE "C" CHECK (json_valid(shown_values)),
  attribution_id bigint REFERENCES decision (id),
  result_id bigint,
  -- What was done about the finding; null in reviews of before there were kinds.
  did text COLLATE "C" CHECK (did IN ('seen', 'repeat-ordered', 'visit-brought-forward', 'contacted', 'bring-back')),
  -- What was handed to a physician and is answered by this review.
  handover_id bigint REFERENCES decision (id),
  -- The review or handover that is taken back.
  answer_id bigint REFERENCES decision (id),
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
);
CREATE INDEX decision_patient ON decision (patient_id, id);
CREATE UNIQUE INDEX decision_withdrawn_once ON decision (attribution_id) WHERE attribution_id IS NOT NULL;
CREATE UNIQUE INDEX decision_taken_back_once ON decision (answer_id) WHERE answer_id IS NOT NULL;
CREATE INDEX decision_made ON decision (made_at);
CREATE CONSTRAINT TRIGGER decision_points_to_a_result AFTER INSERT OR UPDATE OF result_id ON decision FOR EACH ROW
WHEN (NEW.result_id IS NOT NULL)
EXECUTE FUNCTION points_to_a_result();
CREATE TRIGGER decision_refuses_update BEFORE UPDATE ON decision FOR EACH ROW
EXECUTE FUNCTION refuse('a decision is never changed: taking it back is a decision of its own');
CREATE TRIGGER decision_refuses_delete BEFORE DELETE ON decision FOR EACH ROW
EXECUTE FUNCTION refuse('a decision is never removed');
CREATE TRIGGER decision_only_appends BEFORE INSERT ON decision FOR EACH ROW
WHEN (NEW.id <> next_decision_id())
EXECUTE FUNCTION refuse('a decision is never replaced: it follows the last one');
CREATE FUNCTION decision_takes_back_an_answer() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  IF NOT EXISTS (SELECT 1 FROM decision WHERE id = NEW.answer_id AND kind IN ('review', 'handover')) THEN
    RAISE EXCEPTION 'only a review or a handover can be taken back' USING ERRCODE = 'LM001';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER decision_takes_back_an_answer BEFORE INSERT ON decision FOR EACH ROW
WHEN (NEW.answer_id IS NOT NULL)
EXECUTE FUNCTION decision_takes_back_an_answer();
CREATE FUNCTION decision_answers_a_handover() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  IF NOT EXISTS (SELECT 1 FROM decision WHERE id = NEW.handover_id AND kind = 'handover') THEN
    RAISE EXCEPTION 'a review can name only a handover as handed over' USING ERRCODE = 'LM001';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER decision_answers_a_handover BEFORE INSERT ON decision FOR EACH ROW
WHEN (NEW.handover_id IS NOT NULL)
EXECUTE FUNCTION decision_answers_a_handover();

-- TRUNCATE passes the guards of rows by. Where no row may be removed, not all of them may; nor the results, to which others point.
DO $$
DECLARE
  kept record;
BEGIN
  FOR kept IN
    SELECT tgrelid::regclass AS name FROM pg_trigger WHERE tgname LIKE '%\_refuses\_delete'
    UNION ALL SELECT relid FROM pg_partition_tree('result')
  LOOP
    EXECUTE format('CREATE TRIGGER %I BEFORE TRUNCATE ON %s FOR EACH STATEMENT EXECUTE FUNCTION refuse(%L)',
      kept.name || '_refuses_truncate', kept.name, kept.name || ' is never emptied');
  END LOOP;
END $$;
