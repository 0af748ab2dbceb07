import type { Course } from '../../course/index.ts'
import { lightChainRise } from '../criterion/markerRises.ts'
import { judgeRise } from '../criterion/rising.ts'
import { runsAsActive } from '../phases.ts'
import type { CourseRule } from '../rule.ts'
import { findingsOfJudged, type Judged } from '../runs.ts'
import { SOURCES } from '../sources.ts'

function judged(course: Course): readonly Judged[] {
  if (!runsAsActive(course) || course.measurableBy.some((by) => by === 'serum' || by === 'urine')) return []
  const rise = lightChainRise(course)
  return [{ about: { rule: 'pd-light-chain', organDamage: false }, samples: rise.of.window, judge: judgeRise(rise) }]
}

export const pdLightChain: CourseRule = {
  id: 'pd-light-chain',
  asks: 'Serum and urine unmeasurable at baseline: has dFLC risen from the lowest value by at least 25 % and more than 100 mg/L?',
  source: SOURCES.imwg2016,
  check: (course) => findingsOfJudged(judged(course)),
  judged,
}
