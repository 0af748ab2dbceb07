-- Messages accepted over the network, by what the sender calls them, so that one that is repeated is filed once. Written with the rows of the message.

CREATE TABLE hl7_message (
  sending_application TEXT NOT NULL,
  sending_facility TEXT NOT NULL,
  control_id TEXT NOT NULL CHECK (control_id <> ''),
  sha256 TEXT NOT NULL REFERENCES intake_file_bytes (sha256),
  file_id INTEGER NOT NULL UNIQUE REFERENCES intake_file (id),
  accepted_at TEXT NOT NULL CHECK (accepted_at GLOB '????-??-??T??:??:??*Z'),
  PRIMARY KEY (sending_application, sending_facility, control_id)
) STRICT;

CREATE TRIGGER hl7_message_refuses_update BEFORE UPDATE ON hl7_message BEGIN
  SELECT RAISE(ABORT, 'an accepted message is never changed');
END;

CREATE TRIGGER hl7_message_refuses_delete BEFORE DELETE ON hl7_message BEGIN
  SELECT RAISE(ABORT, 'an accepted message is never forgotten');
END;

-- A replacing insert would delete without asking the trigger above.
CREATE TRIGGER hl7_message_only_once BEFORE INSERT ON hl7_message
WHEN EXISTS (
  SELECT 1 FROM hl7_message
  WHERE file_id = NEW.file_id
    OR (sending_application = NEW.sending_application AND sending_facility = NEW.sending_facility AND control_id = NEW.control_id)
) BEGIN
  SELECT RAISE(ABORT, 'a message is accepted once');
END;
