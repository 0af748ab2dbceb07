import type { Course, Sample } from '../course/index.ts'
import { allHold, atLeast, below, decimal, type Holds } from '../units/index.ts'
import { type Cytogenetics, cytogeneticsOf, sure } from './cytogenetics.ts'
import { countFactors, type Factor } from './factor.ts'
import type { RiskAssessment } from './model.ts'
import { stagingInputs } from './stagingInputs.ts'

/** Beta-2 microglobulin, mg/L, from which it counts, while creatinine, mg/dL, lies below. */
export const HIGH_RISK_B2M = decimal('5.5')
export const CREATININE_MG_DL = decimal('1.2')
const CREATININE_UMOL_L = CREATININE_MG_DL.times(decimal('88.4'))
/** Translocations that count together with 1q gain or del(1p32). */
export const TRANSLOCATIONS = ['t(4;14)', 't(14;16)', 't(14;20)'] as const

/** Creatinine below 1.2 mg/dL, compared in the unit printed. */
export function lowCreatinine(sample: Sample | null): Holds | null {
  if (sample === null || sample.value === null) return null
  return sample.printed?.printedUnit === 'mg/dL' ? below(sample.printed.printed, CREATININE_MG_DL) : below(sample.value, CREATININE_UMOL_L)
}

export function geneticFactors(genetics: Cytogenetics | null): readonly Factor[] {
  if (genetics === null) return [{ input: 'genetics', holds: null }]
  const translocation = TRANSLOCATIONS.some((name) => genetics.has(name))
  const gain = genetics.has('1q gain')
  return [
    { input: 'share of cells with del(17p)', holds: genetics.has('tp53 mutation') ? 'certain' : genetics.del17pAbove20 },
    { input: 'genetics', holds: sure(translocation && (gain || genetics.del1p32 !== null)) },
    { input: 'genetics', holds: sure(genetics.del1p32 === 'biallelic' || (genetics.del1p32 === 'monoallelic' && gain)) },
  ]
}

/**
 * High-risk myeloma, at least one of: del(17p) in more than 20 % of cells or a TP53 mutation; t(4;14), t(14;16) or t(14;20) with 1q gain or del(1p32);
 * biallelic del(1p32), or monoallelic with 1q gain; B2M >= 5.5 mg/L with creatinine < 1.2 mg/dL. "Not high risk" only when nothing is missing.
 * Avet-Loiseau, J Clin Oncol 2025;43:2739.
 */
export function highRisk2025(course: Course): RiskAssessment {
  const { b2m, creatinine } = stagingInputs(course)
  const high = b2m === null || b2m.value === null ? null : atLeast(b2m.value, HIGH_RISK_B2M)
  const low = lowCreatinine(creatinine)
  const blood: Factor =
    high === 'no' || low === 'no'
      ? { input: 'blood', holds: 'no' }
      : { input: high === null ? 'beta-2 microglobulin' : 'creatinine', holds: high === null || low === null ? null : allHold(high, low) }
  const { present, missing } = countFactors([...geneticFactors(cytogeneticsOf(course)), blood])
  const group = present > 0 ? 'high risk' : missing.length > 0 ? null : 'not high risk'
  return { model: 'high-risk-2025', factors: present, points: null, group, percent: null, horizon: null, missing: present > 0 ? [] : missing }
}
