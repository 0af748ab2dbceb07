/** The process that evaluates a part of the cohort, so that its memory is its own. It is told which part, and answers what it took. */
import { standingPart } from '../../lib/usecases/index.ts'
import { withStore } from '../databases.ts'

export interface PartWanted {
  readonly url: string
  readonly part: number
  readonly of: number
}

/** The most memory the process ever had, MiB. */
export interface PartTaken {
  readonly peakMiB: number
}

process.once('message', async ({ url, part, of }: PartWanted) => {
  await withStore(url, async (call) => {
    const done = await standingPart(call, { task: 'recheck', part: { part, of } })
    if (!done.ok || done.value.length > 0) throw new Error('A fresh evaluation differs.')
  })
  const taken: PartTaken = { peakMiB: process.resourceUsage().maxRSS / 1024 }
  process.send?.(taken, undefined, undefined, () => process.disconnect())
})
