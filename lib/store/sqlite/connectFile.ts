import Database from 'better-sqlite3'
import type { Cell, Prepared, WritingConnection } from '../connection.ts'
import { insertSql } from '../write/insert.ts'
import { fileFaults } from './fileFaults.ts'

type Statement = Database.Statement<(Cell | readonly Cell[])[], unknown>

/** A connection to a file, with the driver's own for what is asked of SQLite alone. */
export interface FileConnection extends WritingConnection {
  readonly db: Database.Database
}

const columnsOf = new WeakMap<Statement, readonly string[]>()

// The driver hands many wide rows over as lists faster than as objects.
function wide<Row>(statement: Statement, cells: readonly Cell[]): Row[] {
  const columns = columnsOf.get(statement) ?? statement.columns().map(({ name }) => name)
  columnsOf.set(statement, columns)
  return (statement.raw(true).all(...cells) as readonly Cell[][]).map((values) => {
    const row: Record<string, Cell> = {}
    for (let at = 0; at < columns.length; at++) row[columns[at] ?? ''] = values[at] ?? null
    return row as Row
  })
}

/**
 * Opens a connection to a file. `waitMs` is how long SQLite itself waits for a lock, during which the whole thread stands still.
 * A reading connection refuses every write.
 */
export function connectFile(path: string, options: { readonly reading: boolean; readonly waitMs: number }): FileConnection {
  const db = new Database(path, { readonly: options.reading, fileMustExist: true, timeout: options.waitMs })
  const prepared = new Map<string, Statement>()
  const statement = (sql: string): Statement => {
    const known = prepared.get(sql)
    if (known !== undefined) return known
    const fresh = db.prepare<(Cell | readonly Cell[])[]>(sql)
    prepared.set(sql, fresh)
    return fresh
  }
  // Its rows come as lists, so it is no statement anybody else asks.
  const listed = new Map<string, Statement>()
  return {
    db,
    statement: <Row>(sql: string) => statement(sql) as Prepared<Row>,
    wideRows<Row>(sql: string, ...cells: readonly Cell[]) {
      const own = listed.get(sql) ?? db.prepare<(Cell | readonly Cell[])[]>(sql)
      listed.set(sql, own)
      return wide<Row>(own, cells)
    },
    // A statement that is being stepped through cannot run twice at once, so this one is prepared afresh.
    each: <Row>(sql: string) => db.prepare<[], Row>(sql).iterate(),
    insert: (sql, ...cells) => Number(statement(sql).run(...cells).lastInsertRowid),
    insertAll(table, columns, rows) {
      const insert = statement(insertSql(table, columns))
      return rows.map((cells) => Number(insert.run(...cells).lastInsertRowid))
    },
    insertMissing(table, columns, rows) {
      const insert = statement(`${insertSql(table, columns)} ON CONFLICT DO NOTHING`)
      for (const cells of rows) insert.run(...cells)
    },
    exec: (sql) => void db.exec(sql),
    snapshot: (read) => (db.inTransaction ? read() : db.transaction(read).deferred()),
    faults: () => fileFaults(db),
    begin: () => void db.exec('BEGIN IMMEDIATE'),
    commit: () => void db.exec('COMMIT'),
    rollback() {
      // SQLite may have ended the transaction itself, on a full disk for one.
      if (db.inTransaction) db.exec('ROLLBACK')
    },
    close: () => void db.close(),
  }
}
