import type { CoursePanel, Stretch } from '../../../lib/charts/inBrowser.ts'
import { apart } from '../chart/apart.ts'
import { across, HEIGHT } from './places.ts'

interface Props {
  readonly panel: Pick<CoursePanel, 'marks'>
  readonly stretch: Stretch
  readonly height: (at: number) => number | null
}

export const LETTERS = 'abcdefgh'
const LINE_HEIGHT = 13

type Placed = CoursePanel['marks'][number] & { readonly y: number; readonly letter: string }

/** Marks that were set before the stretch shown ends. */
function placed({ panel: { marks }, stretch, height }: Props): readonly Placed[] {
  return marks.flatMap((mark, at) => {
    const y = mark.day < stretch.to ? height(mark.at) : null
    return y === null ? [] : [{ ...mark, y, letter: LETTERS[at] ?? '' }]
  })
}

/** Horizontal marks from the day they were set; the lowest has a foot there. */
export function MarkLines(props: Props) {
  const { stretch } = props
  return placed(props).map(({ kind, day, y, label }) => {
    const x = `${Math.max(across(stretch, day), 0)}%`
    return (
      <g className={`mark-${kind}`} key={label}>
        <line className="level" x1={x} x2="100%" y1={y} y2={y} />
        {kind.startsWith('lowest') && day >= stretch.from && (
          <svg x={x} y={y} overflow="visible" aria-hidden="true">
            <path className="foot" d="M0 0v7m-4 0h8" />
          </svg>
        )}
      </g>
    )
  })
}

/** The words of the marks at the right of the picture, or their letters where there is no room for words. */
export function MarkWords(props: Props) {
  const marks = placed(props)
  const texts = apart(
    marks.map(({ y }) => y),
    LINE_HEIGHT,
    8,
    HEIGHT - 4,
  )
  return (
    <svg className="course-words" height={HEIGHT} aria-hidden="true">
      {marks.map(({ kind, label, letter, y }, at) => (
        <g className={`mark-${kind}`} key={label}>
          <path className="lead" d={`M0 ${y}L7 ${texts[at]}`} />
          <text className="in-words" x={10} y={(texts[at] ?? 0) + 4}>
            {label}
          </text>
          <text className="in-letters" x={9} y={(texts[at] ?? 0) + 4}>
            {letter}
          </text>
        </g>
      ))}
    </svg>
  )
}
