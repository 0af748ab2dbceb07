import type { Course } from '../../course/index.ts'
import { calciumLimit, totalRaised } from '../calcium.ts'
import { twoSampleJudged } from '../limit.ts'
import { runsAsActive } from '../phases.ts'
import type { CourseRule } from '../rule.ts'
import { findingsOfJudged, type Judged } from '../runs.ts'
import { SOURCES } from '../sources.ts'

function judged(course: Course): readonly Judged[] {
  if (!runsAsActive(course)) return []
  return [twoSampleJudged(calciumLimit(course, { rule: 'relapse-calcium', organDamage: true }, totalRaised, 'within-7-days'))]
}

export const relapseCalcium: CourseRule = {
  id: 'relapse-calcium',
  asks: 'Is total calcium above 2.75 mmol/L (11 mg/dL)?',
  source: `clinical relapse, ${SOURCES.imwg2016}; upper limit of ionised calcium 1.30 mmol/L (from memory)`,
  check: (course) => findingsOfJudged(judged(course)),
  judged,
}
