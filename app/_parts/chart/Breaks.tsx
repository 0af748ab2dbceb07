import type { ChartPlan } from '../../../lib/charts/index.ts'
import type { Places, PlotSize } from './frame.ts'

/** Room one letter needs, in the units of the picture. */
const LETTER = 5.5

interface Props {
  readonly series: ChartPlan['series']
  readonly places: Places
  readonly size: PlotSize
}

interface Placed {
  readonly on: string
  readonly x: number
  readonly words: string
}

/** One vertical a day, halfway between the last value before the change and the first after it, oldest first. */
function placed(series: Props['series'], x: Places['x']): readonly Placed[] {
  const byDay = new Map<string, Placed>()
  for (const { points, breaks } of series) {
    for (const { on, words } of breaks) {
      const before = points[points.findIndex((point) => point.on === on) - 1]
      byDay.set(on, { on, x: Math.round(5 * (x(on) + x(before?.on ?? on))) / 10, words })
    }
  }
  return [...byDay.values()].sort((a, b) => a.x - b.x)
}

/** On which side of its vertical the words of each break fit, none over another's; null where neither side has room. */
function sides(all: readonly Placed[], left: number, end: number): readonly ('start' | 'end' | null)[] {
  let free = left
  return all.map(({ x, words }, at) => {
    const room = words.length * LETTER
    const side = (all[at + 1]?.x ?? end) - x > room ? 'start' : x - free > room ? 'end' : null
    free = side === 'start' ? x + room : x
    return side
  })
}

/** Where laboratory or method changed: a dotted vertical between the two pieces of the line, and what changed where there is room. The table names every change. */
export function Breaks({ series, places, size }: Props) {
  const all = placed(series, places.x)
  const anchors = sides(all, size.left, places.end)
  return (
    <g className="breaks">
      {all.map(({ on, x, words }, at) => {
        const anchor = anchors[at] ?? null
        return (
          <g key={on}>
            <path d={`M${x} ${size.top}V${places.foot}`} />
            {anchor !== null && (
              <text x={anchor === 'start' ? x + 3 : x - 3} y={size.top + 10} textAnchor={anchor}>
                {words}
              </text>
            )}
          </g>
        )
      })}
    </g>
  )
}
