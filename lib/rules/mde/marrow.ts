import { atLeast, decimal } from '../../units/index.ts'
import { anyCensored, when } from '../cautions.ts'
import { evidenceOf, keptText } from '../evidence.ts'
import { ratioOf } from '../excess.ts'
import { marrowPercents } from '../marrow.ts'
import { isPrecursor } from '../phases.ts'
import type { CourseRule } from '../rule.ts'
import { findingsOfRuns } from '../runs.ts'
import { SOURCES } from '../sources.ts'

const PERCENT = decimal('60')

export const mdeMarrow: CourseRule = {
  id: 'mde-marrow',
  asks: 'Are clonal marrow plasma cells at or above 60 %?',
  source: SOURCES.imwg2014,
  check: (course) => {
    if (!isPrecursor(course)) return []
    const marrows = marrowPercents(course)
    return findingsOfRuns({ rule: 'mde-marrow', organDamage: false }, marrows, (at) => {
      const marrow = marrows[at]
      const certainty = marrow === undefined ? 'no' : atLeast(marrow.value, PERCENT)
      if (marrow === undefined || certainty === 'no') return null
      return {
        certainty,
        state: 'met',
        shown: () => ({
          window: 'within-7-days',
          cautions: when(anyCensored(marrow.value), 'censored'),
          evidence: [evidenceOf('current', 'marrow-plasma-cells', '%', marrow)],
          facts: { value: keptText(marrow, '%'), on: marrow.on },
          excess: ratioOf(marrow.value.low, PERCENT),
        }),
      }
    })
  },
}
