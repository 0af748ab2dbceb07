/** One of the processes that write at once for `commitsASecond.ts`. It is told what, and answers how often it did it. */
import { openStore } from '../lib/store/index.ts'
import { acceptFiles, type Call, consoleCall, type IncomingFile } from '../lib/usecases/index.ts'

export interface CommitsWanted {
  readonly url: string
  /** `turns`: one row that says nothing but when, the least a write can be. `intakes`: a file of `rows` results of one patient, all that belongs to it. */
  readonly work: 'turns' | 'intakes'
  readonly rows: number
  /** Of these patients, one after the other; other processes have others. */
  readonly patientIds: readonly string[]
  readonly seconds: number
}

export interface CommitsDone {
  readonly count: number
  /** Of each, in the order they were done. */
  readonly tookMs: readonly number[]
}

const HEADER = 'patient_id,collected_at,code,value,unit,status,accession'

function fileOf(patientId: string, today: string, rows: number, at: number): IncomingFile {
  const lines = Array.from({ length: rows }, (_, row) => `${patientId},${today},2000-8,2.3${row % 10},mmol/L,final,c-${process.pid}-${at}-${row}`)
  return { name: 'one.csv', bytes: Buffer.from(`${[HEADER, ...lines].join('\r\n')}\r\n`) }
}

async function filed(call: Call, file: IncomingFile, dryRun: boolean): Promise<number> {
  const taken = await acceptFiles({ ...call, now: new Date().toISOString() }, [file], { source: null, dryRun })
  return taken.ok ? (taken.value[0]?.filed ?? 0) : 0
}

/** Whose result would be filed: of some a person is asked first, and that is other work. */
async function plain(call: Call, patientIds: readonly string[]): Promise<readonly string[]> {
  const found: string[] = []
  for (const id of patientIds) if ((await filed(call, fileOf(id, call.today, 1, 0), true)) === 1) found.push(id)
  return found
}

async function takeOne(call: Call, patientId: string, rows: number, at: number): Promise<void> {
  if ((await filed(call, fileOf(patientId, call.today, rows, at), false)) !== rows) throw new Error(`The results of ${patientId} were not filed.`)
}

async function done(wanted: CommitsWanted, begun: () => Promise<void>): Promise<CommitsDone> {
  const store = await openStore(wanted.url)
  try {
    const call = consoleCall(store, 'bench')
    const ids = wanted.work === 'turns' ? [] : await plain(call, wanted.patientIds)
    const once = (at: number) =>
      wanted.work === 'turns' ? store.probeWrite(new Date().toISOString()) : takeOne(call, ids[at % ids.length] ?? '', wanted.rows, at)
    await begun()
    const tookMs: number[] = []
    const ends = performance.now() + wanted.seconds * 1000
    for (let at = 0; performance.now() < ends; at++) {
      const began = performance.now()
      await once(at)
      tookMs.push(performance.now() - began)
    }
    return { count: tookMs.length, tookMs }
  } finally {
    await store.close()
  }
}

process.once('message', async (wanted: CommitsWanted) => {
  // All begin together, once the slowest of them is ready.
  const answer = await done(wanted, () => {
    const said = new Promise<void>((resolve) => process.once('message', () => resolve()))
    process.send?.('ready')
    return said
  })
  process.send?.(answer, undefined, undefined, () => process.disconnect())
})
