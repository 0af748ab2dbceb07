import { spawnSync } from 'node:child_process'
import { placeFor } from './databases.ts'
import type { Engine } from './engine/engine.ts'
import { copyCsv, prepareCopy } from './importCopy.ts'
import { importCsv, prepareTable } from './importShell.ts'
import { shellVersion } from './machine.ts'
import { sameAsShell } from './sameAsShell.ts'
import { emptyDatabase } from './serverDatabase.ts'

/** The engine's own way to bring a CSV file into a table, beside which intake is measured. */
export interface Importer {
  readonly says: string
  /** An empty indexed table, whatever was there. */
  readonly prepare: () => Promise<void>
  /** Brings the file in, and checks the number of rows. */
  readonly bring: () => void
  /** Throws unless every row filed of the last file of a database of ours says what was brought in, and there are so many. */
  readonly requireSame: (ours: string, filed: number) => Promise<void>
}

/** Of a file with this header and so many rows. */
export interface Brought {
  readonly csv: string
  readonly header: string
  readonly rows: number
}

/** Whether this machine has what the engine's importer needs: the sqlite3 shell, or psql. */
export function canImport({ name }: Engine): boolean {
  return name === 'sqlite' ? shellVersion() !== null : spawnSync('psql', ['--version']).status === 0
}

function byShell({ csv, header, rows }: Brought): Importer {
  const table = placeFor('intake-shell.db')
  return {
    says: "the sqlite3 shell's .import of the same file into an indexed STRICT table (WAL, synchronous FULL)",
    prepare: async () => prepareTable(table, header),
    bring: () => importCsv(table, csv, rows),
    requireSame: async (ours, filed) => sameAsShell(ours.slice('file:'.length), table, filed),
  }
}

const FILED = `SELECT line, patient_id, code, value_text AS value, unit_text AS unit, coalesce(accession, '') AS accession FROM result
  WHERE file_id = (SELECT max(id) FROM intake_file) ORDER BY line`
const COPIED = 'SELECT line, patient_id, code, value, unit, accession FROM result ORDER BY line'

type Row = Readonly<Record<'line' | 'patient_id' | 'code' | 'value' | 'unit' | 'accession', string | number>>

async function byCopy({ csv, header, rows }: Brought, engine: Engine, server: string): Promise<Importer> {
  const url = await emptyDatabase(server)
  const asked = async (of: string, sql: string): Promise<readonly Row[]> => {
    const plain = await engine.plain(of)
    const found = await plain.all<Row>(sql)
    await plain.close()
    return found
  }
  return {
    says: "psql's \\copy of the same file into an indexed table",
    prepare: () => prepareCopy(url, header),
    bring: () => copyCsv(url, csv, header, rows),
    async requireSame(ours, filed) {
      const [theirs, mine] = [await asked(url, COPIED), await asked(ours, FILED)]
      // The first line of the file is its header.
      const other = mine.find((row) => {
        const copied = theirs[Number(row.line) - 2]
        return (
          copied === undefined || (['patient_id', 'code', 'value', 'unit', 'accession'] as const).some((column) => row[column] !== copied[column])
        )
      })
      if (mine.length !== filed || other !== undefined)
        throw new Error(`Of ${filed} rows filed ${mine.length} stand in the database; the first that says something else: line ${other?.line}.`)
    },
  }
}

/** The importer of the engine that is measured. */
export async function importerOf(engine: Engine, brought: Brought): Promise<Importer> {
  if (engine.server === null) return byShell(brought)
  return byCopy(brought, engine, engine.server)
}
