-- Clinics of one network in one database, each with a role of its own: PostgreSQL itself shows a role the rows of its site and no others (row-level security),
-- whatever the program asks. SQLite has nothing of the kind: a file belongs to whoever can read it.
--
-- * Whoever owns the tables sees everything: that role migrates, runs the network's own hosts, the recheck and the audits. A role that is neither the owner
--   nor listed in site_role sees no row of a patient or a file.
-- * A site sees all that is told of its patients, wherever it came from, so that the same answer is worked out whoever asks: also a held row that names one
--   of them, and of a file of somebody else that told of one the header (name, sender, counts) without its bytes and its other rows.
-- * What has no site (null) is the network's and shown to the owner alone.
-- * Not by site: accounts, sessions, settings, the plan, sources and their profiles, saved views, and a round of review, which is one for the network at a
--   time: a site's host writes down its own places only. What concerns every site is done by the network's own host: a mapping of a source that is revoked
--   takes back, at the host of a site, the rows of that site alone.
-- * The log is one chain for all. Each host appends to it and checks it from end to end, and a chain with rows left out looks like a chain somebody cut: so
--   trail, and trail_shown which is found by it, stay readable for every site. They name patients by their numbers, files by name and digest, and people by
--   their accounts; what was decided, measured or typed is not in them. That one site sees who worked on which number of another is a limit of this.
-- * A number that is taken is refused to every site, so a site that tries numbers learns which are taken; it learns nothing else of them.

CREATE TABLE site (
  name text COLLATE "C" NOT NULL PRIMARY KEY CHECK (length(name) BETWEEN 1 AND 100)
);
CREATE TABLE site_role (
  role_name text COLLATE "C" NOT NULL PRIMARY KEY CHECK (role_name <> ''),
  site text COLLATE "C" NOT NULL REFERENCES site (name)
);
-- Which role is whose is no secret: every role may look its own up, without the owner's eyes.
GRANT SELECT ON site_role TO PUBLIC;

-- The site of the role that asks; null for one that has none. Policies ask (SELECT own_site()), which PostgreSQL answers once a statement.
CREATE FUNCTION own_site() RETURNS text LANGUAGE plpgsql STABLE PARALLEL SAFE AS $$
BEGIN
  RETURN (SELECT site FROM public.site_role WHERE role_name = current_user);
END $$;

ALTER TABLE patient ADD COLUMN site text COLLATE "C" DEFAULT own_site() REFERENCES site (name);
ALTER TABLE intake_file ADD COLUMN site text COLLATE "C" DEFAULT own_site() REFERENCES site (name);
ALTER TABLE intake_file_bytes ADD COLUMN site text COLLATE "C" DEFAULT own_site() REFERENCES site (name);

-- Which sites may read the bytes of a digest. The same bytes are kept once for all, and digests stand in the log: so a digest alone opens nothing. Who kept
-- them first may read them, and who brought all of them again; of a file that is kept in pieces nobody shows at once that it was brought.
CREATE TABLE bytes_of_site (
  sha256 text COLLATE "C" NOT NULL REFERENCES intake_file_bytes (sha256),
  site text COLLATE "C" NOT NULL REFERENCES site (name),
  PRIMARY KEY (sha256, site)
);
CREATE FUNCTION bytes_are_kept() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  INSERT INTO bytes_of_site (sha256, site) VALUES (NEW.sha256, NEW.site) ON CONFLICT DO NOTHING;
  RETURN NULL;
END $$;
CREATE TRIGGER bytes_are_kept AFTER INSERT ON intake_file_bytes FOR EACH ROW WHEN (NEW.site IS NOT NULL) EXECUTE FUNCTION bytes_are_kept();
CREATE FUNCTION bytes_are_brought_again() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  IF EXISTS (SELECT 1 FROM intake_file_bytes WHERE sha256 = NEW.sha256) AND encode(sha256(NEW.bytes), 'hex') = NEW.sha256 THEN
    INSERT INTO bytes_of_site (sha256, site) VALUES (NEW.sha256, NEW.site) ON CONFLICT DO NOTHING;
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER bytes_are_brought_again BEFORE INSERT ON intake_file_bytes FOR EACH ROW WHEN (NEW.site IS NOT NULL)
EXECUTE FUNCTION bytes_are_brought_again();

-- Files of somebody else that told of a patient of the site: without their headers what is read together with its file would be left out, and a patient's
-- history would have holes nobody sees.
CREATE TABLE file_shown (
  file_id bigint NOT NULL REFERENCES intake_file (id),
  site text COLLATE "C" NOT NULL REFERENCES site (name),
  PRIMARY KEY (file_id, site)
);
CREATE FUNCTION row_shows_its_file() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  INSERT INTO file_shown (file_id, site)
  SELECT file.id, own.site FROM patient AS own JOIN intake_file AS file ON file.id = NEW.file_id
  WHERE own.id = NEW.patient_id AND own.site IS NOT NULL AND file.site IS DISTINCT FROM own.site
  ON CONFLICT DO NOTHING;
  RETURN NULL;
