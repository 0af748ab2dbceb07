import { spawnSync } from 'node:child_process'
import { closeSync, openSync } from 'node:fs'

/** Everything DuckDB needs of a result: whose, what, when, and hundredths of the kept unit; empty where there is no number. */
const RESULTS = `SELECT patient_id, analyte, collected_on, CASE WHEN kind = 'number' THEN CAST(round(kept_low * 100) AS INTEGER) END
  FROM result WHERE current = 1 AND status NOT IN ('cancelled', 'entered-in-error');`
const LINES = "SELECT patient_id, max(on_day) FROM course_event WHERE current = 1 AND event = 'line-start' GROUP BY patient_id;"

/** Writes the answer to a question as CSV, by the sqlite3 shell. */
function asCsv(database: string, question: string, to: string): void {
  const out = openSync(to, 'w')
  const done = spawnSync('sqlite3', ['-bail', '-csv', database, question], { stdio: ['ignore', out, 'pipe'], encoding: 'utf8' })
  closeSync(out)
  if (done.status !== 0) throw new Error(`The sqlite3 shell failed: ${done.stderr}`)
}

/** Every result that counts, of every analyte, and every first day of a current line, as two CSV files without a header. */
export function exportedTo(database: string, results: string, lines: string): void {
  asCsv(database, RESULTS, results)
  asCsv(database, LINES, lines)
}
