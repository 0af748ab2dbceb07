import type { ChartPlan } from '../../../lib/charts/index.ts'
import { apart, type Places, type PlotSize } from './frame.ts'

export const LETTERS = 'abcdefgh'
const LINE_HEIGHT = 13

interface Props {
  readonly marks: ChartPlan['marks']
  readonly places: Places
  readonly size: PlotSize
}

/** Horizontal marks from the day they were set, their words (or letters, where there is no room) at the right. */
export function Marks({ marks, places, size }: Props) {
  const heights = marks.map((mark) => places.y(mark.y))
  const texts = apart(heights, LINE_HEIGHT, size.top, size.height - 4)
  return (
    <g>
      {marks.map(({ kind, from, label }, at) => {
        const [x, y, text] = [places.x(from), heights[at] ?? 0, texts[at] ?? 0]
        return (
          <g className={`mark-${kind}`} key={label}>
            <path className="level" d={`M${x} ${y}H${places.end}`} />
            {kind.startsWith('lowest') && <path className="foot" d={`M${x} ${y}v7m-4 0h8`} />}
            <path className="lead" d={`M${places.end} ${y}L${places.end + 8} ${text}`} />
            <text x={places.end + 11} y={text + 4}>
              {size.name === 'wide' ? label : LETTERS[at]}
            </text>
          </g>
        )
      })}
    </g>
  )
}
