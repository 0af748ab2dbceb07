import Database from 'better-sqlite3'
import { type Browser, chromium, type Page } from 'playwright-core'
import { isOnServer } from '../../lib/store/index.ts'
import { type Spread, spreadOf } from '../measure.ts'
import { type AskedForPage, askedForFirstPage, askedOfServer } from './asked.ts'
import type { FilledFor } from './fillFor.ts'
import { type Answered, firstByte } from './firstByte.ts'
import { type Loaded, loadFigures } from './inBrowser.ts'
import { type Served, served } from './served.ts'
import { signIn } from './signIn.ts'
import { type Step, walk } from './walk.ts'
import { type Interaction, workThrough } from './workThrough.ts'

export const QUIET = ['--no-sandbox', '--disable-background-networking', '--disable-component-update', '--disable-sync']
const LOADS = 5
// They warm caches and compile what is called often; they are dropped.
const WARM_UP = 20

export interface PageMeasured {
  readonly patients: number
  readonly rowsShown: number
  /** Milliseconds to the first byte: ours, and the minimal pages that ask for the rows alone and for all the list asks over the cohort. */
  readonly firstByteMs: { readonly list: Spread; readonly rowsAlone: Spread; readonly allAsked: Spread }
  /** Of the HTML document: unpacked, and as sent to a browser. */
  readonly bytes: { readonly list: number; readonly sent: number; readonly perRow: number; readonly minimal: number }
  readonly lcpMs: Spread
  readonly cls: number
  readonly interactions: readonly Interaction[]
  readonly walk: readonly Step[]
}

type Which = 'list' | 'rowsAlone' | 'allAsked'
export type Servers = Readonly<Record<Which, Served>>

function lastOf(answers: readonly Answered[]): Answered {
  const answered = answers.at(-1)
  if (answered === undefined || answered.status !== 200) throw new Error(`answered with ${answered?.status ?? 'nothing'}`)
  return answered
}

/** What the list asks of a filled database for its first page, and how many rows that has. */
export function askedOf(path: string): { readonly asked: AskedForPage; readonly rowsShown: number } {
  const db = new Database(path, { readonly: true })
  const asked = askedForFirstPage(db)
  const rowsShown = db.prepare(asked.ids.sql).all(...asked.ids.cells).length
  db.close()
  return { asked, rowsShown }
}

/** Our server and the two minimal ones on one database, each in a process of its own. */
export async function serveAll(url: string, asked: AskedForPage): Promise<Servers> {
  const env = { DATABASE_URL: url, NEXTAUTH_SECRET: 'only-for-the-bench-only-for-the-bench-only' }
  const minimal = (what: AskedForPage) => {
    const statements = JSON.stringify(isOnServer(url) ? askedOfServer(what) : what)
    return served('bench/pages/serveMinimal.ts', { MINIMAL_DATABASE: url, MINIMAL_ASKED: statements })
  }
  return { list: await served('bench/pages/serveList.ts', env), rowsAlone: await minimal({ ...asked, beside: [] }), allAsked: await minimal(asked) }
}

/** Asks the three in turn, so that whatever else the machine does meets all of them. */
async function inTurn({ list, rowsAlone, allAsked }: Servers, cookie: string, rounds: number): Promise<Readonly<Record<Which, Answered[]>>> {
  const answers: Record<Which, Answered[]> = { list: [], rowsAlone: [], allAsked: [] }
  for (let round = -WARM_UP; round < rounds; round++) {
    const [ours, alone, all] = [await firstByte(`${list.url}/list`, cookie), await firstByte(rowsAlone.url), await firstByte(allAsked.url)]
    if (round < 0) continue
    answers.list.push(ours)
    answers.rowsAlone.push(alone)
    answers.allAsked.push(all)
  }
  return answers
}

async function loadsOf(page: Page): Promise<readonly Loaded[]> {
  const loads: Loaded[] = []
  for (let load = 0; load < LOADS; load++) {
    await page.goto('/list', { waitUntil: 'load' })
    loads.push(await loadFigures(page))
  }
  return loads
}

async function measuredOn(servers: Servers, browser: Browser, { patients, signIns }: FilledFor, rounds: number) {
  const page = await signIn(browser, servers.list.url, signIns)
  const cookie = (await page.context().cookies()).map(({ name, value }) => `${name}=${value}`).join('; ')
  const answers = await inTurn(servers, cookie, rounds)
  const loads = await loadsOf(page)
  const interactions = await workThrough(page)
  const bytes = { list: lastOf(answers.list).bytes, sent: loads.at(-1)?.bytesSent ?? Number.NaN, minimal: lastOf(answers.rowsAlone).bytes }
  const first = (which: Which) => spreadOf(answers[which].map(({ firstByteMs }) => firstByteMs))
  return {
    ...{ patients, bytes, interactions },
    firstByteMs: { list: first('list'), rowsAlone: first('rowsAlone'), allAsked: first('allAsked') },
    lcpMs: spreadOf(loads.map(({ lcpMs }) => lcpMs)),
    cls: Math.max(...loads.map(({ cls }) => cls)),
    walk: await walk(browser, servers.list.url, signIns),
  }
}

/** Measures the review list of a filled database, and beside it, in turn, two minimal pages on the same file. */
export async function measureList(filled: FilledFor, rounds: number, say: (line: string) => void): Promise<PageMeasured> {
  const { asked, rowsShown } = askedOf(filled.path)
  const servers = await serveAll(filled.url, asked)
  const browser = await chromium.launch({ executablePath: '/usr/bin/chromium', args: QUIET })
  try {
    say(`${filled.patients} patients: first bytes in ${rounds} rounds, then in the browser ...`)
    const measured = await measuredOn(servers, browser, filled, rounds)
    return { ...measured, rowsShown, bytes: { ...measured.bytes, perRow: Math.round(measured.bytes.list / rowsShown) } }
  } finally {
    await browser.close()
    for (const each of Object.values(servers)) await each.close()
  }
}