END $$;
-- Before there is a site no patient has one, and nothing is to be shown: rows are stored without asking until the first site is made.
CREATE FUNCTION sites_begin() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  CREATE OR REPLACE TRIGGER result_shows_its_file AFTER INSERT ON result FOR EACH ROW EXECUTE FUNCTION row_shows_its_file();
  CREATE OR REPLACE TRIGGER course_event_shows_its_file AFTER INSERT ON course_event FOR EACH ROW EXECUTE FUNCTION row_shows_its_file();
  CREATE OR REPLACE TRIGGER held_row_shows_its_file AFTER INSERT OR UPDATE OF patient_id ON held_row FOR EACH ROW WHEN (NEW.patient_id IS NOT NULL)
  EXECUTE FUNCTION row_shows_its_file();
  RETURN NULL;
END $$;
CREATE TRIGGER sites_begin AFTER INSERT ON site FOR EACH STATEMENT EXECUTE FUNCTION sites_begin();
CREATE FUNCTION patient_shows_its_files() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  INSERT INTO file_shown (file_id, site)
  SELECT file.id, NEW.site FROM intake_file AS file
  WHERE file.site IS DISTINCT FROM NEW.site AND file.id IN (
    SELECT NEW.file_id UNION SELECT file_id FROM result WHERE patient_id = NEW.id UNION SELECT file_id FROM course_event WHERE patient_id = NEW.id
    UNION SELECT file_id FROM held_row WHERE patient_id = NEW.id
  )
  ON CONFLICT DO NOTHING;
  RETURN NULL;
END $$;
CREATE TRIGGER patient_shows_its_files AFTER INSERT OR UPDATE OF site, file_id ON patient FOR EACH ROW WHEN (NEW.site IS NOT NULL)
EXECUTE FUNCTION patient_shows_its_files();

-- Two records that are read as one are read whole: both are of one site, from the proposal on. Asked at the end of a statement, so that one may move both.
CREATE FUNCTION joined_records_are_of_one_site() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  IF EXISTS (
    SELECT 1 FROM patient_merge JOIN patient AS one ON one.id = from_id JOIN patient AS other ON other.id = into_id
    WHERE decision IS DISTINCT FROM 'declined' AND ended_at IS NULL AND one.site IS DISTINCT FROM other.site
  ) THEN
    RAISE EXCEPTION 'records of two sites are not joined: one site takes both over first' USING ERRCODE = 'LM001';
  END IF;
  RETURN NULL;
END $$;
CREATE TRIGGER patient_merge_is_of_one_site AFTER INSERT ON patient_merge FOR EACH STATEMENT EXECUTE FUNCTION joined_records_are_of_one_site();
CREATE TRIGGER patient_site_is_that_of_joined AFTER UPDATE OF site ON patient FOR EACH STATEMENT EXECUTE FUNCTION joined_records_are_of_one_site();

-- Whose rows are whose. A policy that looks into another table sees there only what the role sees, so nothing below names the site twice, and none asks its
-- own table.
CREATE POLICY of_own_site ON patient USING (site = (SELECT own_site()));

CREATE POLICY shown_to_site ON intake_file FOR SELECT USING (
  site = (SELECT own_site()) OR EXISTS (SELECT 1 FROM file_shown WHERE file_shown.file_id = intake_file.id AND file_shown.site = (SELECT own_site()))
);
CREATE POLICY added_by_site ON intake_file FOR INSERT WITH CHECK (site = (SELECT own_site()));
CREATE POLICY changed_by_site ON intake_file FOR UPDATE USING (site = (SELECT own_site()));
CREATE POLICY removed_by_site ON intake_file FOR DELETE USING (site = (SELECT own_site()));

CREATE POLICY kept_by_site ON intake_file_bytes FOR INSERT WITH CHECK (site = (SELECT own_site()));
CREATE POLICY read_by_site ON intake_file_bytes FOR SELECT USING (
  EXISTS (SELECT 1 FROM bytes_of_site WHERE bytes_of_site.sha256 = intake_file_bytes.sha256 AND bytes_of_site.site = (SELECT own_site()))
);
CREATE POLICY of_own_bytes ON intake_file_chunk USING (
  EXISTS (SELECT 1 FROM bytes_of_site WHERE bytes_of_site.sha256 = intake_file_chunk.sha256 AND bytes_of_site.site = (SELECT own_site()))
);

-- Rows of a patient.
DO $$
DECLARE
  told text;
BEGIN
  FOREACH told IN ARRAY ARRAY[
    'assigned', 'assignment', 'course_change', 'course_event', 'decision', 'emergency_view', 'finding_change', 'on_list', 'patient_address',
    'patient_sheet', 'patient_version', 'result', 'round_finding', 'round_place', 'standing', 'standing_back_to', 'standing_behind',
    'standing_finding', 'standing_open'
  ] LOOP
    EXECUTE format('CREATE POLICY of_own_patient ON %1$I USING (EXISTS (SELECT 1 FROM patient WHERE patient.id = %1$I.patient_id))', told);
  END LOOP;
