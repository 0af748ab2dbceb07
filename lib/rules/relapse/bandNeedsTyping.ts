import { bandsAfterResponse, isOriginal } from '../bands.ts'
import { runsAsActive } from '../phases.ts'
import type { CourseRule } from '../rule.ts'
import { SOURCES } from '../sources.ts'

export const bandNeedsTyping: CourseRule = {
  id: 'band-needs-typing',
  asks: 'After complete response or better: does immunofixation show a band of another type than the original one?',
  source: SOURCES.imwg2016,
  check: (course) => {
    if (!runsAsActive(course)) return []
    return bandsAfterResponse(course, {
      about: { rule: 'band-needs-typing', organDamage: false },
      counts: (band) => !isOriginal(course, band),
      windows: { unconfirmed: 'next-visit', confirmed: 'next-visit' },
    })
  },
}
