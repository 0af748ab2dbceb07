import Database from 'better-sqlite3'

const columnsOf = (db: Database.Database, table: string): readonly string[] =>
  db
    .prepare<[], { name: string }>(`SELECT name FROM pragma_table_info('${table}')`)
    .all()
    .map(({ name }) => name)

const count = (db: Database.Database, sql: string): number => Number(db.prepare(sql).pluck().get())

/** The rows of one table about the first patients once more, of patients whose numbers take another number along. */
function copyOf(db: Database.Database, table: string): Database.Statement<[{ copy: number }]> {
  const columns = columnsOf(db, table)
  const ofPatient = table === 'patient' ? 'id' : 'patient_id'
  const last = columns.includes('identity') ? count(db, `SELECT max(id) FROM ${table}`) : 0
  const value = (column: string): string => {
    if (column === ofPatient) return `${column} || '-' || @copy`
    // A list in JSON that begins with whose it is (lib/results).
    if (column === 'identity') return `'[' || json_quote(patient_id || '-' || @copy) || substr(identity, length(json_quote(patient_id)) + 2)`
    return column === 'id' ? `id + @copy * ${last}` : column
  }
  return db.prepare(
    `INSERT INTO ${table} (${columns.join(', ')}) SELECT ${columns.map(value).join(', ')} FROM ${table} WHERE ${ofPatient} IN (SELECT id FROM first)`,
  )
}

const OF_PATIENTS = ['patient', 'result', 'course_event'] as const
const KEPT_OF_THEM = ['standing', 'standing_finding', 'standing_open', 'on_list'] as const

/**
 * Repeats the patients of a closed database under other numbers, with their results, course events and what is kept of them, until there are so many: the list need
 * evaluate nobody. `without` leaves out what is kept: then everybody repeated is still to be evaluated. Answers the rows of results there are then.
 */
export function manyHistories(path: string, patients: number, kept: 'with' | 'without' = 'with'): number {
  const db = new Database(path)
  db.pragma('foreign_keys = ON')
  // Nothing here has to survive anything, and the indexes are large.
  db.pragma('synchronous = OFF')
  db.pragma('cache_size = -1000000')
  db.exec('CREATE TEMP TABLE first AS SELECT id FROM patient')
  const first = count(db, 'SELECT count(*) FROM first')
  const copies = [...OF_PATIENTS, ...(kept === 'with' ? KEPT_OF_THEM : [])].map((table) => copyOf(db, table))
  for (let copy = 1; (copy + 1) * first <= patients; copy++) {
    db.transaction(() => {
      for (const statement of copies) statement.run({ copy })
    })()
  }
  const rows = count(db, 'SELECT count(*) FROM result')
  db.close()
  return rows
}
