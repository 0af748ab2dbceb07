import type { Course, Measurement } from '../course/index.ts'
import { type Decimal, decimal, type Holds, type Interval } from '../units/index.ts'

const LOW = decimal('100')
const BELOW_LOWER = decimal('20')
/** Lower limits where the laboratory names none, g/L (WHO, from memory). */
const LOWER_LIMIT = { male: decimal('130'), female: decimal('120') } as const

/** Fall from the highest value of a line that counts as clinical relapse, g/L (IMWG 2016). */
export const HAEMOGLOBIN_FALL = decimal('20')
/** Haemoglobin below which it is dangerous, g/L (CTCAE v5 grade 3). */
export const DANGEROUS_HAEMOGLOBIN = '80'

/** The level haemoglobin must lie below in a precursor phase, g/L: 100, or 20 below the lower limit, whichever is the easier to be below (IMWG 2014). */
export function haemoglobinBar(course: Pick<Course, 'patient'>, sample: Measurement): { readonly level: Decimal; readonly lower: Decimal } {
  const lower = sample.results[0]?.referenceLow?.kept ?? LOWER_LIMIT[course.patient.sex]
  const byLower = lower.minus(BELOW_LOWER)
  return { level: byLower.gt(LOW) ? byLower : LOW, lower }
}

/** Whether haemoglobin has fallen by at least so much, g/L, over all the values both intervals leave possible. */
export function hasFallenBy(fall: Decimal, from: Interval, to: Interval): Holds {
  if (to.high !== null && from.low.minus(to.high).gte(fall)) return 'certain'
  return from.high === null || from.high.minus(to.low).gte(fall) ? 'possible' : 'no'
}
