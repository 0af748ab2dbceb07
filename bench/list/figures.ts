import { chromium } from 'playwright-core'
import type { Engine } from '../engine/engine.ts'
import { type Figure, manyTimes } from '../measure.ts'
import { askedOf, QUIET, type Servers, serveAll } from '../pages/measureList.ts'
import { signIn } from '../pages/signIn.ts'
import { ask, clientsAsk } from './clients.ts'
import { filledList } from './filledList.ts'
import { sameRows } from './rowsShown.ts'

const CLIENTS = [1, 10, 50] as const
/** Answers a round at least, and of each client. */
const [ANSWERS, EACH] = [30, 2]
const [TIMES_MEDIAN, TIMES_NINETY_FIVE] = [2, 3]

const SERVERS = ['list', 'allAsked', 'rowsAlone'] as const
type Which = (typeof SERVERS)[number]

/** A session of the nurse, signed in as a person signs in. */
async function cookieOf(url: string, signIns: Parameters<typeof signIn>[2]): Promise<string> {
  const browser = await chromium.launch({ executablePath: '/usr/bin/chromium', args: [...QUIET] })
  try {
    const page = await signIn(browser, url, signIns)
    return (await page.context().cookies()).map(({ name, value }) => `${name}=${value}`).join('; ')
  } finally {
    await browser.close()
  }
}

async function inRounds(servers: Servers, cookie: string, rounds: number): Promise<ReadonlyMap<string, number[]>> {
  const times = new Map<string, number[]>()
  for (let round = 0; round <= rounds; round++) {
    for (const clients of CLIENTS) {
      for (const which of SERVERS) {
        const own = which === 'list'
        const each = Math.max(EACH, Math.ceil(ANSWERS / clients))
        const took = await clientsAsk(clients, each, own ? `${servers.list.url}/list` : servers[which].url, own ? cookie : '')
        // The first round warms caches and is dropped.
        if (round > 0) times.set(`${which} ${clients}`, [...(times.get(`${which} ${clients}`) ?? []), ...took])
      }
    }
  }
  return times
}

function figureOf(patients: number, times: ReadonlyMap<string, number[]>): Figure {
  const of = (which: Which, clients: number) => manyTimes(times.get(`${which} ${clients}`) ?? [])
  const told = CLIENTS.map((clients) => {
    const [ours, theirs, alone] = [of('list', clients), of('allAsked', clients), of('rowsAlone', clients)]
    return { clients, ours, theirs, alone, median: ours.median / theirs.median, ninetyFive: ours.ninetyFive / theirs.ninetyFive }
  })
  const more = told.flatMap(({ clients, ours, theirs, alone, median, ninetyFive }) => [
    [`clients${clients}Ms`, ours.median],
    [`clients${clients}NinetyFiveMs`, ours.ninetyFive],
    [`clients${clients}MinimalMs`, theirs.median],
    [`clients${clients}MinimalNinetyFiveMs`, theirs.ninetyFive],
    [`clients${clients}TimesMedian`, median],
    [`clients${clients}TimesNinetyFive`, ninetyFive],
    [`clients${clients}TimesRowsAlone`, ours.median / alone.median],
  ])
  const [one] = told
  if (one === undefined) throw new Error('Nobody asked.')
  return {
    name: 'list',
    ours: one.ours,
    comparator: one.theirs,
    ratio: one.median,
    aim: `with ${CLIENTS.join(', ')} clients: median at most ${TIMES_MEDIAN} times, 95 in 100 at most ${TIMES_NINETY_FIVE} times`,
    met: told.every(({ median, ninetyFive }) => median <= TIMES_MEDIAN && ninetyFive <= TIMES_NINETY_FIVE),
    beside: 'a minimal page of the same framework that asks the database the same, without sign-in and log; here both with one client',
    more: { patients, ...Object.fromEntries(more) },
  }
}

/** The first page over HTTP from the built server, whole answers, beside minimal pages on the same database that must show the same rows. */
export async function listFigure(engine: Engine, patients: number, rounds: number): Promise<Figure> {
  const filled = await filledList(engine, patients)
  const { asked, rowsShown } = askedOf(filled.path)
  const servers = await serveAll(filled.url, asked)
  try {
    const cookie = await cookieOf(servers.list.url, filled.signIns)
    const list = await ask(`${servers.list.url}/list`, cookie)
    for (const which of ['allAsked', 'rowsAlone'] as const) sameRows(list.body, (await ask(servers[which].url, '')).body, rowsShown)
    return figureOf(patients, await inRounds(servers, cookie, rounds))
  } finally {
    for (const each of Object.values(servers)) await each.close()
  }
}
