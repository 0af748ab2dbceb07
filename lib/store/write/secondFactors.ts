import type { SignInMeans } from '../../access/index.ts'
import type { Connection } from '../connection.ts'
import type { EndedBecause } from '../read/accounts.ts'
import { insertSql } from './insert.ts'

/** Gives an account a second factor, in the place of any it had. `step`: of the code that confirmed it. */
export function setSecondFactor({ statement }: Connection, accountId: number, factor: { sealed: string; at: string; step: number }): void {
  const sql = `${insertSql('second_factor', ['account_id', 'sealed', 'changed_at', 'last_step'])}
    ON CONFLICT (account_id) DO UPDATE SET sealed = excluded.sealed, changed_at = excluded.changed_at, last_step = excluded.last_step`
  statement(sql).run(accountId, factor.sealed, factor.at, factor.step)
}

/** The code of this time step has counted. Throws where it, or a later one, counted before. */
export function setLastStep({ statement }: Connection, accountId: number, step: number): void {
  statement('UPDATE second_factor SET last_step = ? WHERE account_id = ?').run(step, accountId)
}

/** Removes the secret and every recovery code of an account. */
export function removeSecondFactor({ statement }: Connection, accountId: number, at: string): void {
  statement('UPDATE second_factor SET sealed = NULL, last_step = NULL, changed_at = ? WHERE account_id = ?').run(at, accountId)
  statement('DELETE FROM recovery_code WHERE account_id = ?').run(accountId)
}

/** Puts new recovery codes, by their digests, in the place of all earlier ones. */
export function setRecoveryCodes({ statement }: Connection, accountId: number, digests: readonly string[], at: string): void {
  statement('DELETE FROM recovery_code WHERE account_id = ?').run(accountId)
  const insert = statement(insertSql('recovery_code', ['digest', 'account_id', 'made_at']))
  for (const digest of digests) insert.run(digest, accountId, at)
}

/** A recovery code has counted. Throws where it did before. */
export function spendRecoveryCode({ statement }: Connection, digest: string, at: string): void {
  statement('UPDATE recovery_code SET used_at = ? WHERE digest = ?').run(at, digest)
}

/** What this session's person has shown by now. One that began with the clinic's own sign-in stays one of that. */
export function setSessionMeans({ statement }: Connection, id: string, means: SignInMeans): void {
  statement("UPDATE session SET means = ? WHERE id = ? AND means <> 'provider'").run(means, id)
}

/** Ends every session of an account but one, and returns how many there were. */
export function endOtherSessions({ statement }: Connection, accountId: number, keptId: string, at: string, because: EndedBecause): number {
  const sql = 'UPDATE session SET ended_at = ?, ended_because = ? WHERE account_id = ? AND id <> ? AND ended_at IS NULL'
  return statement(sql).run(at, because, accountId, keptId).changes
}

/** Keeps that a try from this address failed; forgets those from before `since`, of any address. */
export function insertFailedTry({ statement }: Connection, address: string, at: string, since: string): void {
  statement('DELETE FROM failed_try WHERE at <= ?').run(since)
  statement(insertSql('failed_try', ['address', 'at'])).run(address, at)
}
