'use client'

import { useDeferredValue, useMemo, useState } from 'react'
import {
  type CourseMode,
  type DayCount,
  mainLaboratoryOf,
  namedStretches,
  type PackedCourse,
  readingDays,
  readingOn,
  readingSays,
  type Stretch,
  unpackCourse,
  wholeCourse,
} from '../../../lib/charts/inBrowser.ts'
import { Controls } from './Controls.tsx'
import { CourseLegend } from './CourseLegend.tsx'
import { CourseTableBox } from './CourseTableBox.tsx'
import { CursorLine, CursorSlider, nearestDay, ReadingAt } from './Cursor.tsx'
import { Lanes } from './Lanes.tsx'
import { Overview } from './Overview.tsx'
import { PanelRow } from './PanelRow.tsx'
import { ReadingTable } from './ReadingTable.tsx'
import { TimeAxis } from './TimeAxis.tsx'
import { useInBrowser, usePrinting } from './usePrinting.ts'
import './course.css'
import './handles.css'

/**
 * The course of one patient for a look of a minute: every marker on one axis of time. As the server sends it, it shows the whole course as measured;
 * a browser adds the stretch, the mode and the cursor. On paper it is the whole course again. Stands under a heading of level 2.
 */
export function CourseChart({ packed }: { readonly packed: PackedCourse }) {
  const plan = useMemo(() => unpackCourse(packed), [packed])
  const [mode, setMode] = useState<CourseMode>('absolute')
  const whole = useMemo(() => wholeCourse(plan), [plan])
  const [stretch, setStretch] = useState<Stretch>(whole)
  const days = useMemo(() => readingDays(plan), [plan])
  const [wanted, setDay] = useState<DayCount | null>(null)
  const laboratory = useMemo(() => mainLaboratoryOf(plan), [plan])
  // Handles and choices answer at once; the panels follow as soon as there is time for them.
  const [following, followingMode] = [useDeferredValue(stretch), useDeferredValue(mode)]
  const [inBrowser, printing] = [useInBrowser(), usePrinting()]

  const shown = printing ? whole : following
  const laidOut = printing ? 'absolute' : followingMode
  const inside = useMemo(() => days.filter((day) => day >= shown.from && day <= shown.to), [days, shown])
  const day = nearestDay(inside, wanted ?? plan.length)
  const reading = useMemo(() => readingOn(plan, day, laboratory), [plan, day, laboratory])
  const reads = inBrowser && !printing && inside.length > 0
  // Values stand beside the line once somebody has moved it; before, the latest are written.
  const writes = reads && wanted !== null
  // Only a browser that runs scripts has a use for them; until then their room is kept, so that nothing moves.
  const waits = inBrowser ? 'no-print' : 'course-waits no-print'
  const cursor = { stretch: shown, days: inside, day, onDay: setDay }
  const rows = (
    <div className="course-rows">
      <Lanes plan={plan} stretch={shown} />
      {plan.panels.map((panel) => (
        <PanelRow key={panel.id} plan={plan} panel={panel} mode={laidOut} stretch={shown} laboratory={laboratory}>
          {writes ? <ReadingAt reading={reading} panel={panel.id} stretch={shown} changes={laidOut === 'from-lowest'} /> : null}
        </PanelRow>
      ))}
      <TimeAxis plan={plan} stretch={shown} />
      {reads && <CursorLine {...cursor} />}
    </div>
  )
  // Nothing measured: nothing to lay out or to read.
  if (days.length === 0) return <div className="course">{rows}</div>
  return (
    <div className="course">
      <div className={waits} inert={!inBrowser}>
        <Controls mode={mode} onMode={setMode} named={namedStretches(plan)} stretch={stretch} onStretch={setStretch} />
        <Overview plan={plan} stretch={stretch} onStretch={setStretch} />
      </div>
      {rows}
      <div className={waits} inert={!inBrowser}>
        <CursorSlider {...cursor} says={readingSays(reading)} />
      </div>
      <ReadingTable reading={reading} />
      <CourseLegend plan={plan} laboratory={laboratory} />
      <CourseTableBox plan={plan} mode={laidOut} laboratory={laboratory} />
    </div>
  )
}
