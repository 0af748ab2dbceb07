import type { Course, Measurement } from '../../course/index.ts'
import { below, type Decimal, decimal, decimalText } from '../../units/index.ts'
import { ratioOf } from '../excess.ts'
import { twoSampleFindings } from '../limit.ts'
import { isPrecursor } from '../phases.ts'
import type { CourseRule } from '../rule.ts'
import { SOURCES } from '../sources.ts'

const LOW = decimal('100')
const BELOW_LOWER = decimal('20')
/** Lower limits where the laboratory names none, g/L (WHO, from memory). */
const LOWER_LIMIT = { male: decimal('130'), female: decimal('120') } as const

/** The level haemoglobin must lie below, g/L: 100, or 20 below the lower limit, whichever is the easier to be below. */
function bar(course: Course, sample: Measurement): { readonly level: Decimal; readonly lower: Decimal } {
  const lower = sample.results[0]?.referenceLow?.kept ?? LOWER_LIMIT[course.patient.sex]
  const byLower = lower.minus(BELOW_LOWER)
  return { level: byLower.gt(LOW) ? byLower : LOW, lower }
}

export const mdeAnaemia: CourseRule = {
  id: 'mde-anaemia',
  asks: 'Is haemoglobin below 100 g/L, or more than 20 g/L below the lower limit (the laboratory’s, else men 130, women 120)?',
  source: `${SOURCES.imwg2014}; lower limits of WHO (from memory)`,
  check: (course) => {
    if (!isPrecursor(course)) return []
    return twoSampleFindings({
      about: { rule: 'mde-anaemia', organDamage: true },
      of: course.markers.haemoglobin,
      holds: (sample) => below(sample.value, bar(course, sample).level),
      tells: (sample) => {
        const { level, lower } = bar(course, sample)
        return {
          window: 'within-7-days',
          excess: ratioOf(level, sample.value.low),
          facts: { limit: `${decimalText(level)} g/L`, lower: `${decimalText(lower)} g/L` },
        }
      },
    })
  },
}
