import Database from 'better-sqlite3'
import { countStatement, pageStatement, type StandingQuery } from '../lib/store/read/reviewList.ts'
import { addAccount, type Call, clinicDay, endRound, type ListQuery, showList, startRound } from '../lib/usecases/index.ts'
import { inventCohort } from '../seed/index.ts'
import { placeFor, takeIn, withDatabase } from './databases.ts'
import { manyStandings } from './manyStandings.ts'
import { type Figure, figure, rounds, timed } from './measure.ts'
import { FIRST_PAGE } from './reviewList.ts'
import { watched } from './watched.ts'

const QUESTION_MS = 100
const END_MS = 2000
const SEEDED = 400

/** Every way the list can be asked: each filter and each order, one after the other. */
export const QUESTIONS: readonly (readonly [string, Partial<ListQuery>])[] = [
  ['most urgent first', {}],
  ['longest on the list first', { sort: 'listed' }],
  ['the same, shortest first', { sort: 'listed', descending: true }],
  ['oldest sample first', { sort: 'waiting' }],
  ['next due first', { sort: 'next-due' }],
  ['by patient', { sort: 'patient' }],
  ['new since the last round', { news: 'new' }],
  ['came back since the last round', { news: 'came-back' }],
  ['waiting since the last round, longest on the list first', { news: 'waiting', sort: 'listed' }],
  ["nobody's", { has: 'nobody' }],
  ["one person's", { has: 1 }],
  ['one window', { window: 'within-7-days' }],
  ['one phase', { phase: 'active', sort: 'waiting' }],
  ['one finding', { rule: 'overdue' }],
  ['corrected since I reviewed it', { mine: true }],
  ['handed to a physician', { handed: true }],
  ['the last page of it', { page: 400 }],
]

/** Throws where a statement of the list reads the table of standings without its one index. */
export function readsByIndex(db: Database.Database, query: StandingQuery): void {
  for (const { sql, cells } of [pageStatement(query), countStatement(query)]) {
    const plan = db.prepare<unknown[], { detail: string }>(`EXPLAIN QUERY PLAN ${sql}`).all(...cells)
    const standing = plan.map(({ detail }) => detail).filter((detail) => /(SCAN|SEARCH) standing( |$)/.test(detail))
    if (standing.length === 0 || standing.some((detail) => !detail.includes('COVERING INDEX standing_urgency')))
      throw new Error(`Not read by the covering index: ${plan.map(({ detail }) => detail).join('; ')}`)
  }
}

async function endOf(call: Call): Promise<number> {
  const started = await startRound(call)
  if (!started.ok) throw new Error(started.reason)
  return timed(async () => {
    const ended = await endRound(call, started.value)
    if (!ended.ok) throw new Error(ended.reason)
  })
}

/** One person has every tenth patient. */
async function giveTenth(call: Call): Promise<void> {
  const added = await addAccount(call, { name: 'bench', role: 'navigator' })
  if (!added.ok) throw new Error(added.reason)
  await call.store.record(call, (tx) => {
    const accountId = tx.account('bench')?.id ?? null
    for (const patientId of tx.patientIds().filter((_, at) => at % 10 === 0)) tx.insertAssignment({ patientId, accountId, by: 'bench', at: call.now })
    return { value: null, events: [{ action: 'standings-renewed', patients: 1, because: 'day' }] }
  })
}

/** Each question to the list of so many patients beside a plain read of as many rows by number, and the end of a round beside a plain copy of its rows. */
export async function roundFigures(patients: number, times: number): Promise<Figure[]> {
  const path = placeFor(`rounds-${patients}.db`)
  const { files } = inventCohort({ patients: SEEDED, years: 3, seed: 20_261_126, endsOn: clinicDay(new Date()) })
  await withDatabase(path, async (call) => {
    await takeIn(call, files)
    await showList(call, FIRST_PAGE)
    await manyStandings(call, patients)
    await giveTenth(call)
    await endOf(call)
  })
  return withDatabase(path, async (plain) => {
    const { call, watch } = watched(plain)
    const db = new Database(path, { readonly: true })
    const bare = db.prepare('SELECT * FROM standing JOIN patient ON patient.id = patient_id WHERE followed = 1 LIMIT 50')
    const figures: Figure[] = []
    for (const [says, change] of QUESTIONS) {
      const query = { ...FIRST_PAGE, ...change }
      const { has: _, since: __, ...asked } = query as ListQuery
      readsByIndex(db, { ...asked, sinceRound: 1 })
      const spreads = await rounds(times, async () => {
        const ours = await timed(() => showList(call, query))
        return { ours, bare: await timed(() => bare.all()) }
      })
      const about = {
        name: `the list at ${patients.toLocaleString('en')} patients, ${says}`,
        aim: 'below 100 ms, nobody evaluated, by the covering index',
        beside: 'a plain read of 50 rows with their patients, in no order',
      }
      figures.push(figure(about, spreads.ours, spreads.bare, (ms) => ms < QUESTION_MS))
    }
    const copy = new Database(':memory:')
    copy.exec('CREATE TABLE place (patient_id TEXT, rank INTEGER) STRICT; CREATE TABLE finding (patient_id TEXT, key TEXT, topic TEXT) STRICT')
    const places = db.prepare('SELECT patient_id, window_rank FROM standing WHERE followed = 1').raw()
    const open = db.prepare('SELECT patient_id, key, topic FROM standing_open').raw()
    const spreads = await rounds(times, async () => {
      const ours = await endOf(call)
      const plainly = await timed(() =>
        copy.transaction(() => {
          for (const row of places.all() as unknown[][]) copy.prepare('INSERT INTO place VALUES (?, ?)').run(...row)
          for (const row of open.all() as unknown[][]) copy.prepare('INSERT INTO finding VALUES (?, ?, ?)').run(...row)
        })(),
      )
      return { ours, bare: plainly }
    })
    copy.close()
    db.close()
    if (watch.evaluations > 0) throw new Error(`${watch.evaluations} patients were evaluated.`)
    const about = {
      name: `end of a round at ${patients.toLocaleString('en')} patients, with what stands open kept`,
      aim: 'below 2 s, one write',
      beside: 'the same rows read and inserted one by one into tables in memory without checks or a log',
    }
    return [...figures, figure(about, spreads.ours, spreads.bare, (ms) => ms < END_MS)]
  })
}
