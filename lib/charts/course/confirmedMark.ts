import { type Course, isActive, type Marker, type MarkerName } from '../../course/index.ts'
import { criterionFor, immunoglobulinLevel } from '../../rules/index.ts'
import { daysBetween } from '../../time/index.ts'
import { drawingNumber, drawnAt } from '../label.ts'
import { levelText } from '../marks.ts'
import type { CourseMark } from './coursePlan.ts'

/**
 * Where a second sample would confirm, when that lies elsewhere than where a first one would be found: the two are held against different lowest
 * values. Nothing outside active disease.
 */
export function confirmedMarks(
  course: Course,
  of: MarkerName | 'immunoglobulin',
  marker: Marker<string>,
  from: Course['today'],
): readonly CourseMark[] {
  const [lowest, confirmed] = [marker.lowest.at(-1) ?? null, marker.lowestConfirmed.at(-1) ?? null]
  if (course.phase === null || !isActive(course.phase.phase) || lowest === null || confirmed === null) return []
  const reference = drawnAt(confirmed.value).at
  if (reference.eq(drawnAt(lowest.value).at)) return []
  const level = of === 'immunoglobulin' ? immunoglobulinLevel(course, reference) : criterionFor(course, of, reference)
  if (level === null) return []
  const label = levelText('confirmed', { ...level, low: false }, marker.unit)
  return [{ kind: 'criterion-confirmed', day: daysBetween(from, confirmed.sample.on), at: drawingNumber(level.at), label }]
}
