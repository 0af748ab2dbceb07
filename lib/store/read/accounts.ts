import type { Role, SignInMeans } from '../../access/index.ts'
import type { Connection } from '../connection.ts'

/** An account as stored. Times are UTC, ISO 8601. */
export interface StoredAccount {
  readonly id: number
  readonly name: string
  readonly role: Role
  readonly passwordHash: string | null
  readonly codeHash: string | null
  readonly codeExpiresAt: string | null
  readonly createdAt: string
  readonly disabledAt: string | null
  /** Failed sign-ins since the last that succeeded. */
  readonly failures: number
  /** No sign-in is tried before this moment; null where none has to wait. */
  readonly waitUntil: string | null
  readonly lastSignInAt: string | null
}

const ACCOUNT = `SELECT id, name, role, password_hash AS passwordHash, code_hash AS codeHash, code_expires_at AS codeExpiresAt, created_at AS createdAt,
  disabled_at AS disabledAt, failures, wait_until AS waitUntil, last_sign_in_at AS lastSignInAt FROM account`

/** The account of this name (letters a to z in either case); null where there is none. */
export function accountByName({ statement }: Connection, name: string): StoredAccount | null {
  return statement<StoredAccount>(`${ACCOUNT} WHERE name = ?`).get(name) ?? null
}

/** Every account, by name. */
export function allAccounts({ statement }: Connection): StoredAccount[] {
  return statement<StoredAccount>(`${ACCOUNT} ORDER BY name`).all()
}

export type EndedBecause = 'sign-out' | 'disabled' | 'role-changed' | 'ended-by-administrator' | 'idle' | 'too-long'

/** A session with the account it belongs to as it is now. */
export interface StoredSession {
  /** SHA-256 of what the browser holds. */
  readonly id: string
  readonly createdAt: string
  readonly lastSeenAt: string
  readonly endedAt: string | null
  readonly address: string | null
  readonly means: SignInMeans
  readonly accountId: number
  readonly name: string
  readonly role: Role
  readonly disabledAt: string | null
}

const SESSION = `SELECT session.id, session.created_at AS createdAt, last_seen_at AS lastSeenAt, ended_at AS endedAt, address, means,
  account.id AS accountId, name, role, disabled_at AS disabledAt FROM session JOIN account ON account.id = session.account_id`

/** The session of this id; null where there is none. */
export function sessionById({ statement }: Connection, id: string): StoredSession | null {
  return statement<StoredSession>(`${SESSION} WHERE session.id = ?`).get(id) ?? null
}

/** Sessions begun at or after `since` that nobody ended, by account, oldest first; whether they still hold is for the caller to say. */
export function openSessions({ statement }: Connection, since: string): StoredSession[] {
  return statement<StoredSession>(`${SESSION} WHERE ended_at IS NULL AND session.created_at >= ? ORDER BY account.id, session.created_at`).all(since)
}
