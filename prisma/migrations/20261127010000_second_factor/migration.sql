-- The second factor of an account, its recovery codes, by what each session was signed in, and failed tries of each network address.

-- What was shown to begin the session. `short-password`: fewer characters than a password alone must have, because its second factor was taken away.
ALTER TABLE session ADD COLUMN means TEXT NOT NULL DEFAULT 'password'
  CHECK (means IN ('password', 'short-password', 'password-and-code', 'recovery-code', 'provider'));

-- One row an account that ever had one. The secret is sealed with a key that is not in the database.
CREATE TABLE second_factor (
  account_id INTEGER NOT NULL PRIMARY KEY REFERENCES account (id),
  -- Null: it was turned off or taken away.
  sealed TEXT CHECK (sealed GLOB 'v1.*.*.*'),
  -- When it was last set up, turned off or taken away.
  changed_at TEXT NOT NULL CHECK (changed_at GLOB '????-??-??T??:??:??*Z'),
  -- The time step (RFC 6238) of the last code that counted: none of this or an earlier step counts again.
  last_step INTEGER CHECK (last_step >= 0),
  CHECK ((sealed IS NULL) = (last_step IS NULL))
) STRICT;

CREATE TRIGGER second_factor_code_counts_once BEFORE UPDATE ON second_factor
WHEN NEW.account_id <> OLD.account_id OR (NEW.sealed = OLD.sealed AND NEW.last_step <= OLD.last_step) BEGIN
  SELECT RAISE(ABORT, 'a code counts once, and none before it counts any more');
END;

-- Each code once; a new set removes the one before.
CREATE TABLE recovery_code (
  -- SHA-256 of the code, which is random itself.
  digest TEXT NOT NULL PRIMARY KEY CHECK (length(digest) = 64 AND digest NOT GLOB '*[^0-9a-f]*'),
  account_id INTEGER NOT NULL REFERENCES account (id),
  made_at TEXT NOT NULL CHECK (made_at GLOB '????-??-??T??:??:??*Z'),
  used_at TEXT CHECK (used_at GLOB '????-??-??T??:??:??*Z')
) STRICT;
CREATE INDEX recovery_code_account ON recovery_code (account_id);

CREATE TRIGGER recovery_code_counts_once BEFORE UPDATE ON recovery_code
WHEN OLD.used_at IS NOT NULL OR NEW.digest <> OLD.digest OR NEW.account_id <> OLD.account_id OR NEW.made_at <> OLD.made_at BEGIN
  SELECT RAISE(ABORT, 'a recovery code counts once');
END;

-- Without names. Rows older than the time they count for are removed when the next one comes.
CREATE TABLE failed_try (
  id INTEGER NOT NULL PRIMARY KEY,
  address TEXT NOT NULL CHECK (address <> ''),
  at TEXT NOT NULL CHECK (at GLOB '????-??-??T??:??:??*Z')
) STRICT;
CREATE INDEX failed_try_address ON failed_try (address, at);
