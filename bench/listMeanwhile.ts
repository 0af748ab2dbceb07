import { setTimeout as pause } from 'node:timers/promises'
import { showList } from '../lib/usecases/index.ts'
import { withStore } from './databases.ts'
import { type Spread, spreadOf, timed } from './measure.ts'
import { FIRST_PAGE } from './reviewList.ts'

const BETWEEN_PAGES_MS = 200

/** Shows the first page of the list of a database again and again while some work is done, and answers how long the pages took, its entry in the log written. */
export async function listMeanwhile(url: string, work: () => Promise<unknown>): Promise<Spread> {
  return withStore(url, async (call) => {
    const times: number[] = []
    let isDone = false
    const done = work().finally(() => {
      isDone = true
    })
    while (!isDone) {
      const page = async () => {
        const shown = await showList({ ...call, now: new Date().toISOString() }, FIRST_PAGE)
        if (!shown.ok) throw new Error(shown.reason)
      }
      times.push(await timed(page))
      await Promise.race([pause(BETWEEN_PAGES_MS), done])
    }
    await done
    return spreadOf(times)
  })
}
