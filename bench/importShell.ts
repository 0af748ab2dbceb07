import { spawnSync } from 'node:child_process'
import { rmSync } from 'node:fs'

/** Text columns as they stand in the file, and the indexes a clinic would ask through: by patient, and by what makes a result the same result. */
const SCHEMA = `
PRAGMA journal_mode = WAL;
PRAGMA synchronous = FULL;
CREATE TABLE result (
  COLUMNS
) STRICT;
CREATE INDEX result_patient ON result (patient_id, code);
CREATE INDEX result_identity ON result (accession, code, collected_at);`

function shell(database: string, input: string): string {
  const done = spawnSync('sqlite3', ['-bail', database], { input, encoding: 'utf8' })
  if (done.status !== 0 || done.stderr !== '') throw new Error(`The sqlite3 shell failed: ${done.stderr}`)
  return done.stdout
}

/** Makes an empty indexed STRICT table for a CSV file with this header. */
export function prepareTable(database: string, header: string): void {
  for (const suffix of ['', '-wal', '-shm']) rmSync(`${database}${suffix}`, { force: true })
  const columns = header.split(',').map((column) => `${column} TEXT NOT NULL`)
  shell(database, SCHEMA.replace('COLUMNS', columns.join(',\n  ')))
}

/** Imports the file into that table with the shell's own `.import`, in WAL mode with synchronous FULL, and checks the number of rows. */
export function importCsv(database: string, csv: string, rows: number): void {
  const answer = shell(database, `PRAGMA synchronous = FULL;\n.import --csv --skip 1 '${csv}' result\nSELECT count(*) FROM result;\n`)
  if (Number(answer.trim()) !== rows) throw new Error(`The shell imported ${answer.trim()} rows of ${rows}.`)
}
