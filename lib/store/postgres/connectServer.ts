import type { Cell, Prepared, WritingConnection } from '../connection.ts'
import { ask, ServerFault, tell } from './ask.ts'
import type { Answered, Asked } from './asked.ts'
import { insertOfJson, rowAsJson } from './rowsAsJson.ts'
import { serverFaults } from './serverFaults.ts'
import { sqlForServer } from './sqlForServer.ts'

type Rows = Extract<Answered, { kind: 'rows' }>
type Question = Extract<Asked, { kind: 'query' | 'exec' }>

// JSON is sent as text, times are compared as texts: nothing of the server's own place and language may come in.
const ALWAYS = `SET search_path = public; SET TimeZone = 'UTC'; SET DateStyle = 'ISO'; SET extra_float_digits = 1; SET standard_conforming_strings = on;
  SET client_min_messages = warning; SET idle_in_transaction_session_timeout = 0; SET statement_timeout = 0;`
// Each statement is planned once, as a file's is: planned anew for every patient, one whose rows may lie in any partition took longer to plan than to run.
// And none is compiled before it runs: what counts over everybody took half of its time for that, each time.
const PLANNED_ONCE = `SET plan_cache_mode = force_generic_plan; SET jit = off;`
const READING = `SET SESSION CHARACTERISTICS AS TRANSACTION ISOLATION LEVEL REPEATABLE READ READ ONLY;`
const WRITING = `SET SESSION CHARACTERISTICS AS TRANSACTION ISOLATION LEVEL READ COMMITTED READ WRITE;`

// Of this program alone: whoever writes to this database holds it.
const WRITE_TURN = 'SELECT pg_try_advisory_xact_lock(7210413) AS mine, pg_current_xact_id()::text AS number'
const AT_A_TIME = 1_000
// Rows in one text: a part of a file is no more, but for a patient who has more in one file.
const ROWS_AT_ONCE = 2_000

// A plan made while a table was small reads all of it, and stays after it has grown: a server notices by itself only what it has looked through (autovacuum).
// So plans are thrown away now and then, by how much was asked and not by the clock: who asks little would plan anew each time.
const REPLAN_AFTER_FIRST = 64
const REPLAN_AFTER_AT_MOST = 65_536

let opened = 0

function cellsOf(values: readonly (Cell | Uint8Array)[]): Cell[] {
  return values.map((value) => (value instanceof Uint8Array ? Buffer.from(value.buffer, value.byteOffset, value.byteLength) : value))
}

function objectsOf<Row>({ columns, rows }: Pick<Rows, 'columns' | 'rows'>): Row[] {
  return rows.map((values) => {
    const cells = cellsOf(values)
    const row: Record<string, Cell> = {}
    for (let at = 0; at < columns.length; at++) row[columns[at] ?? ''] = cells[at] ?? null
    return row as Row
  })
}

