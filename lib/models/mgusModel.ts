import type { Course } from '../course/index.ts'
import { atLeast, decimal } from '../units/index.ts'
import { sure } from './cytogenetics.ts'
import { countFactors } from './factor.ts'
import { latestRatioAbnormal, latestSerum } from './latestInputs.ts'
import type { RiskAssessment } from './model.ts'

/** Serum M-protein, g/L, from which it is a factor. */
export const MGUS_SERUM = decimal('15')
/** Group and risk, per cent at 20 years, by the number of factors. */
export const MGUS_GROUPS = [
  ['low', '5'],
  ['low-intermediate', '21'],
  ['high-intermediate', '37'],
  ['high', '58'],
] as const

/**
 * Risk of progression of MGUS at 20 years from the latest known values: M-protein >= 15 g/L, not IgG, abnormal light-chain ratio. Without all three
 * no group is given. Rajkumar, Blood 2005;106:812.
 */
export function mgusModel(course: Course): RiskAssessment {
  const serum = latestSerum(course)
  const { present, missing } = countFactors([
    { input: 'serum M-protein', holds: serum === null ? null : atLeast(serum, MGUS_SERUM) },
    { input: 'heavy chain', holds: course.heavyChain === null ? null : sure(course.heavyChain !== 'G') },
    { input: 'light-chain ratio', holds: latestRatioAbnormal(course) },
  ])
  const [group, percent] = missing.length > 0 ? [null, null] : (MGUS_GROUPS[present] ?? [null, null])
  return { model: 'mgus', factors: present, points: null, group, percent, horizon: '20 years', missing }
}
