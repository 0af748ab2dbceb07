import Database from 'better-sqlite3'
import { chromium } from 'playwright-core'
import { type Spread, spreadOf } from '../measure.ts'
import { type Asked, askedForFirstPage } from './asked.ts'
import type { FilledFor } from './fillFor.ts'
import { type Answered, firstByte } from './firstByte.ts'
import { interactionsSeen, loadFigures, watchInteractions } from './inBrowser.ts'
import { served } from './served.ts'
import { signIn } from './signIn.ts'
import { workThrough } from './workThrough.ts'

const QUIET = ['--no-sandbox', '--disable-background-networking', '--disable-component-update', '--disable-sync']
const LOADS = 5

export interface PageMeasured {
  readonly patients: number
  readonly rowsShown: number
  /** Milliseconds to the first byte: ours, and the minimal pages that ask for the rows alone and for all the list asks. */
  readonly firstByteMs: { readonly list: Spread; readonly rowsAlone: Spread; readonly allAsked: Spread }
  readonly bytes: { readonly list: number; readonly gzipped: number; readonly perRow: number; readonly minimal: number }
  readonly lcpMs: Spread
  readonly cls: number
  /** The longest wait of one interaction until the next paint; null where none took 16 ms. */
  readonly inpMs: number | null
  readonly interactions: number
}

function last(answers: readonly Answered[]): Answered {
  const answered = answers.at(-1)
  if (answered === undefined || answered.status !== 200) throw new Error(`answered with ${answered?.status ?? 'nothing'}`)
  return answered
}

/** Measures the review list of a filled database, and beside it, in turn, two minimal pages on the same file. */
export async function measureList({ patients, path, signIns }: FilledFor, rounds: number, say: (line: string) => void): Promise<PageMeasured> {
  say(`${patients} patients: first bytes, ${rounds} rounds ...`)
  const db = new Database(path, { readonly: true })
  const { rows, beside } = askedForFirstPage(db)
  const rowsShown = db.prepare(rows.sql).all(...rows.cells).length
  db.close()
  const minimal = (asked: readonly Asked[]) => served('bench/pages/serveMinimal.ts', { MINIMAL_DATABASE: path, MINIMAL_ASKED: JSON.stringify(asked) })
  const env = { DATABASE_URL: `file:${path}`, NEXTAUTH_SECRET: 'only-for-the-bench-only-for-the-bench-only' }
  const [list, rowsAlone, allAsked] = [await served('bench/pages/serveList.ts', env), await minimal([rows]), await minimal([rows, ...beside])]
  const browser = await chromium.launch({ executablePath: '/usr/bin/chromium', args: QUIET })
  try {
    const page = await signIn(browser, list.url, signIns)
    const cookie = (await page.context().cookies()).map(({ name, value }) => `${name}=${value}`).join('; ')
    const answers: Record<'list' | 'rowsAlone' | 'allAsked', Answered[]> = { list: [], rowsAlone: [], allAsked: [] }
    // The first five rounds warm caches and compile what is called often; they are dropped.
    for (let round = -5; round < rounds; round++) {
      const [ours, alone, all] = [await firstByte(`${list.url}/list`, cookie), await firstByte(rowsAlone.url), await firstByte(allAsked.url)]
      if (round < 0) continue
      answers.list.push(ours)
      answers.rowsAlone.push(alone)
      answers.allAsked.push(all)
    }
    say(`${patients} patients: in the browser ...`)
    const loads = []
    for (let load = 0; load < LOADS; load++) {
      await page.goto('/list', { waitUntil: 'load' })
      loads.push(await loadFigures(page))
    }
    await watchInteractions(page)
    const interactions = await workThrough(page)
    const seen = await interactionsSeen(page)
    const weighed = last(answers.list)
    return {
      patients,
      rowsShown,
      firstByteMs: {
        list: spreadOf(answers.list.map((each) => each.firstByteMs)),
        rowsAlone: spreadOf(answers.rowsAlone.map((each) => each.firstByteMs)),
        allAsked: spreadOf(answers.allAsked.map((each) => each.firstByteMs)),
      },
      bytes: { list: weighed.bytes, gzipped: weighed.gzipped, perRow: Math.round(weighed.bytes / rowsShown), minimal: last(answers.rowsAlone).bytes },
      lcpMs: spreadOf(loads.map(({ lcpMs }) => lcpMs)),
      cls: Math.max(...loads.map(({ cls }) => cls)),
      inpMs: seen[0] ?? null,
      interactions,
    }
  } finally {
    await browser.close()
    for (const each of [list, rowsAlone, allAsked]) await each.close()
  }
}
