import Database from 'better-sqlite3'

const columnsOf = (db: Database.Database, table: string): readonly string[] =>
  db
    .prepare<[], { name: string }>(`SELECT name FROM pragma_table_info('${table}')`)
    .all()
    .map(({ name }) => name)

/** One table again, its rows told apart by a number: columns named here take that number along, the others stay. */
function copyStatement(
  db: Database.Database,
  table: string,
  changed: Readonly<Record<string, string>>,
): Database.Statement<[{ copy: number; most: number }]> {
  const columns = columnsOf(db, table)
  const values = columns.map((column) => changed[column] ?? column)
  return db.prepare(`INSERT INTO ${table} (${columns.join(', ')}) SELECT ${values.join(', ')} FROM ${table} WHERE rowid <= @most AND @copy = @copy`)
}

const count = (db: Database.Database, sql: string): number => Number(db.prepare(sql).pluck().get())

/**
 * Repeats the patients of a closed database under other numbers, with their results and course events, until there are so many; what was taken in once is
 * copied within the file. Standings are made for nobody. Answers the rows of results there are then.
 */
export function manyHistories(path: string, patients: number): number {
  const db = new Database(path)
  db.pragma('foreign_keys = ON')
  const seeded = count(db, 'SELECT count(*) FROM patient')
  const most = {
    patient: count(db, 'SELECT max(rowid) FROM patient'),
    result: count(db, 'SELECT max(id) FROM result'),
    event: count(db, 'SELECT max(id) FROM course_event'),
  }
  const of = (column: string) => `${column} || '-' || @copy`
  const copies = [
    [copyStatement(db, 'patient', { id: of('id') }), most.patient],
    [copyStatement(db, 'result', { id: `id + @copy * ${most.result}`, patient_id: of('patient_id'), identity: of('identity') }), most.result],
    [copyStatement(db, 'course_event', { id: `id + @copy * ${most.event}`, patient_id: of('patient_id'), identity: of('identity') }), most.event],
  ] as const
  for (let copy = 1; (copy + 1) * seeded <= patients; copy++) {
    db.transaction(() => {
      for (const [statement, last] of copies) statement.run({ copy, most: last })
    })()
  }
  const rows = count(db, 'SELECT count(*) FROM result')
  db.close()
  return rows
}
