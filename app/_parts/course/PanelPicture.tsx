import { memo } from 'react'
import type { CoursePanel, CourseSpan, PanelLayout, Stretch } from '../../../lib/charts/inBrowser.ts'
import { BreakLines } from './BreakLines.tsx'
import { MarkLines, MarkWords } from './MarkLayer.tsx'
import { across, FOOT, HEIGHT, heightsOf, WIDTH } from './places.ts'
import { Rare } from './Rare.tsx'
import { SeriesLayer } from './SeriesLayer.tsx'
import { TrendLayer } from './TrendLayer.tsx'

interface Props {
  readonly panel: CoursePanel
  readonly layout: PanelLayout
  readonly stretch: Stretch
  readonly lines: readonly CourseSpan[]
  readonly laboratory: string | null
  /** "2024-01-01 to 2026-03-01". */
  readonly days: string
}

/** Treatment lines behind the values: shaded, each with an edge where it begins. Their names stand above the panels. */
export function Bands({ lines, stretch }: Pick<Props, 'lines' | 'stretch'>) {
  return lines
    .filter(({ from, to }) => to >= stretch.from && from <= stretch.to)
    .map(({ short, from, to }) => {
      const [start, end] = [Math.max(across(stretch, from), 0), Math.min(across(stretch, to), 100)]
      return (
        <g key={short} className="course-band">
          <rect x={`${start}%`} width={`${Math.max(end - start, 0.2)}%`} y={0} height="100%" />
          {from >= stretch.from && <line x1={`${start}%`} x2={`${start}%`} y1={0} y2="100%" />}
        </g>
      )
    })
}

/** One panel as a picture: axis of values, picture, words of the marks. Its sentence is its text alternative; every number in it stands in the table. */
export const PanelPicture = memo(function PanelPicture({ panel, layout, stretch, lines, laboratory, days }: Props) {
  const height = heightsOf(layout)
  const ticks = layout.yTicks.map(({ at, label }) => ({ label, y: height(at + layout.less) ?? FOOT }))
  return (
    <>
      <svg className="course-axis" height={HEIGHT} aria-hidden="true">
        {ticks.map(({ label, y }) => (
          <text key={label} x="100%" dx={-5} y={y + 4} textAnchor="end">
            {label}
          </text>
        ))}
      </svg>
      <svg className="course-plot" height={HEIGHT} role="img" aria-labelledby={`course-${panel.id}-title course-${panel.id}-says`}>
        <title id={`course-${panel.id}-title`}>{`${panel.title}, ${panel.unit}, ${days}`}</title>
        <desc id={`course-${panel.id}-says`}>{panel.sentence}</desc>
        <Bands lines={lines} stretch={stretch} />
        {ticks.map(({ label, y }) => (
          <line key={label} className={label === '0' && layout.layout === 'from-lowest' ? 'zero' : 'grid'} x1="0" x2="100%" y1={y} y2={y} />
        ))}
        <svg aria-hidden="true" viewBox={`0 0 ${WIDTH} ${HEIGHT}`} width="100%" height={HEIGHT} preserveAspectRatio="none">
          <TrendLayer trends={panel.trends} stretch={stretch} height={height} />
        </svg>
        <BreakLines series={panel.series} stretch={stretch} />
        <MarkLines panel={panel} stretch={stretch} height={height} />
        <svg aria-hidden="true" viewBox={`0 0 ${WIDTH} ${HEIGHT}`} width="100%" height={HEIGHT} preserveAspectRatio="none">
          {panel.series.map((series, at) => (
            <SeriesLayer key={series.name} series={series} at={at} stretch={stretch} height={height} laboratory={laboratory} />
          ))}
        </svg>
        <Rare panel={panel} stretch={stretch} height={height} />
        <line className="foot-line" x1="0" x2="100%" y1={FOOT + 4} y2={FOOT + 4} />
      </svg>
      <MarkWords panel={panel} stretch={stretch} height={height} />
    </>
  )
})
