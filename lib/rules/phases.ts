import type { Course } from '../course/index.ts'

/** True in MGUS and smouldering myeloma: the phases in which a myeloma-defining event can happen. */
export function isPrecursor(course: Course): boolean {
  return course.phase?.phase === 'mgus' || course.phase?.phase === 'smouldering'
}

/** True in active disease and in the phases run like it: plasmacytoma, amyloidosis, plasma cell leukaemia (clinical.md 2). */
export function runsAsActive(course: Course): boolean {
  return course.phase !== null && !isPrecursor(course)
}
