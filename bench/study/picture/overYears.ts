import { scaleLinear, scalePoint } from '@visx/scale'
import { RULE_OF_GROUP } from '../falseFlags.ts'
import type { Figures } from '../figures.ts'
import { heading, xAxis, yAxis } from './axes.ts'
import { aside, lookOf, series, within } from './series.ts'
import { type Frame, legend } from './svg.ts'

/** False flags that begin in each year: the longer the follow-up, the lower the lowest of many values that vary. */
export function overYears({ years }: Figures, frame: Frame): string {
  const count = Math.max(...years.map(({ rates }) => rates.length))
  const all = Array.from({ length: count }, (_, year) => year + 1)
  const most = Math.max(...years.flatMap(({ rates }) => rates.map(({ high }) => high)))
  const x = scalePoint<number>({ domain: all, range: [frame.left + 40, frame.right - 40] })
  const y = scaleLinear<number>({ domain: [0, most], range: [frame.bottom, frame.top + 70], nice: true })
  const drawn = years.map(({ rates }, nth) =>
    series(
      rates.map(({ per100, low, high }, year) => {
        const place = (value: number) => within(frame, y(value))
        return { x: (x(year + 1) ?? 0) + aside(nth, years.length), y: place(per100), low: place(low), high: place(high) }
      }),
      lookOf(nth),
    ),
  )
  return [
    heading(frame, 'C  False flags of any state that begin in each year of follow-up'),
    yAxis(
      frame,
      y.ticks(6).map((tick) => ({ at: y(tick), label: String(tick) })),
      'runs per 100 patient-years',
    ),
    xAxis(
      frame,
      all.map((year) => ({ at: x(year) ?? 0, label: String(year) })),
      'year of follow-up',
    ),
    ...drawn,
    legend(
      frame.left + 14,
      frame.top + 6,
      years.map(({ group }) => `${RULE_OF_GROUP[group]}: ${group}`),
    ),
  ].join('')
}
