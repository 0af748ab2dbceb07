import type { CourseEvent } from '../results/index.ts'
import { compareDays } from '../time/index.ts'

/** Events by day; those of one day by what they say, so that the order of arrival never decides. */
export function inOrder<E extends CourseEvent>(events: readonly E[]): readonly E[] {
  if (events.length < 2) return events
  return [...events].sort((a, b) => compareDays(a.on, b.on) || (JSON.stringify(a) < JSON.stringify(b) ? -1 : 1))
}
