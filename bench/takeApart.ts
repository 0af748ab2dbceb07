/** The process that takes one large file in, so that its memory is its own. It is told where, and answers what it took. */
import { createReadStream } from 'node:fs'
import { acceptFiles, openSpool } from '../lib/usecases/index.ts'
import { withStore } from './databases.ts'
import { watched } from './watched.ts'

export interface Wanted {
  readonly csv: string
  readonly url: string
}

/** What taking a file in took, of time and memory. */
export interface Taken {
  readonly rows: number
  readonly filed: number
  readonly wallMs: number
  /** Processor time of the whole process while it did: more than the wall where two cores worked. */
  readonly processorMs: number
  readonly longestLockMs: number
  /** The most memory the process ever had, from its start to its end. */
  readonly peakMiB: number
}

async function taken({ csv, url }: Wanted): Promise<Taken> {
  process.env.DATABASE_URL = url
  return withStore(url, async (plain) => {
    const { call, watch } = watched(plain)
    const [began, before] = [performance.now(), process.cpuUsage()]
    const spool = await openSpool('results.csv')
    try {
      for await (const bytes of createReadStream(csv, { highWaterMark: 1024 * 1024 })) await spool.write(bytes)
      const outcome = await acceptFiles(call, [await spool.end()], { source: 'bench', dryRun: false })
      if (!outcome.ok) throw new Error(outcome.reason)
      const used = process.cpuUsage(before)
      const { rows = 0, filed = 0, corrected = 0 } = outcome.value[0] ?? {}
      return {
        rows,
        filed: filed + corrected,
        wallMs: performance.now() - began,
        processorMs: (used.user + used.system) / 1000,
        longestLockMs: watch.longestLockMs,
        peakMiB: process.resourceUsage().maxRSS / 1024,
      }
    } finally {
      await spool.drop()
    }
  })
}

process.once('message', async (wanted: Wanted) => {
  const answer = await taken(wanted)
  process.send?.(answer, undefined, undefined, () => process.disconnect())
})
