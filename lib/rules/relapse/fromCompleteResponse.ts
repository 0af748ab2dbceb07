import { bandsAfterResponse } from '../immunofixation/afterResponse.ts'
import { runsAsActive } from '../phases.ts'
import type { CourseRule } from '../rule.ts'
import { SOURCES } from '../sources.ts'

export const relapseFromCr: CourseRule = {
  id: 'relapse-from-cr',
  asks: 'After complete response or better: is immunofixation positive again for the original heavy and light chain?',
  source: SOURCES.imwg2016,
  check: (course) => {
    if (!runsAsActive(course)) return []
    return bandsAfterResponse(course, {
      about: { rule: 'relapse-from-cr', organDamage: false },
      counts: ['original'],
      windows: { unconfirmed: 'within-30-days', confirmed: 'within-7-days' },
    })
  },
}
