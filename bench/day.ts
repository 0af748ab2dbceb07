import { monitorEventLoopDelay } from 'node:perf_hooks'
import { addDays } from '../lib/time/index.ts'
import { type Call, clinicDay, renewStandings, showList } from '../lib/usecases/index.ts'
import type { Cohorts } from './cohorts.ts'
import { withStore } from './databases.ts'
import type { Engine } from './engine/engine.ts'
import { type Figure, figure, rounds, timed } from './measure.ts'
import { timedWithProcessor } from './processor.ts'
import { requireSameAfresh } from './requireClean.ts'
import { FIRST_PAGE } from './reviewList.ts'

const OF_ALL = 0.1

/**
 * Change after change of day: each time those whose answer no longer holds are evaluated, as the first look at the day does it, and then, for comparison, everybody. What
 * that finds must be what is kept, in the round that is dropped as in every other. Meanwhile it is seen how long this process, which shows pages, was not free.
 */
export async function dayFigure(engine: Engine, { large }: Cohorts, times: number): Promise<Figure> {
  return withStore(await engine.copyOf(large.url, 'days.db'), async (plain) => {
    const today = clinicDay(new Date())
    let day = 0
    const renewed: number[] = []
    const waits: number[] = []
    const spreads = await rounds(times, async () => {
      day += 1
      const call: Call = { ...plain, today: addDays(today, day) }
      const delay = monitorEventLoopDelay({ resolution: 5 })
      const { ms: ours, processor } = await timedWithProcessor(async () => {
        delay.enable()
        renewed.push(await renewStandings(call))
        delay.disable()
      })
      waits.push(delay.max / 1e6)
      const page = await timed(() => showList(call, FIRST_PAGE))
      const { ms: all } = await timedWithProcessor(() => requireSameAfresh(call, 'the change of day'))
      return { ours, processor, page, all }
    })
    if (renewed.every((count) => count === 0)) throw new Error("Nobody's answer ended: that is not the work that was to be measured.")
    const about = {
      name: 'day',
      aim: `at most ${OF_ALL} times evaluating everybody`,
      beside: 'everybody evaluated afresh, in processes apart',
      more: {
        patients: large.patients,
        leastRenewed: Math.min(...renewed.slice(1)),
        mostRenewed: Math.max(...renewed.slice(1)),
        processorMs: spreads.processor.median,
        firstPageAfterwardsMs: spreads.page.median,
        longestNotFreeMs: Math.max(...waits),
      },
    }
    return figure(about, spreads.ours, spreads.all, (mine, theirs) => mine <= OF_ALL * theirs)
  })
}
