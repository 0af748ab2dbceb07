import { writeFileSync } from 'node:fs'
import { copyDatabase, placeFor, takeIn, withDatabase } from './databases.ts'
import { importCsv, prepareTable } from './importShell.ts'
import { material } from './intake.ts'
import { apart } from './large.ts'
import { type Figure, figure, rounds, timed } from './measure.ts'
import { sameAsShell } from './sameAsShell.ts'

const ROWS_A_PATIENT = 250
const TIMES_THE_SHELL = 3

/** The most memory a process took for so many rows, MiB. */
export interface Peak {
  readonly rows: number
  readonly mib: number
}

/** The work of one round: a file of results, and a database that knows its patients and courses. */
async function prepared(rows: number): Promise<{ readonly csv: string; readonly known: string; readonly header: string; readonly patients: number }> {
  const patients = Math.ceil(rows / ROWS_A_PATIENT)
  const [csv, known] = [placeFor(`intake-${rows}.csv`), placeFor(`intake-${rows}-known.db`)]
  const { before, results, header } = material(rows, patients)
  writeFileSync(csv, results.bytes)
  await withDatabase(known, (call) => takeIn(call, before))
  return { csv, known, header, patients }
}

/** What taking a tenth of the rows takes of memory: nothing that grows with the file may stand between the two. */
export async function intakePeak(rows: number): Promise<Peak> {
  const { csv, known } = await prepared(rows)
  const taken = await apart({ csv, database: known })
  return { rows, mib: taken.peakMiB }
}

/**
 * One results file taken in by a process of its own, round after round into a database that knows its patients and courses: read, interpreted, matched, filed,
 * everybody evaluated, logged, committed. Beside it the sqlite3 shell's `.import` of the same file. Every row filed must say what the shell imported.
 */
export async function intakeFigure(rows: number, times: number): Promise<{ readonly figure: Figure; readonly peak: Peak }> {
  const { csv, known, header, patients } = await prepared(rows)
  const [ours, theirs] = [placeFor('intake-ours.db'), placeFor('intake-shell.db')]
  let checked = false
  const spreads = await rounds(times, async () => {
    copyDatabase(known, ours)
    prepareTable(theirs, header)
    const shell = await timed(() => importCsv(theirs, csv, rows))
    const taken = await apart({ csv, database: ours })
    if (taken.rows !== rows || taken.filed < rows * 0.99) throw new Error(`Intake read ${taken.rows} rows of ${rows} and filed ${taken.filed}.`)
    if (!checked) sameAsShell(ours, theirs, taken.filed)
    checked = true
    return { ours: taken.wallMs, shell, processor: taken.processorMs, locked: taken.longestLockMs, peak: taken.peakMiB }
  })
  const about = {
    name: 'intake',
    aim: `at most ${TIMES_THE_SHELL} times .import`,
    beside: "the sqlite3 shell's .import of the same file into an indexed STRICT table (WAL, synchronous FULL)",
    more: {
      ...{ rows, patients },
      processorMs: spreads.processor.median,
      microsecondsARow: (spreads.ours.median * 1000) / rows,
      longestLockMs: spreads.locked.most,
      peakMiB: spreads.peak.most,
    },
  }
  return {
    figure: figure(about, spreads.ours, spreads.shell, (mine, shell) => mine <= TIMES_THE_SHELL * shell),
    peak: { rows, mib: spreads.peak.most },
  }
}
