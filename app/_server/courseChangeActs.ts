import 'server-only'
import { may } from '../../lib/access/index.ts'
import type { CourseActs } from '../_parts/courseChange/index.ts'
import { changeTheCourse, takeChangeBack } from './courseActs.ts'
import { signedIn } from './session.ts'

/** What whoever is signed in may do to a course; null for whoever only reads. Only leaves forms out: each action asks again for itself. */
export async function courseChangeActs(): Promise<CourseActs | null> {
  const role = (await signedIn())?.role ?? null
  return may(role, 'course.write').allowed ? { change: changeTheCourse, takeBack: takeChangeBack } : null
}
