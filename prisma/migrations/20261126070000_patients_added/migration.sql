-- Patients that a file of results brought: its source is trusted to add patients.

ALTER TABLE intake_file ADD COLUMN patients_added INTEGER NOT NULL DEFAULT 0 CHECK (patients_added >= 0);

-- The page of a source shows the files that came from it last.
CREATE INDEX intake_file_source ON intake_file (source);
