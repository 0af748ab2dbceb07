import { calciumLimit, raised } from '../calcium.ts'
import { twoSampleFindings } from '../limit.ts'
import { isPrecursor } from '../phases.ts'
import type { CourseRule } from '../rule.ts'
import { SOURCES } from '../sources.ts'

export const mdeCalcium: CourseRule = {
  id: 'mde-calcium',
  asks: 'Is calcium, total or adjusted, above 2.75 mmol/L (11 mg/dL), or more than 0.25 mmol/L (1 mg/dL) above the laboratory’s upper limit?',
  source: `${SOURCES.imwg2014}; upper limit of ionised calcium 1.30 mmol/L (from memory)`,
  check: (course) => {
    if (!isPrecursor(course)) return []
    return twoSampleFindings(calciumLimit(course, { rule: 'mde-calcium', organDamage: true }, raised, 'within-7-days'))
  },
}
