import Database from 'better-sqlite3'

/** What a row's columns can hold, as the driver gives and takes them. */
export type Cell = string | number | null | Buffer

/** One prepared statement: `Row` is the shape of its rows, column names as in the table. */
export type Prepared<Row = unknown> = Database.Statement<(Cell | readonly Cell[])[], Row>

const columnsOf = new WeakMap<Prepared, readonly string[]>()

/** All rows of a statement that gives many wide ones: the driver hands them over as lists faster than as objects. */
export function wideRows<Row>(statement: Prepared<Row>, ...cells: Cell[]): Row[] {
  const columns = columnsOf.get(statement) ?? statement.columns().map(({ name }) => name)
  columnsOf.set(statement, columns)
  return (statement.raw(true).all(...cells) as readonly Cell[][]).map((values) => {
    const row: Record<string, Cell> = {}
    for (let at = 0; at < columns.length; at++) row[columns[at] ?? ''] = values[at] ?? null
    return row as Row
  })
}

/** One connection of the driver, with every statement prepared once. */
export interface Connection {
  readonly db: Database.Database
  /** The statement of this text, prepared on first use. */
  statement<Row = unknown>(sql: string): Prepared<Row>
}

/**
 * Opens a connection. `waitMs` is how long SQLite itself waits for a lock, during which the whole thread stands still.
 * A reading connection refuses every write.
 */
export function connect(path: string, options: { readonly reading: boolean; readonly waitMs: number }): Connection {
  const db = new Database(path, { readonly: options.reading, fileMustExist: true, timeout: options.waitMs })
  const prepared = new Map<string, Prepared>()
  return {
    db,
    statement<Row>(sql: string): Prepared<Row> {
      const known = prepared.get(sql)
      if (known !== undefined) return known as Prepared<Row>
      const fresh = db.prepare<(Cell | readonly Cell[])[]>(sql) as Prepared
      prepared.set(sql, fresh)
      return fresh as Prepared<Row>
    },
  }
}
