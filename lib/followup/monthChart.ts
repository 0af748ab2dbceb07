import { laneyChart, pChart } from '../statistics/index.ts'
import type { Day } from '../time/index.ts'
import type { Tally } from './onTime.ts'

export interface MonthPoint {
  /** `2026-03`. */
  readonly month: string
  readonly due: number
  readonly onTime: number
  /** Null, as the limits, in a month in which nothing was due. */
  readonly proportion: number | null
  readonly centre: number
  readonly lower: number | null
  readonly upper: number | null
  /** Beyond a limit. */
  readonly signal: boolean
}

/** Share of tests done on time, month by month. */
export interface MonthChart {
  readonly points: readonly MonthPoint[]
  /** How much more the months vary than chance alone would make them (Laney's sigma z); null where it cannot be told. */
  readonly sigmaZ: number | null
}

/** Every month that has a day of the period, earliest first. */
export function monthsOf(from: Day, to: Day): readonly string[] {
  const months: string[] = []
  let [year, month] = [Number(from.slice(0, 4)), Number(from.slice(5, 7))]
  for (let text = from.slice(0, 7); text <= to.slice(0, 7); text = `${String(year).padStart(4, '0')}-${String(month).padStart(2, '0')}`) {
    months.push(text)
    month += 1
    if (month > 12) [year, month] = [year + 1, 1]
  }
  return months
}

/** The p-chart of a period from what was due in each of its months; no point at all where nothing was due. Whole clinic: a month is no group of people. */
export function monthChart(from: Day, to: Day, tallies: ReadonlyMap<string, Tally>): MonthChart {
  const months = monthsOf(from, to)
  const samples = months.map((month) => ({ count: tallies.get(month)?.onTime ?? 0, of: tallies.get(month)?.due ?? 0 }))
  const chart = pChart(samples)
  if (chart === null) return { points: [], sigmaZ: null }
  const points = chart.points.map(({ value, low, high, signal }, at): MonthPoint => {
    const { count: onTime, of: due } = samples[at] ?? { count: 0, of: 0 }
    return { month: months[at] ?? '', due, onTime, proportion: value, centre: chart.centre, lower: low, upper: high, signal: signal !== null }
  })
  return { points, sigmaZ: laneyChart(samples)?.sigmaZ ?? null }
}
