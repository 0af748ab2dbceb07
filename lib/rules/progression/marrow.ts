import { followedFrom } from '../criterion/followed.ts'
import { RISES } from '../criterion/rise.ts'
import { judgeRise } from '../criterion/rising.ts'
import { marrowPercents } from '../marrow.ts'
import { runsAsActive } from '../phases.ts'
import type { CourseRule } from '../rule.ts'
import { findingsOfRuns } from '../runs.ts'
import { SOURCES } from '../sources.ts'

export const pdMarrow: CourseRule = {
  id: 'pd-marrow',
  asks: 'Measurable by neither serum, urine nor light chain: have marrow plasma cells risen by at least 25 % and 10 percentage points?',
  source: SOURCES.imwg2016,
  check: (course) => {
    if (!runsAsActive(course) || course.measurableBy.some((by) => by !== 'marrow')) return []
    const of = followedFrom(course, 'marrow-plasma-cells', '%', marrowPercents(course))
    const judge = judgeRise({ of, criterion: RISES.marrow, noise: null, freeLightChains: false, hastens: course.thresholds.largeRiseTimes })
    return findingsOfRuns({ rule: 'pd-marrow', organDamage: false }, of.window, judge)
  },
}
