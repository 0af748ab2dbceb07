import type { Connection } from '../connection.ts'
import type { StoredIdentity } from '../read/identities.ts'
import { insertSql } from './insert.ts'
import { nextId } from './nextId.ts'

export type NewIdentity = Omit<StoredIdentity, 'id'>

const IDENTITY = insertSql('account_identity', ['id', 'account_id', 'issuer', 'subject', 'made_by', 'made_at'])

/** Joins an account to an identity. Throws where either is joined already. */
export function insertIdentity(connection: Connection, { accountId, issuer, subject, madeBy, madeAt }: NewIdentity): void {
  connection.statement(IDENTITY).run(nextId(connection, 'account_identity'), accountId, issuer, subject, madeBy, madeAt)
}

/** Ends it; the row stays. */
export function endIdentity({ statement }: Connection, id: number, by: string, at: string): void {
  statement('UPDATE account_identity SET ended_by = ?, ended_at = ? WHERE id = ?').run(by, at, id)
}
