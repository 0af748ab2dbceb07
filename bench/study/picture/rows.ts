import { scaleLinear } from '@visx/scale'
import type { Spread } from '../median.ts'
import { heading, xAxis } from './axes.ts'
import { type Frame, INK, type Look, line, mark, words } from './svg.ts'

/** One row: its words, its median with interval and quartiles, and its look. */
export interface Row {
  readonly label: string
  readonly spread: Spread | null
  readonly look: Look
  /** Set apart from the row above. */
  readonly opens: boolean
}

/** Rows of medians, with `wider` pixels for their names: a thin bar from quartile to quartile, a thick one over the interval of the median, and its mark. Beyond the scale ends in an arrow. */
export function rowsPanel(frame: Frame, wider: number, title: string, most: number, rows: readonly Row[]): string {
  const x = scaleLinear<number>({ domain: [0, most], range: [frame.left, frame.right] })
  const place = (value: number) => Math.min(frame.right, x(value))
  const step = (frame.bottom - frame.top) / rows.length
  const drawn = rows.map(({ label, spread, look, opens }, at) => {
    const y = frame.top + (at + 0.5) * step
    const rule = opens && at > 0 ? line(frame.left - wider - 40, y - step / 2, frame.right, y - step / 2) : ''
    const name = words(frame.left - 9, y + 4.5, label, { anchor: 'end' })
    if (spread === null) return `${rule}${name}${words(frame.left + 8, y + 4.5, 'never')}`
    const [first, third] = spread.quartiles
    const beyond = third > most ? words(frame.right + 4, y + 4.5, '>', { colour: look.colour }) : ''
    return [
      rule,
      name,
      line(place(first), y, place(third), y, look.colour, 1.6, look.dash),
      line(place(spread.low), y, place(spread.high), y, look.colour, 5),
      mark(place(spread.median), y, look),
      beyond,
    ].join('')
  })
  const ticks = x.ticks(6).map((tick) => ({ at: x(tick), label: String(tick) }))
  return [
    heading(frame, title, wider),
    xAxis(frame, ticks, 'days: median, its interval, quartiles', true),
    line(frame.left, frame.top, frame.left, frame.bottom, INK),
    ...drawn,
  ].join('')
}
