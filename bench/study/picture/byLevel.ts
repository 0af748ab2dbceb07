import { scalePoint, scaleSymlog } from '@visx/scale'
import { MOST_FALSE_CONFIRMED } from '../aims.ts'
import type { Figures } from '../figures.ts'
import { heading, xAxis, yAxis } from './axes.ts'
import { aside, lookOf, series, within } from './series.ts'
import { type Frame, INK, legend, line, words } from './svg.ts'

const TICKS = [0, 0.5, 1, 2, 5, 10, 20, 50]

/** False confirmed `pd-serum` by true level, by the lowest confirmed value and by the plain lowest. */
export function byLevel({ levels }: Figures, frame: Frame): string {
  const serum = levels.filter(({ kind }) => kind.group === 'serum')
  const x = scalePoint<number>({ domain: serum.map(({ kind }) => kind.level), range: [frame.left + 25, frame.right - 25] })
  const y = scaleSymlog<number>({ domain: [0, 60], range: [frame.bottom, frame.top], constant: 0.5 })
  const drawn = (['usual', 'plain'] as const).map((reading, nth) =>
    series(
      serum.map((level) => {
        const { per100, low, high } = level[reading].confirmed
        const place = (value: number) => within(frame, y(value))
        return { x: (x(level.kind.level) ?? 0) + aside(nth, 2), y: place(per100), low: place(low), high: place(high) }
      }),
      lookOf(nth),
    ),
  )
  return [
    heading(frame, 'A  False confirmed progression (pd-serum) in stable patients'),
    yAxis(
      frame,
      TICKS.map((tick) => ({ at: y(tick), label: String(tick) })),
      'runs per 100 patient-years',
    ),
    xAxis(
      frame,
      serum.map(({ kind }) => ({ at: x(kind.level) ?? 0, label: String(kind.level) })),
      'true serum M-protein, g/L',
    ),
    line(frame.left, y(MOST_FALSE_CONFIRMED), frame.right, y(MOST_FALSE_CONFIRMED), INK, 1.4, '4 4'),
    words(frame.right, y(MOST_FALSE_CONFIRMED) - 6, `aim: at most ${MOST_FALSE_CONFIRMED}`, { anchor: 'end' }),
    ...drawn,
    legend(frame.left + 14, frame.top + 14, ['held against the lowest confirmed value', 'held against the plain lowest value']),
  ].join('')
}
