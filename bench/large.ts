import { fork } from 'node:child_process'
import { writeFileSync } from 'node:fs'
import { setTimeout as pause } from 'node:timers/promises'
import { fileURLToPath } from 'node:url'
import { APART_ARGUMENTS, type Call, showList } from '../lib/usecases/index.ts'
import { copyDatabase, placeFor, takeIn, withDatabase } from './databases.ts'
import { importCsv, prepareTable } from './importShell.ts'
import { material } from './intake.ts'
import { type Spread, spreadOf, timed } from './measure.ts'
import { FIRST_PAGE } from './reviewList.ts'
import type { Taken, Wanted } from './takeApart.ts'

const ROWS_A_PATIENT = 250
const BETWEEN_PAGES_MS = 200
const PAGES_AT_REST = 20

/** Milliseconds from asking for the first page of the list to having it, its entry in the log written, while a file came in. */
export interface PageTimes extends Spread {
  readonly pages: number
  readonly ninetyFive: number
}

export interface LargeMeasured {
  readonly patients: number
  readonly taken: Taken
  readonly shellMs: number
  readonly list: PageTimes
  /** The same page before the file came in. */
  readonly atRest: Spread
}

/** Takes a file in by a process of its own, begun as the one that takes uploaded files in (`askApart`). */
export function apart(wanted: Wanted): Promise<Taken> {
  return new Promise((resolve, reject) => {
    const child = fork(fileURLToPath(new URL('takeApart.ts', import.meta.url)), [], { execArgv: [...APART_ARGUMENTS] })
    child.once('message', (taken: Taken) => resolve(taken))
    child.once('error', reject)
    child.once('exit', (status) => reject(new Error(`The process that takes the file in ended with ${status}.`)))
    child.send(wanted)
  })
}

async function pageMs(call: Call): Promise<number> {
  return timed(async () => {
    const outcome = await showList({ ...call, now: new Date().toISOString() }, FIRST_PAGE)
    if (!outcome.ok) throw new Error(outcome.reason)
  })
}

async function listAtRest(call: Call): Promise<Spread> {
  const times: number[] = []
  for (let page = 0; page < PAGES_AT_REST; page++) times.push(await pageMs(call))
  return spreadOf(times)
}

/** Looks at the list again and again until the work is done, as a person in another program would. */
async function listMeanwhile<T>(call: Call, work: Promise<T>): Promise<{ readonly value: T; readonly list: PageTimes }> {
  const times: number[] = []
  let isDone = false
  const done = work.finally(() => {
    isDone = true
  })
  while (!isDone) {
    times.push(await pageMs(call))
    await Promise.race([pause(BETWEEN_PAGES_MS), done])
  }
  const sorted = times.toSorted((a, b) => a - b)
  const ninetyFive = sorted[Math.min(Math.floor(sorted.length * 0.95), sorted.length - 1)] ?? 0
  return { value: await done, list: { ...spreadOf(times), pages: times.length, ninetyFive } }
}

/**
 * One results file of so many rows, taken in by a process of its own into a database that knows its patients and courses, while this process shows the
 * review list; then the sqlite3 shell's `.import` of the same file, as in `intakeFigures`. One round: it takes minutes.
 */
export async function largeMeasured(rows: number): Promise<LargeMeasured> {
  const patients = Math.ceil(rows / ROWS_A_PATIENT)
  const [known, ours, theirs, csv] = ['known', 'ours', 'shell', 'csv'].map((name) => placeFor(`large-${rows}-${name}`)) as [
    string,
    string,
    string,
    string,
  ]
  const header = await (async () => {
    const { before, results, header } = material(rows, patients)
    writeFileSync(csv, results.bytes)
    await withDatabase(known, (call) => takeIn(call, before))
    return header
  })()
  copyDatabase(known, ours)
  const atRest = await withDatabase(ours, listAtRest)
  const { value: taken, list } = await withDatabase(ours, (call) => listMeanwhile(call, apart({ csv, url: `file:${ours}` })))
  if (taken.rows !== rows || taken.filed < rows * 0.99) throw new Error(`Intake read ${taken.rows} rows of ${rows} and filed ${taken.filed}.`)
  prepareTable(theirs, header)
  const shellMs = await timed(() => importCsv(theirs, csv, rows))
  return { patients, taken, shellMs, list, atRest }
}
