import { serumRise } from '../criterion/markerRises.ts'
import { judgeRise } from '../criterion/rising.ts'
import { runsAsActive } from '../phases.ts'
import type { CourseRule } from '../rule.ts'
import { findingsOfRuns } from '../runs.ts'
import { SOURCES } from '../sources.ts'

export const pdSerum: CourseRule = {
  id: 'pd-serum',
  asks: 'Has serum M-protein risen from the lowest value by at least 25 % and 5 g/L, or from 50 g/L or more by at least 10 g/L?',
  source: SOURCES.imwg2016,
  check: (course) => {
    if (!runsAsActive(course)) return []
    const rise = serumRise(course)
    return findingsOfRuns({ rule: 'pd-serum', organDamage: false }, rise.of.window, judgeRise(rise))
  },
}