/** Opens a connection to a server. A reading one refuses every write, and sees one moment in each statement or `snapshot`. Throws ServerFault. */
export function connectServer(url: string, { reading }: { readonly reading: boolean }): WritingConnection {
  const id = ++opened
  const settings = ALWAYS + PLANNED_ONCE + (reading ? READING : WRITING)
  const prepared = new Map<string, Prepared>()
  // BEGIN goes out with the first question.
  let transaction: 'none' | 'to-begin' | 'begun' = 'none'
  let isLost = false
  let cursors = 0
  let number = ''
  let askedSincePlanned = 0
  let replanAfter = REPLAN_AFTER_FIRST

  ask({ kind: 'open', id, url, settings })

  function planAnew(): void {
    if (++askedSincePlanned < replanAfter) return
    askedSincePlanned = 0
    replanAfter = Math.min(replanAfter * 2, REPLAN_AFTER_AT_MOST)
    tell({ kind: 'exec', id, sql: 'DISCARD PLANS' })
  }

  /** Asks, on a connection made anew where it was lost before, unless it had begun something: that is undone, and whoever began it has to hear of it. */
  function asked(question: Question): Rows {
    if (isLost && transaction !== 'begun') {
      ask({ kind: 'open', id, url, settings })
      isLost = false
    }
    planAnew()
    const begin = transaction === 'to-begin'
    try {
      return ask({ ...question, begin })
    } catch (error) {
      if (error instanceof ServerFault && error.lost) isLost = true
      throw error
    } finally {
      if (begin && !isLost) transaction = 'begun'
    }
  }

  /** The same, twice where that changes nothing: that a connection was lost shows only when it is used. */
  function askedAgain(question: Question): Rows {
    const mayRepeat = transaction === 'to-begin' || (reading && transaction === 'none')
    try {
      return asked(question)
    } catch (error) {
      if (!mayRepeat || !isLost) throw error
      return asked(question)
    }
  }

  const exec = (sql: string): void => void askedAgain({ kind: 'exec', id, sql })
  const query = (name: string, sql: string, cells: readonly Cell[]): Rows => askedAgain({ kind: 'query', id, name, sql, cells })

  function statement<Row>(sql: string): Prepared<Row> {
    const known = prepared.get(sql)
    if (known !== undefined) return known as Prepared<Row>
    const name = `s${prepared.size + 1}`
    const forServer = sqlForServer(sql)
    const fresh: Prepared<Row> = {
      get: (...cells) => objectsOf<Row>(query(name, forServer, cells))[0],
      all: (...cells) => objectsOf<Row>(query(name, forServer, cells)),
      run: (...cells) => ({ changes: query(name, forServer, cells).changes }),
    }
    prepared.set(sql, fresh as Prepared)
    return fresh
  }

  function insertEach(sql: string, columns: readonly string[], rows: readonly (readonly Cell[])[]): { readonly id: number }[] {
    const given: { readonly id: number }[] = []
    for (let from = 0; from < rows.length; from += ROWS_AT_ONCE) {
      const texts = rows.slice(from, from + ROWS_AT_ONCE).map((cells) => rowAsJson(columns, cells))
      for (const row of statement<{ id: number }>(sql).all(`[${texts.join(',')}]`)) given.push(row)
    }
    return given
  }

  /** Whether there is something to undo: the server has undone what a lost connection had begun. */
  function endedUnkept(): boolean {
    const isBegun = transaction === 'begun'
    transaction = 'none'
    return isBegun && !isLost
  }

  function rollback(): void {
    if (endedUnkept()) exec('ROLLBACK')
  }

  function* each<Row>(sql: string): Generator<Row> {
    const cursor = `each_${++cursors}`
    exec(`DECLARE ${cursor} NO SCROLL CURSOR FOR ${sqlForServer(sql)}`)
    for (;;) {
      const rows = objectsOf<Row>(query('', `FETCH ${AT_A_TIME} FROM ${cursor}`, []))
      yield* rows
      if (rows.length < AT_A_TIME) break
    }
    exec(`CLOSE ${cursor}`)
  }

  /** Whether a transaction was kept of which the connection was lost before the server answered; null where that cannot be told. */
  function wasKept(): boolean | null {
    try {
      const sql = 'SELECT pg_xact_status($1::text::xid8) AS status'
      const [row] = objectsOf<{ status: string | null }>(query('', sql, [number]))
      return row?.status === 'committed' ? true : row?.status === 'aborted' ? false : null
    } catch {
      return null
    }
  }

  return {
    statement,
    wideRows: <Row>(sql: string, ...cells: readonly Cell[]) => statement<Row>(sql).all(...cells),
    each,
    insert: (sql, ...cells) => statement<{ id: number }>(`${sql} RETURNING id`).get(...cells)?.id ?? 0,
    insertAll: (table, columns, rows) => insertEach(`${insertOfJson(table, columns)} RETURNING id`, columns, rows).map(({ id }) => id),
    insertMissing: (table, columns, rows) => void insertEach(`${insertOfJson(table, columns)} ON CONFLICT DO NOTHING`, columns, rows),
    exec,
    snapshot(read) {
      if (transaction !== 'none') return read()
      transaction = 'to-begin'
      try {
        return read()
      } finally {
        // Nothing was written: whoever read need not wait until the server has let go of the moment they saw.
        if (endedUnkept()) tell({ kind: 'exec', id, sql: 'ROLLBACK' })
      }
    },
    faults: () => serverFaults(statement),
    begin() {
      transaction = 'to-begin'
      try {
        const turn = statement<{ mine: number; number: string }>(WRITE_TURN).get()
        if (turn?.mine !== 1) throw new ServerFault('Another program writes.', '55P03', false)
        number = turn.number
      } catch (error) {
        rollback()
        throw error
      }
    },
    commit() {
      try {
        exec('COMMIT')
        transaction = 'none'
      } catch (error) {
        transaction = 'none'
        if (!(error instanceof ServerFault) || !error.lost) throw error
        const kept = wasKept()
        if (kept === true) return
        if (kept === false) throw error
        throw new ServerFault(
          'The connection to the database was lost at the moment of keeping this, and whether it was kept cannot be told. Look before doing it again.',
          error.code,
          true,
        )
      }
    },
    rollback,
    close: () => void ask({ kind: 'close', id }),
  }
}
