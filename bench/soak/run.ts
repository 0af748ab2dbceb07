/**
 * `npm run soak`: people and a laboratory at work on the real server for a while, and what it takes meanwhile. Prints figures; what it asserts is that
 * nothing acknowledged is lost and nothing failed.
 */
import { writeFileSync } from 'node:fs'
import { setTimeout as pause } from 'node:timers/promises'
import { parseArgs } from 'node:util'
import { openStore } from '../../lib/store/index.ts'
import { lawHolds } from '../../tests/faults/law.ts'
import { serveClinic, signInOver } from '../../tests/faults/served.ts'
import { addPerson } from '../../tests/usecases/accounts/persons.ts'
import { engineNamed } from '../engine/engineNamed.ts'
import { machine } from '../machine.ts'
import { fillFor } from '../pages/fillFor.ts'
import { laboratory } from './laboratory.ts'
import { answers, type Doing, type Load, looksAtList, opensPatients, sendsFiles } from './people.ts'
import { sampled } from './samples.ts'
import { soakTold } from './told.ts'

const { values } = parseArgs({
  options: {
    engine: { type: 'string', default: 'sqlite' },
    minutes: { type: 'string', default: '30' },
    patients: { type: 'string', default: '400' },
    kept: { type: 'string' },
    json: { type: 'string' },
  },
})
const [minutes, patients] = [Number(values.minutes), Number(values.patients)]
if (!(minutes > 0 && minutes <= 600 && Number.isInteger(patients) && patients > 0)) {
  process.stderr.write('--minutes takes a number up to 600, --patients a whole number.\n')
  process.exit(2)
}
const engine = await engineNamed(values.engine, 'soak')
const say = (line: string) => process.stderr.write(`${line}\n`)

const ROWS_A_FILE = 20
const SEED = 20_261_126
const filled = await fillFor(patients, values.kept ?? null, say)
const url = await engine.ofFile(filled.path)
const store = await openStore(url)
for (const role of ['navigator', 'physician'] as const) await addPerson(store, `soak-${role}`, role)
const ids = store.reader.followedPatientIds()
const addresses = ids.map((id) => store.reader.patientAddress(id) ?? '')
await store.close()

const served = await serveClinic(url)
const pid = served.child.process.pid ?? 0
const [nurse, physician] = [await signInOver(served, 'soak-navigator'), await signInOver(served, 'soak-physician')]
const lastsMs = minutes * 60_000
const ends = AbortSignal.timeout(lastsMs)
const doing: Doing = { asked: [], files: [], reviews: [], failed: [], refused: 0 }
const load: Load = { served, doing, began: performance.now(), ends }
const from = laboratory(ids, ROWS_A_FILE, Date.parse(new Date().toISOString().slice(0, 10)), SEED)
say(`Two look at the list, two open patients, two answer, and a laboratory sends ${ROWS_A_FILE} rows a second, for ${minutes} minutes ...`)

const half = Math.floor(addresses.length / 2)
const [samples] = await Promise.all([
  sampled(pid, engine, url, load.began, ends, Math.min(10_000, lastsMs / 30)),
  looksAtList(load, nurse, 500),
  looksAtList(load, physician, 700),
  opensPatients(load, nurse, addresses, 500),
  opensPatients(load, physician, addresses.toReversed(), 700),
  answers(load, nurse, 'nurse', addresses.slice(0, half), 1000),
  answers(load, physician, 'physician', addresses.slice(half), 1500),
  sendsFiles(load, nurse, from, ROWS_A_FILE, 1000),
])
// What was asked last may still be answered.
await pause(1000)
await served.stop()
say('Looking through the database: everything acknowledged, the log, and everybody evaluated afresh ...')
const broken = [...doing.failed.slice(0, 20), ...(await lawHolds(url, doing, new Date().toISOString()))]
const { text, document } = soakTold({ doing, samples, lastsMs, broken, on: machine(), engine: engine.says, patients })
if (values.json !== undefined) writeFileSync(values.json, `${JSON.stringify(document, null, 2)}\n`)
process.stdout.write(text)
if (broken.length > 0) process.exitCode = 1
