import { memo, useMemo } from 'react'
import { type CourseMode, type CoursePanel, type CoursePlan, panelLayout, type Stretch, stretchSays } from '../../../lib/charts/inBrowser.ts'
import { LETTERS } from './MarkLayer.tsx'
import { PanelPicture } from './PanelPicture.tsx'
import { WrittenOver } from './WrittenOver.tsx'

interface Props {
  readonly plan: CoursePlan
  readonly panel: CoursePanel
  readonly mode: CourseMode
  readonly stretch: Stretch
  readonly laboratory: string | null
}

const LAID_OUT: Readonly<Record<CourseMode, string>> = { absolute: '', 'from-lowest': ', from lowest confirmed', logarithmic: ', logarithmic' }

/** One marker: heading, picture on the shared axis, and what has no place in it. Without a value it is a sentence and no picture. */
export const PanelRow = memo(function PanelRow({ plan, panel, mode, stretch, laboratory }: Props) {
  const layout = useMemo(() => panelLayout(panel, mode, stretch), [panel, mode, stretch])
  const drawn = panel.series.some(({ points }) => points.some(({ at }) => at !== null)) || panel.leftOut.length > 0
  return (
    <section className="course-panel" aria-labelledby={`course-${panel.id}`}>
      <h3 id={`course-${panel.id}`}>
        {panel.title}{' '}
        <span className="soft small">
          {panel.unit}
          {LAID_OUT[layout.layout]}
          {layout.layout === 'from-lowest' && panel.reference !== null && ` ${panel.reference.label}`}
          {drawn && layout.says !== null && `; ${layout.says}`}
        </span>
      </h3>
      {drawn ? (
        <>
          <div className="course-row">
            <PanelPicture
              panel={panel}
              layout={layout}
              stretch={stretch}
              lines={plan.lines}
              laboratory={laboratory}
              days={stretchSays(plan, stretch)}
            />
            <WrittenOver panel={panel} layout={layout} stretch={stretch} />
          </div>
          {panel.marks.length > 0 && (
            <ul className="letters">
              {panel.marks.map(({ label, kind }, at) => (
                <li key={label} className={`mark-${kind}`}>
                  <b>{LETTERS[at]}</b> {label}
                </li>
              ))}
            </ul>
          )}
        </>
      ) : (
        <p>{panel.sentence}</p>
      )}
    </section>
  )
})
