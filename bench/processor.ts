import { readFileSync } from 'node:fs'
import { setTimeout as pause } from 'node:timers/promises'

/** Linux counts a process's time in hundredths of a second, whatever the machine (USER_HZ; proc(5)). */
const TICK_MS = 10

/** Processes apart have answered a little before they end, and are counted once they have. */
const UNTIL_ENDED_MS = 2000

/** Milliseconds of processor time this process and the processes it started and outlived have used. Of another system than Linux, this process alone. */
function processorMs(): number {
  try {
    const stat = readFileSync('/proc/self/stat', 'utf8')
    // The name in brackets may hold spaces; what is counted stands behind it: user, system, and both of the children.
    const fields = stat.slice(stat.lastIndexOf(')') + 2).split(' ')
    return fields.slice(11, 15).reduce((sum, field) => sum + Number(field), 0) * TICK_MS
  } catch {
    const { user, system } = process.cpuUsage()
    return (user + system) / 1000
  }
}

/** How long some work took, and how much processor time of this process and of those it started; none of them may go on for long after it. */
export async function timedWithProcessor(work: () => unknown): Promise<{ readonly ms: number; readonly processor: number }> {
  const [began, before] = [performance.now(), processorMs()]
  await work()
  const ms = performance.now() - began
  await pause(UNTIL_ENDED_MS)
  return { ms, processor: processorMs() - before }
}
