import type { Connection } from '../connection.ts'
import { accountByName, type StoredAccount } from './accounts.ts'

/** A person of an identity provider. Both texts are told apart by case (OpenID Connect Core 1.0, 5.7). */
export interface Identity {
  readonly issuer: string
  readonly subject: string
}

/** An account joined to an identity, in force. Times are UTC, ISO 8601. */
export interface StoredIdentity extends Identity {
  readonly id: number
  readonly accountId: number
  readonly madeBy: string
  readonly madeAt: string
}

const IDENTITY = `SELECT id, account_id AS accountId, issuer, subject, made_by AS madeBy, made_at AS madeAt FROM account_identity
  WHERE ended_at IS NULL`

/** The identity an account is joined to; null where it is joined to none. */
export function identityOf({ statement }: Connection, accountId: number): StoredIdentity | null {
  return statement<StoredIdentity>(`${IDENTITY} AND account_id = ?`).get(accountId) ?? null
}

/** The account joined to this identity; null where there is none. */
export function accountOfIdentity(connection: Connection, { issuer, subject }: Identity): StoredAccount | null {
  const sql = `SELECT name FROM account JOIN account_identity ON account.id = account_id WHERE ended_at IS NULL AND issuer = ? AND subject = ?`
  const found = connection.statement<{ name: string }>(sql).get(issuer, subject)
  return found === undefined ? null : accountByName(connection, found.name)
}
