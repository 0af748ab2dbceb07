import { acceptFiles, type Call, type IncomingFile, type ListPage, showList } from '../lib/usecases/index.ts'
import type { Cohorts } from './cohorts.ts'
import { withStore } from './databases.ts'
import type { Engine, Plain } from './engine/engine.ts'
import { type Figure, manyTimes, timed } from './measure.ts'
import { requireClean } from './requireClean.ts'
import { FIRST_PAGE } from './reviewList.ts'

const ARRIVALS_A_ROUND = 12
const AIM_MS = 50
const GROWTH = 1.2
/** Who is still in no hurry: a high calcium then changes the counts of the list. */
const ON_SCHEDULE = `SELECT patient_id AS id FROM standing WHERE followed = 1 AND "window" = 'on-schedule' ORDER BY patient_id`

/** A clinic into which results arrive one by one, the next for whoever is next. */
interface Arriving {
  readonly call: Call
  readonly plain: Plain
  readonly waiting: string[]
  readonly arrivals: number[]
  readonly fetches: number[]
}

function oneResult(patientId: string, { today }: Call): IncomingFile {
  const header = 'patient_id,collected_at,code,value,unit,status,accession'
  return { name: 'one.csv', bytes: Buffer.from(`${header}\r\n${patientId},${today},2000-8,3.62,mmol/L,final,bench-${patientId}\r\n`) }
}

async function listNow(call: Call): Promise<ListPage> {
  const shown = await showList({ ...call, now: new Date().toISOString() }, FIRST_PAGE)
  if (!shown.ok) throw new Error(shown.reason)
  return shown.value
}

const hurried = ({ byWindow }: ListPage): number => byWindow['same-day']

/** One result of one patient: taken in, committed, and the first page of the list as it then is. Before and after, outside the time, the list is counted. */
async function arrive({ call, plain, waiting, arrivals, fetches }: Arriving): Promise<void> {
  const patientId = waiting.shift()
  if (patientId === undefined) throw new Error('There is nobody left on schedule.')
  fetches.push(await timed(() => plain.all('SELECT * FROM result WHERE patient_id = ?', patientId)))
  const before = hurried(await listNow(call))
  let after = before
  arrivals.push(
    await timed(async () => {
      const taken = await acceptFiles({ ...call, now: new Date().toISOString() }, [oneResult(patientId, call)], { source: null, dryRun: false })
      if (!taken.ok || taken.value[0]?.filed !== 1) throw new Error('The result was not filed.')
      after = hurried(await listNow(call))
    }),
  )
  if (after !== before + 1) throw new Error(`The list has ${after} patients for the same day, not ${before + 1}.`)
}

async function arriving<T>(engine: Engine, from: string, name: string, work: (clinic: Arriving) => Promise<T>): Promise<T> {
  const url = await engine.copyOf(from, name)
  return withStore(url, async (call) => {
    const plain = await engine.plain(url)
    const all = (await plain.all<{ id: string }>(ON_SCHEDULE)).map(({ id }) => id)
    // From all over the table, so that no page of it is at hand because its neighbour was just asked for.
    const waiting = all.map((_, at) => all[(at * 7919) % all.length] ?? '')
    try {
      return await work({ call, plain, waiting: [...new Set(waiting)], arrivals: [], fetches: [] })
    } finally {
      await plain.close()
    }
  })
}

/** One new result until the list shows what it changed, in a small clinic and a large one in turn. */
export async function arrivalFigure(engine: Engine, { small, large }: Cohorts, times: number): Promise<Figure> {
  return arriving(engine, small.url, 'arrival-few.db', (few) =>
    arriving(engine, large.url, 'arrival-many.db', async (many) => {
      for (let round = 0; round <= times; round++) {
        // The first round warms caches and is dropped.
        if (round === 1) for (const { arrivals, fetches } of [few, many]) for (const list of [arrivals, fetches]) list.length = 0
        for (let at = 0; at < ARRIVALS_A_ROUND; at++) {
          await arrive(few)
          await arrive(many)
        }
      }
      for (const { call } of [few, many]) await requireClean(call, 'the arrivals')
      const [fewTimes, ours, raw] = [manyTimes(few.arrivals), manyTimes(many.arrivals), manyTimes(many.fetches)]
      const growth = ours.median / fewTimes.median
      return {
        name: 'arrival',
        ours,
        comparator: raw,
        ratio: ours.median / raw.median,
        aim: `at most ${AIM_MS} ms for 95 in 100; growth from ${small.patients} to ${large.patients} patients at most ${GROWTH} times`,
        met: Math.max(ours.ninetyFive, fewTimes.ninetyFive) <= AIM_MS && growth <= GROWTH,
        beside: "a plain read of the rows of that patient's results",
        more: { growth, few: small.patients, fewMs: fewTimes.median, fewNinetyFiveMs: fewTimes.ninetyFive, many: large.patients },
      }
    }),
  )
}
