import type { Connection } from '../connection.ts'

/** The second factor of an account as stored. Times are UTC, ISO 8601. */
export interface StoredFactor {
  /** The secret, sealed with a key outside the database; null where it was turned off or taken away. */
  readonly sealed: string | null
  readonly changedAt: string
  /** Time step of the last code that counted. */
  readonly lastStep: number | null
}

/** The second factor of an account; null where it never had one. */
export function secondFactorOf({ statement }: Connection, accountId: number): StoredFactor | null {
  const sql = 'SELECT sealed, changed_at AS changedAt, last_step AS lastStep FROM second_factor WHERE account_id = ?'
  return statement<StoredFactor>(sql).get(accountId) ?? null
}

/** Numbers of the accounts that have a second factor now. */
export function accountsWithFactor({ statement }: Connection): ReadonlySet<number> {
  const rows = statement<{ id: number }>('SELECT account_id AS id FROM second_factor WHERE sealed IS NOT NULL').all()
  return new Set(rows.map(({ id }) => id))
}

/** How many recovery codes of an account are not used yet. */
export function recoveryCodesLeft({ statement }: Connection, accountId: number): number {
  const sql = 'SELECT count(*) AS count FROM recovery_code WHERE account_id = ? AND used_at IS NULL'
  return statement<{ count: number }>(sql).get(accountId)?.count ?? 0
}

/** Is this the digest of a recovery code of the account that is not used yet? */
export function isRecoveryCode({ statement }: Connection, accountId: number, digest: string): boolean {
  const sql = 'SELECT 1 AS found FROM recovery_code WHERE digest = ? AND account_id = ? AND used_at IS NULL'
  return statement<{ found: number }>(sql).get(digest, accountId) !== undefined
}

/** Failed tries that came from a network address since a moment (UTC, ISO 8601). */
export function failuresOfAddress({ statement }: Connection, address: string, since: string): number {
  const sql = 'SELECT count(*) AS count FROM failed_try WHERE address = ? AND at > ?'
  return statement<{ count: number }>(sql).get(address, since)?.count ?? 0
}
