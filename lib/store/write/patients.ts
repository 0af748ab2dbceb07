import type { Patient } from '../../results/index.ts'
import type { Connection } from '../connection.ts'
import { KEPT_ID } from '../read/merges.ts'
import { PATIENT_COLUMNS, patientColumns } from '../rows/patient.ts'
import { insertSql } from './insert.ts'

/** The row of a file something came from. */
export interface RowOfFile {
  readonly fileId: number
  readonly line: number
}

const INSERT = insertSql('patient', [...PATIENT_COLUMNS, 'file_id', 'line'])
const UPDATE = `UPDATE patient SET ${PATIENT_COLUMNS.map((column) => `${column} = ?`).join(', ')}, file_id = ?, line = ?, version = version + 1 WHERE id = ?`
const KEEP = `INSERT INTO patient_version (patient_id, version, row, replaced_at)
  SELECT id, version, json_object(${PATIENT_COLUMNS.map((column) => `'${column}', ${column}`).join(', ')}, 'file_id', file_id, 'line', line), ? FROM patient WHERE id = ?`

/** Stores a new patient. Throws where the id is taken. */
export function insertPatient({ statement }: Connection, patient: Patient, from: RowOfFile): void {
  const row = patientColumns(patient)
  statement(INSERT).run(...PATIENT_COLUMNS.map((column) => row[column]), from.fileId, from.line)
}

/** Replaces what is known of a patient; the row as it was is kept beside it. Throws where nobody has this id. */
export function updatePatient({ statement }: Connection, patient: Patient, from: RowOfFile, replacedAt: string): void {
  const row = patientColumns(patient)
  if (statement(KEEP).run(replacedAt, patient.id).changes !== 1) throw new Error(`There is no patient ${patient.id} to update.`)
  statement(UPDATE).run(...PATIENT_COLUMNS.map((column) => row[column]), from.fileId, from.line, patient.id)
}

const BUMP = `UPDATE patient SET revision = revision + 1 WHERE id = ? OR id = (${KEPT_ID}) RETURNING id, revision`

/**
 * Counts a change of a patient's history and returns the new revision. What changes a record that is joined to another changes that one's history too, and
 * is counted in both. Throws where nobody has this id.
 */
export function bumpRevision(connection: Connection, patientId: string): number {
  const counted = connection.statement<{ id: string; revision: number }>(BUMP).all(patientId, patientId)
  const own = counted.find(({ id }) => id === patientId)
  if (own === undefined) throw new Error(`There is no patient ${patientId}.`)
  return own.revision
}
