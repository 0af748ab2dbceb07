import { urineRise } from '../criterion/markerRises.ts'
import { judgeRise } from '../criterion/rising.ts'
import { runsAsActive } from '../phases.ts'
import type { CourseRule } from '../rule.ts'
import { findingsOfRuns } from '../runs.ts'
import { SOURCES } from '../sources.ts'

export const pdUrine: CourseRule = {
  id: 'pd-urine',
  asks: 'Has urine M-protein risen from the lowest value by at least 25 % and 200 mg/24 h?',
  source: SOURCES.imwg2016,
  check: (course) => {
    if (!runsAsActive(course)) return []
    const rise = urineRise(course)
    return findingsOfRuns({ rule: 'pd-urine', organDamage: false }, rise.of.window, judgeRise(rise))
  },
}
