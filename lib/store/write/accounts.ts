import type { Role, SignInMeans } from '../../access/index.ts'
import type { Connection } from '../connection.ts'
import type { EndedBecause, StoredAccount } from '../read/accounts.ts'
import { insertSql } from './insert.ts'

/** An account that waits for its one-time code. */
export type NewAccount = Pick<StoredAccount, 'name' | 'role' | 'createdAt'> & { readonly codeHash: string; readonly codeExpiresAt: string }

const ACCOUNT = insertSql('account', ['name', 'role', 'code_hash', 'code_expires_at', 'created_at'])

/** Stores a new account and returns its number. Throws where the name is taken. */
export function insertAccount({ insert }: Connection, { name, role, codeHash, codeExpiresAt, createdAt }: NewAccount): number {
  return insert(ACCOUNT, name, role, codeHash, codeExpiresAt, createdAt)
}

/** Puts a new one-time code in the place of the old one. */
export function setCode({ statement }: Connection, id: number, { codeHash, codeExpiresAt }: Pick<NewAccount, 'codeHash' | 'codeExpiresAt'>): void {
  statement('UPDATE account SET code_hash = ?, code_expires_at = ? WHERE id = ?').run(codeHash, codeExpiresAt, id)
}

/** Uses up the one-time code without a password chosen: its person was joined to an identity. */
export function clearCode({ statement }: Connection, id: number): void {
  statement('UPDATE account SET code_hash = NULL, code_expires_at = NULL WHERE id = ?').run(id)
}

/** Gives an account its password and uses up the one-time code. */
export function setPassword({ statement }: Connection, id: number, passwordHash: string): void {
  const sql = 'UPDATE account SET password_hash = ?, code_hash = NULL, code_expires_at = NULL, failures = 0, wait_until = NULL WHERE id = ?'
  statement(sql).run(passwordHash, id)
}

/** Counts a failed try and says until when the next one waits. */
export function setFailures({ statement }: Connection, id: number, failures: number, waitUntil: string | null): void {
  statement('UPDATE account SET failures = ?, wait_until = ? WHERE id = ?').run(failures, waitUntil, id)
}

export function setRole({ statement }: Connection, id: number, role: Role): void {
  statement('UPDATE account SET role = ? WHERE id = ?').run(role, id)
}

/** Disables an account for good; its one-time code no longer counts. */
export function setDisabled({ statement }: Connection, id: number, at: string): void {
  statement('UPDATE account SET disabled_at = ?, code_hash = NULL, code_expires_at = NULL WHERE id = ?').run(at, id)
}

/** A session that begins. `id` is the SHA-256 of what the browser holds. */
export interface NewSession {
  readonly id: string
  readonly accountId: number
  readonly at: string
  readonly address: string | null
  readonly means: SignInMeans
}

/** Opens a session, and clears what failed before. */
export function insertSession({ statement }: Connection, { id, accountId, at, address, means }: NewSession): void {
  statement(insertSql('session', ['id', 'account_id', 'created_at', 'last_seen_at', 'address', 'means'])).run(id, accountId, at, at, address, means)
  statement('UPDATE account SET failures = 0, wait_until = NULL, last_sign_in_at = ? WHERE id = ?').run(at, accountId)
}

/** Ends one session. False where it had ended already. */
export function endSession({ statement }: Connection, id: string, at: string, because: EndedBecause): boolean {
  return statement('UPDATE session SET ended_at = ?, ended_because = ? WHERE id = ? AND ended_at IS NULL').run(at, because, id).changes === 1
}

/** Ends every session of an account and returns how many there were. */
export function endSessionsOf({ statement }: Connection, accountId: number, at: string, because: EndedBecause): number {
  return statement('UPDATE session SET ended_at = ?, ended_because = ? WHERE account_id = ? AND ended_at IS NULL').run(at, because, accountId).changes
}

/** Moves a session's last sign of life forward, never back. */
export function touchSession({ statement }: Connection, id: string, at: string): void {
  statement('UPDATE session SET last_seen_at = ? WHERE id = ? AND ended_at IS NULL AND last_seen_at < ?').run(at, id, at)
}
