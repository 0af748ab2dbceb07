import { scaleUtc } from '@visx/scale'
import type { Day } from '../time/index.ts'
import type { Span } from './timeAxis.ts'

export interface TimeTick {
  readonly on: Day
  readonly label: string
}

const instant = (on: Day): number => Date.UTC(Number(on.slice(0, 4)), Number(on.slice(5, 7)) - 1, Number(on.slice(8, 10)))

const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec']

function tickLabel(on: Day, byYear: boolean): string {
  const year = on.slice(0, 4)
  const month = MONTHS[Number(on.slice(5, 7)) - 1] ?? ''
  if (byYear) return year
  return on.endsWith('-01-01') ? year : on.endsWith('-01') ? month : `${Number(on.slice(8))} ${month}`
}

/** About `most` round days on the axis: years, else months, else days. A first tick names its year where no later one does. */
export function timeTicks({ from, to }: Span, most: number): readonly TimeTick[] {
  const days = scaleUtc<number>({ domain: [new Date(instant(from)), new Date(instant(to))] })
    .ticks(most)
    .map((at) => at.toISOString().slice(0, 10) as Day)
  const byYear = days.every((on) => on.endsWith('-01-01'))
  const ticks = days.map((on) => ({ on, label: tickLabel(on, byYear) }))
  const [first, ...rest] = ticks
  if (first === undefined || byYear || ticks.some(({ on }) => on.endsWith('-01-01'))) return ticks
  return [{ on: first.on, label: `${first.label} ${first.on.slice(0, 4)}` }, ...rest]
}
