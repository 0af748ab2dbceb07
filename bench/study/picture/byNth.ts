import { scaleLinear, scalePoint } from '@visx/scale'
import type { Figures } from '../figures.ts'
import { heading, xAxis, yAxis } from './axes.ts'
import { aside, lookOf, series, within } from './series.ts'
import { type Frame, legend } from './svg.ts'

const NTH = [1, 2, 3, 4]

/** Share of true crossings flagged by the first, second, ... sample after them. */
export function byNth({ relapses }: Figures, frame: Frame): string {
  const x = scalePoint<number>({ domain: NTH, range: [frame.left + 40, frame.right - 40] })
  const y = scaleLinear<number>({ domain: [0.5, 1], range: [frame.bottom, frame.top] })
  const drawn = relapses.map(({ usual }, nth) =>
    series(
      NTH.flatMap((sample) => {
        const found = usual.byNth[sample - 1]
        if (found === undefined) return []
        const place = (value: number) => within(frame, y(value))
        return [{ x: (x(sample) ?? 0) + aside(nth, relapses.length), y: place(found.share), low: place(found.low), high: place(found.high) }]
      }),
      lookOf(nth),
    ),
  )
  return [
    heading(frame, 'B  True crossings flagged by the n-th sample after them'),
    yAxis(
      frame,
      [50, 60, 70, 80, 90, 100].map((percent) => ({ at: y(percent / 100), label: `${percent} %` })),
      'share of true, sustained crossings',
    ),
    xAxis(
      frame,
      NTH.map((sample) => ({ at: x(sample) ?? 0, label: String(sample) })),
      'sample after the true crossing',
    ),
    ...drawn,
    legend(
      frame.right - 190,
      frame.bottom - 76,
      relapses.map(({ rule }) => rule),
    ),
  ].join('')
}
