import Database from 'better-sqlite3'
import { addDays, addMonths } from '../lib/time/index.ts'
import { clinicDay, showList, workOutFollowUpApart } from '../lib/usecases/index.ts'
import { inventCohort } from '../seed/index.ts'
import { placeFor, takeIn, withDatabase } from './databases.ts'
import { manyHistories } from './manyHistories.ts'
import { type Figure, figure, spreadOf, timed } from './measure.ts'
import { FIRST_PAGE } from './reviewList.ts'

const SEEDED = 100
const YEARS = 10
const LIST_EVERY_MS = 200
const AIM_MS = 120_000
const LIST_AIM_MS = 500

/** One pass in SQL over the same rows: the days between the tests of each patient, which is the least an audit has to look at. */
const PASS = `SELECT count(*) AS spans, sum(days) AS days FROM (SELECT julianday(collected_on) - julianday(lag(collected_on)
  OVER (PARTITION BY patient_id, analyte ORDER BY collected_on)) AS days FROM result WHERE current = 1 AND status NOT IN ('cancelled', 'entered-in-error'))`

/** Shows the first page of the list again and again until `until` is over, and answers how long each took. */
async function listMeanwhile(call: Parameters<typeof showList>[0], until: Promise<unknown>): Promise<number[]> {
  let isOver = false
  void until.finally(() => {
    isOver = true
  })
  const times: number[] = []
  while (!isOver) {
    times.push(await timed(async () => showList(call, FIRST_PAGE)))
    await new Promise((resolve) => setTimeout(resolve, LIST_EVERY_MS))
  }
  return times
}

/** The audit of so many patients over ten years, once, beside one pass in SQL over the same rows, and the review list meanwhile. */
export async function followUpFigures(patients: number, say: (line: string) => void): Promise<readonly Figure[]> {
  const path = placeFor('follow-up.db')
  const today = clinicDay(new Date())
  const { files } = inventCohort({ patients: SEEDED, years: YEARS, seed: 20_261_126, endsOn: today })
  await withDatabase(path, (call) => takeIn(call, files))
  const rows = manyHistories(path, patients)
  say(`${patients} patients with ${rows} results ...`)
  const db = new Database(path, { readonly: true })
  let spans = 0
  const pass = await timed(() => {
    spans = db.prepare<[], { spans: number }>(PASS).get()?.spans ?? 0
  })
  db.close()
  return withDatabase(path, async (call) => {
    const wish = { from: addDays(addMonths(today, -12 * YEARS), 1), to: today, cutOff: null, whatIf: null }
    let due = 0
    let meanwhile: number[] = []
    const ours = await timed(async () => {
      const audit = workOutFollowUpApart(call, wish, ({ done, of }) => done % 2000 === 0 && say(`  ${done} of ${of}`))
      meanwhile = await listMeanwhile(call, audit)
      const outcome = await audit
      if (!outcome.ok) throw new Error(outcome.reason)
      const { onTime } = outcome.value.figures
      if (onTime.onTime + onTime.late + onTime.missed !== onTime.due) throw new Error('on time + late + missed is not due')
      due = onTime.due
    })
    say(`${due} tests were due; ${spans} spans between tests of ${rows} rows.`)
    const alone = await timed(async () => showList(call, FIRST_PAGE))
    const [audit, sql, list, quiet] = [spreadOf([ours]), spreadOf([pass]), spreadOf(meanwhile), spreadOf([alone])]
    const about = {
      name: `follow-up audit of ${patients.toLocaleString('en')} patients over ${YEARS} years`,
      aim: `below ${AIM_MS / 1000} s, in processes apart`,
    }
    const meantime = { name: 'the slowest first page of the review list meanwhile', aim: `below ${LIST_AIM_MS} ms` }
    return [
      figure({ ...about, beside: 'one pass in SQL over the same rows, for the days between tests' }, audit, sql, (ms) => ms < AIM_MS),
      figure({ ...meantime, beside: 'the same page right afterwards' }, list, quiet, () => list.most < LIST_AIM_MS),
    ]
  })
}
