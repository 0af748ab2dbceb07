-- Which person of the clinic's single sign-on an account belongs to. The key is issuer and subject (OpenID Connect Core 1.0, 5.7), both told apart by case.

CREATE TABLE account_identity (
  id INTEGER NOT NULL PRIMARY KEY,
  account_id INTEGER NOT NULL REFERENCES account (id),
  issuer TEXT NOT NULL CHECK (issuer <> '' AND length(issuer) <= 500),
  -- At most 255 characters of ASCII (OpenID Connect Core 1.0, 2).
  subject TEXT NOT NULL CHECK (subject <> '' AND length(subject) <= 255),
  made_by TEXT NOT NULL CHECK (made_by <> ''),
  made_at TEXT NOT NULL CHECK (made_at GLOB '????-??-??T??:??:??*Z'),
  ended_by TEXT CHECK (ended_by <> ''),
  ended_at TEXT CHECK (ended_at GLOB '????-??-??T??:??:??*Z'),
  CHECK ((ended_at IS NULL) = (ended_by IS NULL))
) STRICT;
CREATE UNIQUE INDEX account_identity_in_force ON account_identity (issuer, subject) WHERE ended_at IS NULL;
CREATE UNIQUE INDEX account_identity_one_each ON account_identity (account_id) WHERE ended_at IS NULL;

CREATE TRIGGER account_identity_only_appends BEFORE INSERT ON account_identity
WHEN NEW.id <> (SELECT coalesce(max(id), 0) + 1 FROM account_identity) OR NEW.ended_at IS NOT NULL BEGIN
  SELECT RAISE(ABORT, 'an identity follows the last one');
END;

CREATE TRIGGER account_identity_stays_as_made BEFORE UPDATE ON account_identity
WHEN OLD.ended_at IS NOT NULL OR NEW.id <> OLD.id OR NEW.account_id <> OLD.account_id OR NEW.issuer <> OLD.issuer OR NEW.subject <> OLD.subject
  OR NEW.made_by <> OLD.made_by OR NEW.made_at <> OLD.made_at BEGIN
  SELECT RAISE(ABORT, 'an identity is never changed: it is ended, and joined again');
END;

CREATE TRIGGER account_identity_refuses_delete BEFORE DELETE ON account_identity BEGIN
  SELECT RAISE(ABORT, 'an identity is never removed');
END;
