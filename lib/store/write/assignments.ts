import type { Connection } from '../connection.ts'
import { insertSql } from './insert.ts'
import { nextId } from './nextId.ts'

/** A patient given to the account of this number; null gives the patient to nobody. */
export interface NewAssignment {
  readonly patientId: string
  readonly accountId: number | null
  readonly by: string
  readonly at: string
}

const INSERT = insertSql('assignment', ['id', 'patient_id', 'account_id', 'made_by', 'made_at'])

/** Keeps an assignment and returns its number. */
export function insertAssignment(connection: Connection, { patientId, accountId, by, at }: NewAssignment): number {
  const id = nextId(connection, 'assignment')
  connection.statement(INSERT).run(id, patientId, accountId, by, at)
  return id
}
