import { scaleLinear } from '@visx/scale'
import type { Tick } from './auditChart.ts'

/** An axis of shares: its ends as fractions, its ticks as fractions and per cent. */
export interface ShareAxis {
  readonly low: number
  readonly high: number
  readonly ticks: readonly Tick[]
}

const TICKS = 5
/** So narrow that what chance does would look like a fall. (ours) */
const LEAST = 0.2

const tick = (at: number): Tick => ({ at, label: `${Number((at * 100).toPrecision(6))} %` })

/** An axis that shows all of these shares; never less than a fifth of what a share can be, and nothing no share can be. */
export function shareAxis(drawn: readonly number[]): ShareAxis {
  const [least, most] = [Math.min(1, ...drawn), Math.max(0, ...drawn)]
  const room = Math.max(0, LEAST - (most - least)) / 2
  const nice = scaleLinear<number>({ domain: [Math.max(0, least - room), Math.min(1, most + room)] }).nice(TICKS)
  const [low, high] = [Math.max(0, nice.domain()[0] ?? 0), Math.min(1, nice.domain()[1] ?? 1)]
  const ticks = nice.ticks(TICKS).filter((at) => at >= low && at <= high)
  return { low, high, ticks: ticks.map(tick) }
}

/** All that a share can be. */
export const WHOLE_AXIS: ShareAxis = { low: 0, high: 1, ticks: [0, 0.25, 0.5, 0.75, 1].map(tick) }
