import type { Connection } from '../connection.ts'

/** A row of a file that was not filed as it stood: held, decided on since or not, or refused. */
export interface ProblemRow {
  readonly line: number
  readonly outcome: 'held' | 'refused'
  readonly reason: string
  readonly sentence: string
  readonly row: string
}

interface Row {
  readonly id: number
  readonly line: number
  readonly reason: string
  readonly sentence: string
  readonly row: string
}

const A_PAGE = 200

// A page at a time and never an open cursor: a reader that stops half way must not keep the log of the database from being cleared.
function* rowsOf({ statement }: Connection, table: 'held_row' | 'refused_row', fileId: number): Generator<Row> {
  // A row that came back from a mapping that was revoked is counted where it was filed.
  const own = table === 'held_row' ? 'returned_by IS NULL AND ' : ''
  const sql = `SELECT id, line, reason, sentence, row FROM ${table} WHERE ${own}file_id = ? AND (line, id) > (?, ?) ORDER BY line, id LIMIT ${A_PAGE}`
  let last: Pick<Row, 'line' | 'id'> = { line: 0, id: 0 }
  for (;;) {
    const page = statement<Row>(sql).all(fileId, last.line, last.id)
    yield* page
    const end = page.at(-1)
    if (end === undefined || page.length < A_PAGE) return
    last = end
  }
}

const told = ({ id: _id, ...row }: Row, outcome: ProblemRow['outcome']): ProblemRow => ({ ...row, outcome })

/** The held and refused rows of a file in its order, however many: few of them are in memory at a time. */
export function* problemRows(connection: Connection, fileId: number): Generator<ProblemRow> {
  const refused = rowsOf(connection, 'refused_row', fileId)
  let waiting = refused.next()
  for (const held of rowsOf(connection, 'held_row', fileId)) {
    for (; waiting.done !== true && waiting.value.line <= held.line; waiting = refused.next()) yield told(waiting.value, 'refused')
    yield told(held, 'held')
  }
  for (; waiting.done !== true; waiting = refused.next()) yield told(waiting.value, 'refused')
}
