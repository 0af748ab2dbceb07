import type { Assessment } from '../../standing/index.ts'
import { daysBetween } from '../../time/index.ts'
import type { ChartPlan } from '../chart.ts'
import { sharedSpan } from '../timeAxis.ts'
import { courseEvents } from './courseEvents.ts'
import { coursePanels } from './coursePanels.ts'
import type { CoursePlan } from './coursePlan.ts'
import { lineSpans, openWindow, phaseSpans } from './courseSpans.ts'
import type { EarlierVersion } from './earlier.ts'

/**
 * The course of one patient on one axis of time, from its charts: what they say and mark stands here at the same values. `earlier` are versions of
 * results that a correction has replaced. Pure.
 */
export function patientCourse(assessment: Assessment, charts: readonly ChartPlan[], earlier: readonly EarlierVersion[]): CoursePlan {
  const { course, known } = assessment
  const { from, to } = sharedSpan(assessment)
  return {
    from,
    to,
    length: daysBetween(from, to),
    lines: lineSpans(course, from),
    phases: phaseSpans(course, from),
    events: courseEvents(course, from).filter(({ day }) => day >= 0),
    panels: coursePanels({ course, known, earlier, from }, charts),
    window: openWindow(course, from),
  }
}
