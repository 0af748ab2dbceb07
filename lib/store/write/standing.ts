import type { Cell, Connection } from '../connection.ts'
import type { OpenFinding } from '../rows/openFinding.ts'
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

/** What is kept beside a standing, a row for each thing: `name` says which one it is of its patient. */
type Beside = 'on_list' | 'standing_finding' | 'standing_open' | 'standing_back_to'
type Kept = OpenFinding & { readonly beside: Beside; readonly name: string }

const NOTHING_ELSE = 'NULL, NULL, NULL, NULL'
// All in one question, since on a server each is a journey, and mostly nothing of it changes.
const KEPT = `SELECT 'standing_open' AS beside, key AS name, topic, answered_at AS answeredAt, back, handed FROM standing_open WHERE patient_id = ?
  UNION ALL SELECT 'on_list', topic, ${NOTHING_ELSE} FROM on_list WHERE patient_id = ?
  UNION ALL SELECT 'standing_finding', rule, ${NOTHING_ELSE} FROM standing_finding WHERE patient_id = ?
  UNION ALL SELECT 'standing_back_to', name, ${NOTHING_ELSE} FROM standing_back_to WHERE patient_id = ?`
const NAME_OF: Readonly<Record<Beside, string>> = { on_list: 'topic', standing_finding: 'rule', standing_open: 'key', standing_back_to: 'name' }
const INSERT: Readonly<Record<Beside, string>> = {
  on_list: insertSql('on_list', ['patient_id', 'topic', 'seen_on']),
  standing_finding: insertSql('standing_finding', ['patient_id', 'rule']),
  standing_open: insertSql('standing_open', ['patient_id', 'key', 'topic', 'answered_at', 'back', 'handed']),
  standing_back_to: insertSql('standing_back_to', ['patient_id', 'name']),
}

function cellOf(value: StandingRow[(typeof STANDING_COLUMNS)[keyof typeof STANDING_COLUMNS]]): Cell {
  return typeof value === 'boolean' ? Number(value) : value
}

/** The same thing, whichever of its columns say so. */
function textOf({ topic, answeredAt, back, handed }: Partial<Kept>, name: string): string {
  return JSON.stringify([name, topic ?? null, answeredAt ?? null, back ?? null, handed ?? null])
}

/** Keeps a patient's standing in place of the one before, and since when what is open of it has been on the list. What stands beside it and did not change is not written again. */
export function saveStanding(connection: Connection, row: StandingRow): void {
  const { statement } = connection
  const { patientId, evaluatedOn } = row
  const kept = statement<Kept>(KEPT).all(patientId, patientId, patientId, patientId)

  const keep = (beside: Beside, now: readonly { readonly text: string; readonly cells: readonly Cell[] }[]): void => {
    const before = new Map(kept.filter((one) => one.beside === beside).map((one) => [textOf(one, one.name), one.name]))
    const after = new Map(now.map(({ text, cells }) => [text, cells]))
    const gone = [...before].filter(([text]) => !after.has(text)).map(([, name]) => name)
    const remove = `DELETE FROM ${beside} WHERE patient_id = ? AND ${NAME_OF[beside]} IN (SELECT value FROM json_each(?))`
    if (gone.length > 0) statement(remove).run(patientId, JSON.stringify(gone))
    for (const [text, cells] of after) if (!before.has(text)) statement(INSERT[beside]).run(patientId, ...cells)
  }
  const named = (names: readonly string[], ...more: readonly Cell[]) => names.map((name) => ({ text: textOf({}, name), cells: [name, ...more] }))

  keep(
    'on_list',
    named(
      row.open.map(({ topic }) => topic),
      evaluatedOn,
    ),
  )
  statement(SAVE).run(...COLUMNS.map((column) => cellOf(row[STANDING_COLUMNS[column]])), patientId)
  keep('standing_finding', named(row.rules))
  const open = row.open.map((one) => ({ text: textOf(one, one.key), cells: [one.key, one.topic, one.answeredAt, one.back, one.handed] }))
  keep('standing_open', open)
  keep('standing_back_to', named(row.comesBackTo))
}

/** Takes away the kept answer of a record that is read as part of another one. */
export function removeStanding({ statement }: Connection, patientId: string): void {
  statement('DELETE FROM standing WHERE patient_id = ?').run(patientId)
}
