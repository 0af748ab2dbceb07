import { readFileSync } from 'node:fs'

/** Linux counts a process's time in hundredths of a second, whatever the machine (USER_HZ; proc(5)). */
const TICK_MS = 10

/** Milliseconds of processor time this process and the processes it started and outlived have used. Of another system than Linux, this process alone. */
export function processorMs(): number {
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
