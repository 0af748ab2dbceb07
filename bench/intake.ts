import { writeFileSync } from 'node:fs'
import { clinicDay, type IncomingFile } from '../lib/usecases/index.ts'
import { inventCohort } from '../seed/index.ts'
import { copyDatabase, placeFor, takeIn, withDatabase } from './databases.ts'
import { importCsv, prepareTable } from './importShell.ts'
import { type Figure, figure, rounds, timed } from './measure.ts'
import { watched } from './watched.ts'

const SECONDS_NOT_MINUTES_MS = 60_000
/** Beyond this a person notices that a page waits (ours). */
const PAGE_WAITS_MS = 500
const PATIENTS = 400

/** The files that come before results, and of the results the first `rows` as one file. */
export function material(
  rows: number,
  patients = PATIENTS,
): { readonly before: readonly IncomingFile[]; readonly results: IncomingFile; readonly header: string } {
  for (let years = 8; years <= 40; years += 4) {
    const { files } = inventCohort({ patients, years, seed: 20_261_125, endsOn: clinicDay(new Date()) })
    const isResults = ({ name }: IncomingFile) => name.startsWith('results')
    const lines = files.filter(isResults).map(({ bytes }) => Buffer.from(bytes).toString('utf8').trimEnd().split('\r\n'))
    const header = lines[0]?.[0] ?? ''
    const all = lines.flatMap((file) => file.slice(1))
    if (all.length < rows) continue
    const bytes = Buffer.from(`${[header, ...all.slice(0, rows)].join('\r\n')}\r\n`)
    return { before: files.filter((file) => !isResults(file)), results: { name: 'results.csv', bytes }, header }
  }
  throw new RangeError(`${patients} patients have fewer than ${rows} results in 40 years.`)
}

/**
 * Intake of one results file of `rows` rows into a database that knows its patients and courses: read, interpreted, filed, everybody evaluated,
 * logged, committed. Beside it the sqlite3 shell's `.import` of the same file into an indexed STRICT table, which does none of that but keep the text.
 */
export async function intakeFigures(rows: number, times: number): Promise<readonly Figure[]> {
  const { before, results, header } = material(rows)
  const [known, ours, theirs, csv] = ['known.db', 'ours.db', 'shell.db', 'results.csv'].map(placeFor) as [string, string, string, string]
  writeFileSync(csv, results.bytes)
  await withDatabase(known, (call) => takeIn(call, before))
  const spreads = await rounds(times, async () => {
    copyDatabase(known, ours)
    prepareTable(theirs, header)
    const shell = await timed(() => importCsv(theirs, csv, rows))
    return withDatabase(ours, async (plain) => {
      const { call, watch } = watched(plain)
      let [read, filed] = [0, 0]
      const whole = await timed(async () => {
        for (const report of await takeIn(call, [results])) {
          read += report.rows
          filed += report.filed + report.corrected
        }
      })
      if (read !== rows) throw new Error(`Intake read ${read} rows of ${rows}.`)
      if (filed < rows * 0.99) throw new Error(`Intake filed ${filed} rows of ${rows}: that is not the work that was to be measured.`)
      return { whole, locked: watch.longestLockMs, shell }
    })
  })
  const beside = "the sqlite3 shell's .import of the same file into an indexed STRICT table (WAL, synchronous FULL)"
  const count = rows.toLocaleString('en')
  return [
    figure(
      { name: `intake of ${count} results, all of it`, aim: 'seconds, not minutes: below 60 s', beside },
      spreads.whole,
      spreads.shell,
      (ms) => ms < SECONDS_NOT_MINUTES_MS,
    ),
    figure(
      { name: `intake of ${count} results, the longest a page waits for it to write`, aim: 'below 500 ms (ours)', beside },
      spreads.locked,
      spreads.shell,
      (ms) => ms < PAGE_WAITS_MS,
    ),
  ]
}
