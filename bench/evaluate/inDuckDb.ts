import { DuckDBInstance } from '@duckdb/node-api'
import { RISES_IN_DUCKDB } from './risesInSql.ts'

/** The same results in a DuckDB file. `ask` answers the rule's patients, in order. */
export interface InDuckDb {
  readonly version: string
  readonly ask: () => Promise<readonly string[]>
  readonly close: () => void
}

/** Reads the two CSV files into a new DuckDB file: every result, by columns. */
export async function inDuckDb(path: string, results: string, lines: string): Promise<InDuckDb> {
  const instance = await DuckDBInstance.create(path)
  const connection = await instance.connect()
  await connection.run(`CREATE TABLE result AS SELECT * FROM read_csv('${results}', header = false,
    columns = {'patient_id': 'VARCHAR', 'analyte': 'VARCHAR', 'day': 'DATE', 'value': 'INTEGER'})`)
  await connection.run(
    `CREATE TABLE line AS SELECT * FROM read_csv('${lines}', header = false, columns = {'patient_id': 'VARCHAR', 'began': 'DATE'})`,
  )
  await connection.run('CHECKPOINT')
  const column = async (question: string) => (await connection.runAndReadAll(question)).getRows().map(([cell]) => String(cell))
  return {
    version: (await column('SELECT version()'))[0] ?? 'unknown',
    ask: () => column(RISES_IN_DUCKDB),
    close() {
      connection.closeSync()
      instance.closeSync()
    },
  }
}
