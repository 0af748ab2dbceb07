/**
 * `npx tsx .ci/server.ts npx tsx bench/commitsASecond.ts [SECONDS] [ROWS]`: how often a second one, two and four processes write at once, each to a file of SQLite
 * and to PostgreSQL; without `.ci/server.ts` the file alone. ROWS: results of one file, all of one patient. Asserted: what was acknowledged is there.
 */
import { type ChildProcess, fork } from 'node:child_process'
import { fileURLToPath } from 'node:url'
import { openStore } from '../lib/store/index.ts'
import { clinicDay, consoleCall } from '../lib/usecases/index.ts'
import { inventCohort } from '../seed/index.ts'
import { bytesTaken } from './bytesTaken.ts'
import type { CommitsDone, CommitsWanted } from './commitsApart.ts'
import { placeFor, takeIn, withStore } from './databases.ts'
import { machine } from './machine.ts'
import { ninetyFiveOf, spreadOf } from './measure.ts'
import { requireWholeLog } from './requireClean.ts'
import { BENCH_SERVER, withServerDatabase } from './serverDatabase.ts'
import { machineTold } from './told.ts'

const PATIENTS = 60
const AT_ONCE = [1, 2, 4] as const
const [seconds, rows] = [Number(process.argv[2] ?? '10'), Number(process.argv[3] ?? '1')]

/** A process that is ready to begin. */
function ready(wanted: CommitsWanted): Promise<ChildProcess> {
  return new Promise((resolve, reject) => {
    const child = fork(fileURLToPath(new URL('commitsApart.ts', import.meta.url)), [], { execArgv: ['--import', 'tsx'] })
    child.once('message', () => resolve(child))
    child.once('error', reject)
    child.once('exit', (status) => reject(new Error(`A writing process ended with ${status}.`)))
    child.send(wanted)
  })
}

function whatItDid(child: ChildProcess): Promise<CommitsDone> {
  return new Promise((resolve, reject) => {
    child.once('message', (done: CommitsDone) => resolve(done))
    child.once('exit', (status) => reject(new Error(`A writing process ended with ${status}.`)))
    child.send('begin')
  })
}

async function measured(url: string, work: CommitsWanted['work'], patientIds: readonly string[], of: number): Promise<readonly CommitsDone[]> {
  const own = (part: number) => patientIds.filter((_, at) => at % of === part)
  const children = await Promise.all(Array.from({ length: of }, (_, part) => ready({ url, work, rows, patientIds: own(part), seconds })))
  return Promise.all(children.map(whatItDid))
}

function tell(engine: string, work: string, done: readonly CommitsDone[]): void {
  const [count, took] = [done.reduce((sum, one) => sum + one.count, 0), done.flatMap(({ tookMs }) => tookMs)]
  const { median, most } = spreadOf(took)
  const fewest = Math.min(...done.map((one) => one.count))
  process.stdout.write(
    `${engine.padEnd(10)} ${work.padEnd(8)} ${done.length} at once: ${(count / seconds).toFixed(1).padStart(7)} a second; ${median.toFixed(1)} ms each (median), 95 in 100 within ${ninetyFiveOf(took).toFixed(1)}, at most ${most.toFixed(1)}; the slowest process ${(fewest / seconds).toFixed(1)}\n`,
  )
}

/** Throws where something that was acknowledged is not there, or the log is no longer one chain. */
async function requireKept(url: string, before: number, filed: number): Promise<void> {
  const { results } = await bytesTaken(url, false)
  if (results !== before + filed) throw new Error(`${filed} results were acknowledged, and ${results - before} are there.`)
  await withStore(url, requireWholeLog)
}

async function everything(engine: string, url: string): Promise<void> {
  const { files } = inventCohort({ patients: PATIENTS, years: 2, seed: 20_261_126, endsOn: clinicDay(new Date()) })
  const store = await openStore(url)
  await takeIn(consoleCall(store, 'bench'), files)
  const patientIds = store.reader.patientIds()
  await store.close()
  for (const of of AT_ONCE) tell(engine, 'turns', await measured(url, 'turns', patientIds, of))
  const before = await bytesTaken(url, true)
  let taken = 0
  for (const of of AT_ONCE) {
    const done = await measured(url, 'intakes', patientIds, of)
    tell(engine, 'intakes', done)
    taken += done.reduce((sum, { count }) => sum + count, 0)
  }
  await requireKept(url, before.results, taken * rows)
  const { all } = await bytesTaken(url, true)
  process.stdout.write(
    `${engine}: the log is one chain; a file of ${rows} took ${((all - before.all) / taken).toFixed(0)} bytes of the disk all in (packed)\n`,
  )
}

process.stdout.write(`${machineTold(machine())}\n${PATIENTS} patients, ${rows} results a file, ${seconds} s each\n`)
await everything('SQLite', `file:${placeFor('commits.db')}`)
if (BENCH_SERVER !== null) await withServerDatabase(BENCH_SERVER, (url) => everything('PostgreSQL', url))
