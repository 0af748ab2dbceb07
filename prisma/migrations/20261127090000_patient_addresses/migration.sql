-- What stands for a patient in the address of a page: drawn by chance, so that a browser's history, a bookmark or a proxy's log holds no patient number.
CREATE TABLE patient_address (
  patient_id TEXT NOT NULL PRIMARY KEY REFERENCES patient (id),
  address TEXT NOT NULL UNIQUE DEFAULT (lower(hex(randomblob(16)))) CHECK (length(address) = 32 AND address NOT GLOB '*[^0-9a-f]*')
) STRICT;

INSERT INTO patient_address (patient_id) SELECT id FROM patient;

CREATE TRIGGER patient_has_an_address AFTER INSERT ON patient BEGIN
  INSERT INTO patient_address (patient_id) VALUES (NEW.id);
END;

CREATE TRIGGER patient_address_refuses_update BEFORE UPDATE ON patient_address BEGIN
  SELECT RAISE(ABORT, 'the address of a patient never changes');
END;

CREATE TRIGGER patient_address_refuses_delete BEFORE DELETE ON patient_address BEGIN
  SELECT RAISE(ABORT, 'the address of a patient is never removed');
END;
