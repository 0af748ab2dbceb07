import { bandsAfterResponse } from '../immunofixation/afterResponse.ts'
import { runsAsActive } from '../phases.ts'
import type { CourseRule } from '../rule.ts'
import { SOURCES } from '../sources.ts'

export const bandNeedsTyping: CourseRule = {
  id: 'band-needs-typing',
  asks: 'After complete response or better: does immunofixation show a band of another type than the original one, or the original light chain without its heavy chain?',
  source: SOURCES.imwg2016,
  check: (course) => {
    if (!runsAsActive(course)) return []
    return bandsAfterResponse(course, {
      about: { rule: 'band-needs-typing', organDamage: false },
      counts: ['other', 'light-alone', 'not-known'],
      windows: { unconfirmed: 'next-visit', confirmed: 'next-visit' },
    })
  },
}
