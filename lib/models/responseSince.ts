import type { Course } from '../course/index.ts'
import type { Day } from '../time/index.ts'
import { allResponseDays } from './assessmentDays.ts'
import { assessResponse } from './assessResponse.ts'
import { responseOn } from './responseOn.ts'

/**
 * The first of the unbroken run of days, up to the latest, on which the response of the line was the one it is now; null where none can be told. What
 * came after the last of these days (a lesion) begins it on today.
 */
export function responseSince(course: Course): Day | null {
  const { category } = assessResponse(course)
  if (category === null) return null
  let since: Day | null = null
  for (const on of allResponseDays(course).toReversed()) {
    if (responseOn(course, on).category !== category) break
    since = on
  }
  return since ?? course.today
}
