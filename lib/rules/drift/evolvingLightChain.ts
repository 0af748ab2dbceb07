import { evolvingFindings, evolvingLightChain as rise } from '../evolving.ts'
import { isPrecursor } from '../phases.ts'
import type { CourseRule } from '../rule.ts'
import { SOURCES } from '../sources.ts'

export const evolvingLightChain: CourseRule = {
  id: 'evolving-light-chain',
  asks: 'Has dFLC risen within 12 months by at least 169 % and by more than 100 mg/L?',
  source: `${SOURCES.wu2018}; the 100 mg/L (ours)`,
  check: (course) => (isPrecursor(course) ? evolvingFindings({ rule: 'evolving-light-chain', organDamage: false }, rise(course)) : []),
}
