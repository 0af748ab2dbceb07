import type { ReactNode } from 'react'
import { FOOT, HEIGHT, WIDTH } from './places.ts'

/** What is drawn in inner units: stretched to the window, strokes are not. */
export function Stretched({ children }: { readonly children: ReactNode }) {
  return (
    <svg aria-hidden="true" viewBox={`0 0 ${WIDTH} ${HEIGHT}`} width="100%" height={HEIGHT} preserveAspectRatio="none" overflow="visible">
      {children}
    </svg>
  )
}

interface Props {
  readonly id: string
  readonly title: string
  readonly says: string
  /** Values named at the left, and how high each lies. */
  readonly ticks: readonly { readonly label: string; readonly y: number }[]
  /** Words at the right, where there is room for them. */
  readonly words?: readonly { readonly label: string; readonly y: number }[]
  readonly children: ReactNode
}

/** A picture between its axis of values and its words. Its sentence is its text alternative; every number in it stands in the table. */
export function Plot({ id, title, says, ticks, words = [], children }: Props) {
  return (
    <div className={`audit-row${words.length > 0 ? ' audit-worded' : ''}`}>
      <svg className="audit-axis" height={HEIGHT} aria-hidden="true">
        {ticks.map(({ label, y }) => (
          <text key={label} x="100%" dx={-6} y={y + 4} textAnchor="end">
            {label}
          </text>
        ))}
      </svg>
      <svg className="audit-plot" height={HEIGHT} role="img" aria-labelledby={`${id}-title ${id}-says`}>
        <title id={`${id}-title`}>{title}</title>
        <desc id={`${id}-says`}>{says}</desc>
        {ticks.map(({ label, y }) => (
          <line key={label} className="grid" x1="0" x2="100%" y1={y} y2={y} />
        ))}
        {children}
        <line className="foot-line" x1="0" x2="100%" y1={FOOT} y2={FOOT} />
      </svg>
      {words.length > 0 && (
        <svg className="audit-words" height={HEIGHT} aria-hidden="true">
          {words.map(({ label, y }) => (
            <text key={label} x={8} y={y + 4}>
              {label}
            </text>
          ))}
        </svg>
      )}
    </div>
  )
}

/** A row below a picture that shares its axis. */
export function BelowPlot({
  names,
  height,
  worded,
  children,
}: {
  readonly names?: ReactNode
  readonly height: number
  readonly worded: boolean
  readonly children: ReactNode
}) {
  return (
    <div className={`audit-row${worded ? ' audit-worded' : ''}`} aria-hidden="true">
      <svg className="audit-axis" height={height} aria-hidden="true">
        {names}
      </svg>
      <svg className="audit-plot" height={height} aria-hidden="true">
        {children}
      </svg>
    </div>
  )
}
