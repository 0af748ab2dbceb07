import type { Cell, Connection } from '../connection.ts'
import { STANDING_COLUMNS, type StandingRow } from '../rows/standing.ts'
import { insertSql } from './insert.ts'

const COLUMNS = Object.keys(STANDING_COLUMNS) as (keyof typeof STANDING_COLUMNS)[]
// Written before the standing, for what of it is new on the list is kept from before.
const SAVE = `INSERT INTO standing (${COLUMNS.join(', ')}, seen_on)
  VALUES (${COLUMNS.map(() => '?').join(', ')}, (SELECT min(seen_on) FROM on_list WHERE patient_id = ?))
  ON CONFLICT (patient_id) DO UPDATE SET
  ${[...COLUMNS, 'seen_on']
    .filter((column) => column !== 'patient_id')
    .map((column) => `${column} = excluded.${column}`)
    .join(', ')}`
const OFF_LIST = 'DELETE FROM on_list WHERE patient_id = ? AND topic NOT IN (SELECT value FROM json_each(?))'
const ON_LIST = 'INSERT INTO on_list (patient_id, topic, seen_on) VALUES (?, ?, ?) ON CONFLICT DO NOTHING'
const INSERT_OPEN = insertSql('standing_open', ['patient_id', 'key', 'topic', 'answered_at', 'back', 'handed'])
const INSERT_BACK_TO = insertSql('standing_back_to', ['name', 'patient_id'])

function cellOf(value: StandingRow[(typeof STANDING_COLUMNS)[keyof typeof STANDING_COLUMNS]]): Cell {
  return typeof value === 'boolean' ? Number(value) : value
}

function keepOnList({ statement }: Connection, { patientId, open, evaluatedOn }: StandingRow): void {
  const topics = [...new Set(open.map(({ topic }) => topic))]
  statement(OFF_LIST).run(patientId, JSON.stringify(topics))
  for (const topic of topics) statement(ON_LIST).run(patientId, topic, evaluatedOn)
}

/** Keeps a patient's standing in place of the one before, and since when what is open of it has been on the list. */
export function saveStanding(connection: Connection, row: StandingRow): void {
  const { statement } = connection
  const { patientId } = row
  keepOnList(connection, row)
  statement(SAVE).run(...COLUMNS.map((column) => cellOf(row[STANDING_COLUMNS[column]])), patientId)
  for (const table of ['standing_finding', 'standing_open', 'standing_back_to']) statement(`DELETE FROM ${table} WHERE patient_id = ?`).run(patientId)
  for (const rule of new Set(row.rules)) statement('INSERT INTO standing_finding (patient_id, rule) VALUES (?, ?)').run(patientId, rule)
  for (const { key, topic, answeredAt, back, handed } of row.open) statement(INSERT_OPEN).run(patientId, key, topic, answeredAt, back, handed)
  for (const name of row.comesBackTo) statement(INSERT_BACK_TO).run(name, patientId)
}

/** Takes away the kept answer of a record that is read as part of another one. */
export function removeStanding({ statement }: Connection, patientId: string): void {
  statement('DELETE FROM standing WHERE patient_id = ?').run(patientId)
}
