import { spawnSync } from 'node:child_process'
import { askedOf } from './serverDatabase.ts'

const tableOf = (header: string): readonly string[] => {
  const columns = header.split(',').map((column) => `${column} text NOT NULL`)
  return [
    'DROP TABLE IF EXISTS result',
    `CREATE TABLE result (line bigint GENERATED ALWAYS AS IDENTITY, ${columns.join(', ')})`,
    'CREATE INDEX result_patient ON result (patient_id, code)',
    'CREATE INDEX result_identity ON result (accession, code, collected_at)',
  ]
}

/** Makes an empty indexed table for a CSV file with this header, numbering its rows as they come. */
export async function prepareCopy(url: string, header: string): Promise<void> {
  await askedOf(url, ...tableOf(header))
}

/** Copies the file into that table with psql's own `\copy`, committed at once, and checks the number of rows. */
export function copyCsv(url: string, csv: string, header: string, rows: number): void {
  const said = spawnSync(
    'psql',
    [
      '-X',
      '-v',
      'ON_ERROR_STOP=1',
      '-d',
      url,
      '-c',
      `\\copy result (${header}) FROM '${csv}' WITH (FORMAT csv, HEADER true, NULL 'no text is this')`,
    ],
    {
      encoding: 'utf8',
    },
  )
  if (said.status !== 0) throw new Error(`psql failed: ${said.stderr}`)
  if (said.stdout.trim() !== `COPY ${rows}`) throw new Error(`psql copied ${said.stdout.trim()}, not ${rows} rows.`)
}
