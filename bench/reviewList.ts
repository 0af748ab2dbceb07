import Database from 'better-sqlite3'
import { type StandingQuery, standingsPage } from '../lib/store/read/reviewList.ts'
import { clinicDay, showList } from '../lib/usecases/index.ts'
import { inventCohort } from '../seed/index.ts'
import { placeFor, takeIn, withDatabase } from './databases.ts'
import { type Figure, figure, rounds, timed } from './measure.ts'
import { watched } from './watched.ts'

const PAGE_MS = 500
export const FIRST_PAGE: StandingQuery = {
  window: null,
  phase: null,
  clinician: null,
  rule: null,
  sort: 'urgency',
  descending: false,
  page: 1,
  pageSize: 50,
}

type Connection = Parameters<typeof standingsPage>[0]

/** The statement by which lib/store reads a page, as SQL: asked of the code itself, so that the comparator cannot drift away from it. */
function pageSql(db: Database.Database): string {
  const asked: string[] = []
  const statement = ((sql: string) => {
    asked.push(sql)
    return db.prepare(sql)
  }) as Connection['statement']
  standingsPage({ statement, snapshot: <T>(read: () => T) => read() } as Connection, FIRST_PAGE)
  const page = asked.find((sql) => sql.includes('LIMIT'))
  if (page === undefined) throw new Error('lib/store reads no page with a LIMIT any more.')
  return page
}

function queryPlan(db: Database.Database, sql: string): string {
  const steps = db.prepare<unknown[], { detail: string }>(`EXPLAIN QUERY PLAN ${sql}`).all(FIRST_PAGE.pageSize, 0)
  return steps.map(({ detail }) => detail).join('; ')
}

/** The plan by which SQLite reads the first page. Throws where it sorts, or reads the table from end to end. */
function indexedPlan(db: Database.Database, sql: string): string {
  const plan = queryPlan(db, sql)
  if (/TEMP B-TREE|SCAN/.test(plan) || !plan.includes('standing_urgency')) throw new Error(`The first page is not read by its index: ${plan}`)
  return plan
}

export interface ListMeasured {
  readonly patients: number
  readonly fillMs: number
  readonly rows: number
  readonly plan: string
  readonly figure: Figure
}

/** Invents so many patients, takes them in through intake, and measures the first page of the review list beside a bare query of the same page. */
export async function listMeasured(patients: number, years: number, times: number): Promise<ListMeasured> {
  const path = placeFor(`list-${patients}-${years}.db`)
  const { files } = inventCohort({ patients, years, seed: 20_261_125, endsOn: clinicDay(new Date()) })
  let rows = 0
  const fillMs = await timed(() =>
    withDatabase(path, async (call) => {
      rows = (await takeIn(call, files)).reduce((sum, report) => sum + report.rows, 0)
      // What the first look at a new day would do, so that no round measures it.
      await showList(call, FIRST_PAGE)
    }),
  )
  return withDatabase(path, async (plain) => {
    const { call, watch } = watched(plain)
    const db = new Database(path, { readonly: true })
    const sql = pageSql(db)
    const plan = indexedPlan(db, sql)
    const page = db.prepare(sql)
    const spreads = await rounds(times, async () => {
      let [shown, read] = [0, 0]
      const ours = await timed(async () => {
        const outcome = await showList(call, FIRST_PAGE)
        if (outcome.ok) shown = outcome.value.rows.length
      })
      const bare = await timed(() => {
        read = page.all(FIRST_PAGE.pageSize, 0).length
      })
      if (shown !== read || read !== Math.min(FIRST_PAGE.pageSize, patients))
        throw new Error(`The list shows ${shown} rows, the query reads ${read}.`)
      return { ours, bare }
    })
    db.close()
    if (watch.evaluations > 0) throw new Error(`${watch.evaluations} patients were evaluated to show the list.`)
    const about = {
      name: `first page of the review list at ${patients.toLocaleString('en')} patients`,
      aim: 'below 500 ms, nobody evaluated, the same query plan at every size',
      beside: 'the bare indexed query of the same page on a connection of the driver',
    }
    return { patients, fillMs, rows, plan, figure: figure(about, spreads.ours, spreads.bare, (ms) => ms < PAGE_MS) }
  })
}
