import type { Cell, Connection } from '../connection.ts'
import { STANDING_COLUMNS, type StandingRow } from '../rows/standing.ts'
import { insertSql } from './insert.ts'

const COLUMNS = Object.keys(STANDING_COLUMNS) as (keyof typeof STANDING_COLUMNS)[]
const SAVE = `${insertSql('standing', COLUMNS)} ON CONFLICT (patient_id) DO UPDATE SET
  ${COLUMNS.filter((column) => column !== 'patient_id')
    .map((column) => `${column} = excluded.${column}`)
    .join(', ')}`

function cellOf(value: Exclude<StandingRow[keyof StandingRow], readonly string[]>): Cell {
  return typeof value === 'boolean' ? Number(value) : value
}

/** Keeps a patient's standing in place of the one before. */
export function saveStanding({ statement }: Connection, row: StandingRow): void {
  statement(SAVE).run(...COLUMNS.map((column) => cellOf(row[STANDING_COLUMNS[column]])))
  statement('DELETE FROM standing_finding WHERE patient_id = ?').run(row.patientId)
  for (const rule of new Set(row.rules)) statement('INSERT INTO standing_finding (patient_id, rule) VALUES (?, ?)').run(row.patientId, rule)
}

/** Takes away the kept answer of a record that is read as part of another one. */
export function removeStanding({ statement }: Connection, patientId: string): void {
  statement('DELETE FROM standing WHERE patient_id = ?').run(patientId)
}
