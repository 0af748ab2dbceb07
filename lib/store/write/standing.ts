import type { Cell, Connection } from '../connection.ts'
import { listText, rowsIn } from '../read/lists.ts'
import { STANDING_COLUMNS, type StandingRow } from '../rows/standing.ts'

const COLUMNS = Object.keys(STANDING_COLUMNS) as (keyof typeof STANDING_COLUMNS)[]
// Written before the standing, for what of it is new on the list is kept from before.
const SAVE = `INSERT INTO standing (${COLUMNS.join(', ')}, seen_on)
  VALUES (${COLUMNS.map(() => '?').join(', ')}, (SELECT min(seen_on) FROM on_list WHERE patient_id = ?))
  ON CONFLICT (patient_id) DO UPDATE SET
  ${[...COLUMNS, 'seen_on']
    .filter((column) => column !== 'patient_id')
    .map((column) => `${column} = excluded.${column}`)
    .join(', ')}`

interface BesideTable {
  /** What a row says; the first names it among those of its patient. */
  readonly columns: readonly [string, ...string[]]
  readonly now: (standing: StandingRow) => readonly (readonly Cell[])[]
}

/** What is kept beside a standing, a row for each thing. */
const BESIDE = {
  on_list: { columns: ['topic'], now: ({ open }) => open.map(({ topic }) => [topic]) },
  standing_finding: { columns: ['rule'], now: ({ rules }) => rules.map((rule) => [rule]) },
  standing_open: {
    columns: ['key', 'topic', 'answered_at', 'back', 'handed'],
    now: ({ open }) => open.map(({ key, topic, answeredAt, back, handed }) => [key, topic, answeredAt, back, handed]),
  },
  standing_back_to: { columns: ['name'], now: ({ comesBackTo }) => comesBackTo.map((name) => [name]) },
} as const satisfies Readonly<Record<string, BesideTable>>

type Beside = keyof typeof BESIDE
const ALL_BESIDE = Object.keys(BESIDE) as Beside[]

type Kept = { readonly patientId: string } & Readonly<Record<Beside, string | null>>
type Row = Readonly<Record<string, Cell>>

// All of all patients in one question, since on a server each is a journey, and mostly nothing of it changes.
const KEPT = `SELECT told.value AS patientId, ${ALL_BESIDE.map(
  (beside) =>
    `${listText({ columns: BESIDE[beside].columns, rows: (patientId) => `${beside} WHERE patient_id = ${patientId}` }, 'told.value')} AS ${beside}`,
).join(', ')} FROM json_each(?) AS told`

function besideBefore(beside: Beside, kept: Kept | undefined): readonly (readonly Cell[])[] {
  return rowsIn<Row>(kept?.[beside] ?? null).map((row) => BESIDE[beside].columns.map((column) => row[column] ?? null))
}

function cellOf(value: StandingRow[(typeof STANDING_COLUMNS)[keyof typeof STANDING_COLUMNS]]): Cell {
  return typeof value === 'boolean' ? Number(value) : value
}

/**
 * Keeps standings of as many patients in place of those before, and since when what is open of each has been on the list. What stands beside one and did not
 * change is not written again.
 */
export function saveStandings({ statement, insertMissing }: Connection, standings: readonly StandingRow[]): void {
  if (standings.length === 0) return
  const ids = JSON.stringify(standings.map(({ patientId }) => patientId))
  const kept = new Map(
    statement<Kept>(KEPT)
      .all(ids)
      .map((row) => [row.patientId, row]),
  )
  const keep = (beside: Beside): void => {
    const { columns, now: nowOf } = BESIDE[beside]
    const remove = `DELETE FROM ${beside} WHERE patient_id = ? AND ${columns[0]} IN (SELECT value FROM json_each(?))`
    // When a thing came onto the list is no part of what it says.
    const isList = beside === 'on_list'
    const coming: (readonly Cell[])[] = []
    for (const row of standings) {
      const { patientId, evaluatedOn } = row
      const before = new Map(besideBefore(beside, kept.get(patientId)).map((cells) => [JSON.stringify(cells), cells[0]]))
      const now = new Map(nowOf(row).map((cells) => [JSON.stringify(cells), cells]))
      const gone = [...before].flatMap(([text, named]) => (now.has(text) ? [] : [named]))
      if (gone.length > 0) statement(remove).run(patientId, JSON.stringify(gone))
      for (const [text, cells] of now) if (!before.has(text)) coming.push(isList ? [patientId, ...cells, evaluatedOn] : [patientId, ...cells])
    }
    insertMissing(beside, ['patient_id', ...columns, ...(isList ? ['seen_on'] : [])], coming)
  }
  keep('on_list')
  for (const row of standings) statement(SAVE).run(...COLUMNS.map((column) => cellOf(row[STANDING_COLUMNS[column]])), row.patientId)
  for (const beside of ALL_BESIDE) if (beside !== 'on_list') keep(beside)
}

/** Takes away the kept answer of a record that is read as part of another one. */
export function removeStanding({ statement }: Connection, patientId: string): void {
  statement('DELETE FROM standing WHERE patient_id = ?').run(patientId)
}
