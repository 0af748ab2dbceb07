/**
 * `npx tsx bench/bytesPerResult.ts [PATIENTS]`: what a result takes of the disk all in, with its indexes, its file as received, its patient, what is kept of the
 * patient, and the log, in a file of SQLite; `npx tsx .ci/server.ts npx tsx bench/bytesPerResult.ts [PATIENTS]`: the same on PostgreSQL as well.
 */
import { openStore } from '../lib/store/index.ts'
import { clinicDay, consoleCall, type IncomingFile } from '../lib/usecases/index.ts'
import { inventCohort } from '../seed/index.ts'
import { type BytesTaken, bytesTaken } from './bytesTaken.ts'
import { placeFor, takeIn } from './databases.ts'
import { machine } from './machine.ts'
import { timed } from './measure.ts'
import { BENCH_SERVER, withServerDatabase } from './serverDatabase.ts'
import { machineTold } from './told.ts'

const YEARS = 8

async function fill(url: string, files: readonly IncomingFile[]): Promise<number> {
  const store = await openStore(url)
  try {
    return await timed(() => takeIn(consoleCall(store, 'bench'), files))
  } finally {
    await store.close()
  }
}

function tell(what: string, { all, ofResults, results }: BytesTaken): void {
  const each = (bytes: number) => (bytes / results).toFixed(0)
  const whole = (all / 1e6).toFixed(1)
  process.stdout.write(
    `${what.padEnd(32)} ${whole.padStart(8)} MB  ${each(all).padStart(5)} bytes a result, ${each(ofResults)} of them the row and its indexes\n`,
  )
}

async function measured(engine: string, url: string, files: readonly IncomingFile[]): Promise<BytesTaken> {
  const ms = await fill(url, files)
  const filled = await bytesTaken(url, false)
  const aSecond = Math.round((filled.results * 1000) / ms).toLocaleString('en')
  process.stdout.write(`${engine}: ${filled.results.toLocaleString('en')} results, taken in at ${aSecond} a second\n`)
  tell(`${engine}, as filled`, filled)
  tell(`${engine}, packed`, await bytesTaken(url, true))
  return filled
}

const patients = Number(process.argv[2] ?? '400')
const { files } = inventCohort({ patients, years: YEARS, seed: 20_261_126, endsOn: clinicDay(new Date()) })
const received = files.reduce((sum, { bytes }) => sum + bytes.length, 0)
process.stdout.write(`${machineTold(machine())}\n${patients} patients, ${YEARS} years each; files of ${(received / 1e6).toFixed(1)} MB as received\n`)

const inFile = await measured('SQLite', `file:${placeFor('bytes.db')}`, files)
if (BENCH_SERVER !== null) {
  const onServer = await withServerDatabase(BENCH_SERVER, (url) => measured('PostgreSQL', url, files))
  if (onServer.results !== inFile.results) throw new Error(`The server has ${onServer.results} results, the file ${inFile.results}.`)
}
