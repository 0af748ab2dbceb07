import type { Course } from '../course/index.ts'
import { decimal } from '../units/index.ts'
import { cytogeneticsOf, SMOULDERING_GENETICS, sure } from './cytogenetics.ts'
import { countFactors, type Factor } from './factor.ts'
import { aboveOrUnknown, latestInvolvedRatioAbove, latestMarrow, latestSerum } from './latestInputs.ts'
import type { RiskAssessment } from './model.ts'
import { factorsToday, marrowDays, type RiskFactor, ratioDays, serumDays } from './riskFactor.ts'

/** What each of the three must exceed: marrow %, serum M-protein g/L, involved ratio. */
export const TWENTY = decimal('20')
type Groups = readonly (readonly [group: string, percent: string])[]
/** Group and risk, per cent at 2 years, by the number of factors; the last holds for more of them too. */
export const GROUPS: Groups = [
  ['low', '6'],
  ['intermediate', '18'],
  ['high', '44'],
]
export const CYTOGENETIC_GROUPS: Groups = [
  ['low', '6'],
  ['low-intermediate', '23'],
  ['intermediate', '46'],
  ['high', '63'],
]

/** Marrow > 20 %, M-protein > 20 g/L, involved ratio > 20, all strict. */
export const TWENTY_FACTORS: readonly RiskFactor[] = [
  {
    name: 'marrow-plasma-cells',
    input: 'marrow plasma cells',
    measuredOn: marrowDays,
    holds: (course, on) => aboveOrUnknown(latestMarrow(course, on), TWENTY),
  },
  {
    name: 'serum-m-protein',
    input: 'serum M-protein',
    measuredOn: serumDays,
    holds: (course, on) => aboveOrUnknown(latestSerum(course, on), TWENTY),
  },
  {
    name: 'light-chain-ratio',
    input: 'involved light-chain ratio',
    measuredOn: ratioDays,
    holds: (course, on) => latestInvolvedRatioAbove(course, TWENTY, on),
  },
]

function assessed(model: RiskAssessment['model'], factors: readonly Factor[], groups: Groups): RiskAssessment {
  const { present, atMost, missing } = countFactors(factors)
  const last = groups.length - 1
  const told = Math.min(present, last) === Math.min(atMost, last) ? groups[Math.min(present, last)] : undefined
  return { model, factors: present, points: null, group: told?.[0] ?? null, percent: told?.[1] ?? null, horizon: '2 years', missing }
}

/**
 * Smouldering myeloma 20/2/20 from the latest known values: marrow > 20 %, M-protein > 20 g/L, involved ratio > 20, all strict. A group is given as
 * soon as what is missing cannot change it. Lakshman, Blood Cancer J 2018;8:59; Mateos, Blood Cancer J 2020;10:102.
 */
export function twentyTwoTwenty(course: Course): RiskAssessment {
  return assessed('20-2-20', factorsToday(course, TWENTY_FACTORS), GROUPS)
}

/**
 * The same with t(4;14), t(14;16), 1q gain or del(13q) as a fourth factor; null where no genetics are recorded. Mateos, Blood Cancer J 2020;10:102.
 */
export function twentyTwoTwentyCytogenetics(course: Course): RiskAssessment | null {
  const genetics = cytogeneticsOf(course)
  if (genetics === null) return null
  const high = SMOULDERING_GENETICS.some((name) => genetics.has(name))
  return assessed('20-2-20-cytogenetics', [...factorsToday(course, TWENTY_FACTORS), { input: 'genetics', holds: sure(high) }], CYTOGENETIC_GROUPS)
}
