'use client'

import { useDeferredValue, useMemo, useState } from 'react'
import {
  type CourseMode,
  mainLaboratoryOf,
  type PackedCourse,
  readingDays,
  type Stretch,
  unpackCourse,
  wholeCourse,
} from '../../../lib/charts/inBrowser.ts'
import { Controls } from './Controls.tsx'
import { CourseLegend } from './CourseLegend.tsx'
import { CourseTableBox } from './CourseTableBox.tsx'
import { CursorLine, CursorSlider } from './Cursor.tsx'
import { DayRead } from './DayRead.tsx'
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
  const laboratory = useMemo(() => mainLaboratoryOf(plan), [plan])
  const isMeasured = useMemo(() => readingDays(plan).length > 0, [plan])
  // Handles and choices answer at once; the panels follow as soon as there is time for them.
  const [following, followingMode] = [useDeferredValue(stretch), useDeferredValue(mode)]
  const [inBrowser, printing] = [useInBrowser(), usePrinting()]

  const shown = printing ? whole : following
  const laidOut = printing ? 'absolute' : followingMode
  // Only a browser that runs scripts has a use for them; until then their room is kept, so that nothing moves.
  const waits = inBrowser ? 'no-print' : 'course-waits no-print'
  const rows = (
    <div className="course-rows">
      <Lanes plan={plan} stretch={shown} />
      {plan.panels.map((panel) => (
        <PanelRow key={panel.id} plan={plan} panel={panel} mode={laidOut} stretch={shown} laboratory={laboratory} />
      ))}
      <TimeAxis plan={plan} stretch={shown} />
      <CursorLine />
    </div>
  )
  return (
    <div className="course">
      <DayRead plan={plan} stretch={shown} laboratory={laboratory} canRead={inBrowser && !printing}>
        {/* Nothing measured: nothing to lay out or to read. */}
        {isMeasured ? (
          <>
            <div className={waits} inert={!inBrowser}>
              <Controls plan={plan} mode={mode} onMode={setMode} stretch={stretch} onStretch={setStretch} />
              <Overview plan={plan} stretch={stretch} onStretch={setStretch} />
            </div>
            {rows}
            <div className={waits} inert={!inBrowser}>
              <CursorSlider />
            </div>
            <ReadingTable />
            <CourseLegend plan={plan} laboratory={laboratory} />
            <CourseTableBox plan={plan} mode={laidOut} laboratory={laboratory} />
          </>
        ) : (
          rows
        )}
      </DayRead>
    </div>
  )
}
