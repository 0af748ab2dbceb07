import { evolvingFindings, evolvingSerum } from '../evolving.ts'
import { isPrecursor } from '../phases.ts'
import type { CourseRule } from '../rule.ts'
import { SOURCES } from '../sources.ts'

export const evolvingMProtein: CourseRule = {
  id: 'evolving-m-protein',
  asks: 'Has serum M-protein risen by at least 5 g/L, and by 10 % within 6 months from 30 g/L or more, or by 25 % within 12 months?',
  source: SOURCES.ravi2016,
  check: (course) => (isPrecursor(course) ? evolvingFindings({ rule: 'evolving-m-protein', organDamage: false }, evolvingSerum(course)) : []),
}
