import type { CoursePanel, PanelLayout, Stretch } from '../../../lib/charts/inBrowser.ts'
import { useDayRead } from './DayRead.tsx'
import { Latest } from './Latest.tsx'
import { across } from './places.ts'

interface Props {
  readonly panel: CoursePanel
  readonly layout: PanelLayout
  readonly stretch: Stretch
}

/** The value read, beside the line in its panel. */
function ReadingAt({ panel, changes }: { readonly panel: CoursePanel; readonly changes: boolean }) {
  const { reading, stretch } = useDayRead()
  const told = reading.rows.filter((row) => row.panel === panel.id && row.value !== null)
  const x = across(stretch, reading.day)
  const words = told.map(({ name, value, change, own }) => {
    const text = changes && change !== null ? change : value
    return `${told.length > 1 ? `${name} ` : ''}${text}${own === null ? '' : `, ${own.slice(own.indexOf(',') + 2)}`}`
  })
  return (
    <svg className="course-at" aria-hidden="true">
      <text x={`${x}%`} dx={x > 55 ? -5 : 5} y={11} textAnchor={x > 55 ? 'end' : 'start'}>
        {words.length === 0 ? 'no sample near' : words.join('; ')}
      </text>
    </svg>
  )
}

/** What is written over a picture: the latest values, or those of the day read once somebody reads. */
export function WrittenOver({ panel, layout, stretch }: Props) {
  return useDayRead().writes ? (
    <ReadingAt panel={panel} changes={layout.layout === 'from-lowest'} />
  ) : (
    <Latest panel={panel} layout={layout} stretch={stretch} />
  )
}
