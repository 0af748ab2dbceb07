import { type Course, isActive } from '../course/index.ts'
import type { Day } from '../time/index.ts'

/** The days the disease was measured by what it was measurable by at baseline, after the baseline, oldest first. Other tests do not make a second assessment. */
export function assessmentDays(course: Course): readonly Day[] {
  const [by] = course.measurableBy
  if (course.line === null || course.phase === null || !isActive(course.phase.phase)) return []
  const { start } = course.line
  switch (by) {
    case 'serum':
      return course.markers['serum-m-protein'].window.slice(1).map((sample) => sample.on)
    case 'urine':
      return course.markers['urine-m-protein'].window.slice(1).map((sample) => sample.on)
    case 'light-chain':
      return course.markers.dflc.window.slice(1).map((sample) => sample.on)
    case 'marrow':
      return course.marrow.filter((sample) => sample.percent !== null && sample.on > start).map((sample) => sample.on)
    default:
      return []
  }
}

/** Besides the assessment days, those of immunofixation and marrow, which can show a complete response or its end. Oldest first. */
export function allResponseDays(course: Course): readonly Day[] {
  const days = assessmentDays(course)
  const start = course.line?.start
  if (days.length === 0 || start === undefined) return days
  const others = [...course.samplesOf('serum-immunofixation'), ...course.samplesOf('urine-immunofixation'), ...course.marrow]
  return [...new Set([...days, ...others.filter((sample) => sample.on > start).map((sample) => sample.on)])].sort()
}
