import { calciumLimit, totalRaised } from '../calcium.ts'
import { twoSampleFindings } from '../limit.ts'
import { runsAsActive } from '../phases.ts'
import type { CourseRule } from '../rule.ts'
import { SOURCES } from '../sources.ts'

export const relapseCalcium: CourseRule = {
  id: 'relapse-calcium',
  asks: 'Is total calcium above 2.75 mmol/L (11 mg/dL)?',
  source: `clinical relapse, ${SOURCES.imwg2016}; upper limit of ionised calcium 1.30 mmol/L (from memory)`,
  check: (course) => {
    if (!runsAsActive(course)) return []
    return twoSampleFindings(calciumLimit(course, { rule: 'relapse-calcium', organDamage: true }, totalRaised, 'within-7-days'))
  },
}
