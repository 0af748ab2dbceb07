import { LABORATORIES } from '../follow/laboratoryOf.ts'
import type { Laboratory } from '../laboratories/laboratory.ts'
import { type CsvFile, csvFile } from './csvFile.ts'
import { RESULT_COLUMNS, type ResultRow } from './resultRow.ts'
import { heldRows, refusedRows, strangerRow } from './wrongRows.ts'

/** A laboratory's file is closed, and the next begun, once it holds this many rows: intake takes a file in one piece. */
const ROWS_A_FILE = 200_000

export interface ResultFiles {
  /** Adds one patient's samples. `held`: with rows that must be held; `wrong`: with rows that are refused, or about a stranger. */
  add(samples: readonly { laboratory: Laboratory; rows: readonly ResultRow[] }[], with_: { held: boolean; wrong: boolean }): void
  files(): { name: string; bytes: Uint8Array }[]
}

/** Results files, one after another for each laboratory; one patient's rows of a laboratory stay together in one file. */
export function resultFiles(): ResultFiles {
  const closed: { name: string; bytes: Uint8Array }[] = []
  const shelves = LABORATORIES.map((laboratory) => ({ laboratory, file: csvFile(RESULT_COLUMNS), number: 1 }))
  const closeFile = (shelf: { laboratory: Laboratory; file: CsvFile; number: number }) => {
    const word = shelf.laboratory.name.split(' ')[0]?.toLowerCase() ?? ''
    closed.push({ name: `results-${word}-${shelf.number}.csv`, bytes: shelf.file.bytes() })
    shelf.file = csvFile(RESULT_COLUMNS)
    shelf.number += 1
  }
  return {
    add(samples, { held, wrong }) {
      const last = samples.at(-1)
      const good = last?.rows[0]
      for (const shelf of shelves) {
        const rows = samples.filter((sample) => sample.laboratory === shelf.laboratory).flatMap((sample) => sample.rows)
        if (shelf.laboratory === last?.laboratory && good !== undefined) {
          if (held) rows.push(...heldRows(good))
          // The first row once more: the same result again must change nothing.
          if (wrong) rows.push(good, strangerRow(good), ...refusedRows(good))
        }
        shelf.file.add(rows)
        if (shelf.file.rows >= ROWS_A_FILE) closeFile(shelf)
      }
    },
    files() {
      for (const shelf of shelves) if (shelf.file.rows > 0) closeFile(shelf)
      return closed
    },
  }
}