END $$;
CREATE POLICY of_own_patients ON patient_merge USING (
  EXISTS (SELECT 1 FROM patient WHERE patient.id = from_id) AND EXISTS (SELECT 1 FROM patient WHERE patient.id = into_id)
);

-- Rows of a file the site itself received.
DO $$
DECLARE
  told text;
BEGIN
  FOREACH told IN ARRAY ARRAY['hl7_message', 'refused_row'] LOOP
    EXECUTE format(
      'CREATE POLICY of_own_file ON %1$I USING (EXISTS (SELECT 1 FROM intake_file WHERE intake_file.id = %1$I.file_id AND intake_file.site = (SELECT own_site())))',
      told);
  END LOOP;
  -- These name a patient as well, and are told of by either.
  FOREACH told IN ARRAY ARRAY['held_row', 'mapping_use', 'mapping_return'] LOOP
    EXECUTE format(
      'CREATE POLICY of_own_file_or_patient ON %1$I USING (
        EXISTS (SELECT 1 FROM intake_file WHERE intake_file.id = %1$I.file_id AND intake_file.site = (SELECT own_site()))
        OR EXISTS (SELECT 1 FROM patient WHERE patient.id = %1$I.patient_id))',
      told);
  END LOOP;
END $$;
CREATE POLICY of_own_row ON held_choice USING (EXISTS (SELECT 1 FROM held_row WHERE held_row.id = held_id));
CREATE POLICY of_own_version ON version_taken_back USING (
  EXISTS (SELECT 1 FROM result WHERE result.id = result_id) OR EXISTS (SELECT 1 FROM course_event WHERE course_event.id = course_event_id)
);
CREATE POLICY of_own_version ON mapped_repeat USING (
  EXISTS (SELECT 1 FROM result WHERE result.id = result_id) OR EXISTS (SELECT 1 FROM course_event WHERE course_event.id = course_event_id)
);
-- What a code or a unit of a source means is everybody's; whose an identifier is names a patient.
CREATE POLICY of_own_patient ON source_mapping USING (kind <> 'patient' OR EXISTS (SELECT 1 FROM patient WHERE patient.id = meaning));

CREATE POLICY of_own_site ON file_shown USING (site = (SELECT own_site()));
CREATE POLICY of_own_site ON bytes_of_site USING (site = (SELECT own_site()));

-- The parts of the results too, with no policy: who does not own them reaches them through the whole table alone.
DO $$
DECLARE
  secured regclass;
BEGIN
  FOR secured IN SELECT DISTINCT polrelid::regclass FROM pg_policy UNION SELECT relid FROM pg_partition_tree('result') LOOP
    EXECUTE format('ALTER TABLE %s ENABLE ROW LEVEL SECURITY', secured);
  END LOOP;
END $$;

-- For the administrator of the network, as the owner: lets a role of the cluster in as the host of a site, with what a host needs and nothing that would pass
-- the policies by. Asked again after an upgrade it grants what is new. Throws for a role that would see everything anyway.
CREATE FUNCTION admit_site_role(admitted text, its_site text) RETURNS void LANGUAGE plpgsql SET search_path = public, pg_temp AS $$
DECLARE
  granted record;
BEGIN
  IF EXISTS (
    SELECT 1 FROM pg_roles WHERE rolname = admitted AND (
      rolsuper OR rolbypassrls OR pg_has_role(rolname, (SELECT relowner FROM pg_class WHERE oid = 'patient'::regclass), 'MEMBER'))
  ) THEN
    RAISE EXCEPTION 'the role "%" sees every site: give a site a role that owns nothing here', admitted USING ERRCODE = 'LM001';
  END IF;
  INSERT INTO site (name) VALUES (its_site) ON CONFLICT DO NOTHING;
  INSERT INTO site_role (role_name, site) VALUES (admitted, its_site) ON CONFLICT (role_name) DO UPDATE SET site = excluded.site;
  EXECUTE format('GRANT USAGE ON SCHEMA public TO %I', admitted);
  FOR granted IN
    SELECT oid::regclass AS name, CASE
        -- Retiring the log, and migrating, is the network's own business.
        WHEN relname IN ('site', 'site_role', 'file_shown', 'bytes_of_site', 'log_range', 'database_identity', '_prisma_migrations') THEN 'SELECT'
        WHEN relname IN ('trail', 'trail_shown') THEN 'SELECT, INSERT'
        ELSE 'SELECT, INSERT, UPDATE, DELETE'
      END AS what
    FROM pg_class WHERE relnamespace = 'public'::regnamespace AND relkind IN ('r', 'p') AND NOT relispartition
  LOOP
    EXECUTE format('GRANT %s ON %s TO %I', granted.what, granted.name, admitted);
  END LOOP;
END $$;
REVOKE EXECUTE ON FUNCTION admit_site_role(text, text) FROM PUBLIC;
