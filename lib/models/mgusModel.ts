import type { Course } from '../course/index.ts'
import { atLeast, decimal } from '../units/index.ts'
import { sure } from './cytogenetics.ts'
import { countFactors } from './factor.ts'
import { latestRatioAbnormal, latestSerum } from './latestInputs.ts'
import type { RiskAssessment } from './model.ts'
import { factorsToday, type RiskFactor, ratioDays, serumDays } from './riskFactor.ts'

/** Serum M-protein, g/L, from which it is a factor. */
export const MGUS_SERUM = decimal('15')
/** Group and risk, per cent at 20 years, by the number of factors. */
export const MGUS_GROUPS = [
  ['low', '5'],
  ['low-intermediate', '21'],
  ['high-intermediate', '37'],
  ['high', '58'],
] as const

/** M-protein of at least 15 g/L, not IgG, an abnormal light-chain ratio. Rajkumar, Blood 2005;106:812. */
export const MGUS_FACTORS: readonly RiskFactor[] = [
  {
    name: 'serum-m-protein',
    input: 'serum M-protein',
    measuredOn: serumDays,
    holds: (course, on) => {
      const serum = latestSerum(course, on)
      return serum === null ? null : atLeast(serum, MGUS_SERUM)
    },
  },
  {
    name: 'heavy-chain',
    input: 'heavy chain',
    measuredOn: () => [],
    holds: ({ heavyChain }) => (heavyChain === null ? null : sure(heavyChain !== 'G')),
  },
  { name: 'light-chain-ratio', input: 'light-chain ratio', measuredOn: ratioDays, holds: latestRatioAbnormal },
]

/**
 * Risk of progression of MGUS at 20 years from the latest known values: M-protein >= 15 g/L, not IgG, abnormal light-chain ratio. Without all three
 * no group is given. Rajkumar, Blood 2005;106:812.
 */
export function mgusModel(course: Course): RiskAssessment {
  const { present, missing } = countFactors(factorsToday(course, MGUS_FACTORS))
  const [group, percent] = missing.length > 0 ? [null, null] : (MGUS_GROUPS[present] ?? [null, null])
  return { model: 'mgus', factors: present, points: null, group, percent, horizon: '20 years', missing }
}
