import type { Course } from '../../course/index.ts'
import { urineRise } from '../criterion/markerRises.ts'
import { judgeRise } from '../criterion/rising.ts'
import { runsAsActive } from '../phases.ts'
import type { CourseRule } from '../rule.ts'
import { findingsOfJudged, type Judged } from '../runs.ts'
import { SOURCES } from '../sources.ts'

function judged(course: Course): readonly Judged[] {
  if (!runsAsActive(course)) return []
  const rise = urineRise(course)
  return [{ about: { rule: 'pd-urine', organDamage: false }, samples: rise.of.window, judge: judgeRise(rise) }]
}

export const pdUrine: CourseRule = {
  id: 'pd-urine',
  asks: 'Has urine M-protein risen from the lowest value by at least 25 % and 200 mg/24 h?',
  source: SOURCES.imwg2016,
  check: (course) => findingsOfJudged(judged(course)),
  judged,
}
