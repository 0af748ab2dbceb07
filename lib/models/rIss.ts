import type { Course } from '../course/index.ts'
import { anyHolds, type Holds } from '../units/index.ts'
import { cytogeneticsOf, sure } from './cytogenetics.ts'
import { missingInput } from './factor.ts'
import { issStage, type Staged } from './iss.ts'
import type { RiskAssessment } from './model.ts'
import { ldhAbove, stagingInputs } from './stagingInputs.ts'

/** Genetics that count as high risk in the revised staging. */
export const R_ISS_GENETICS = ['del(17p)', 't(4;14)', 't(14;16)'] as const

/** High-risk genetics or LDH above the limit, with what is not known of them. */
function aggravating(course: Course): { readonly holds: Holds | null; readonly missing: readonly string[] } {
  const genetics = cytogeneticsOf(course)
  const high = genetics === null ? null : sure(R_ISS_GENETICS.some((name) => genetics.has(name)))
  const ldh = ldhAbove(stagingInputs(course))
  const missing = [...missingInput({ input: 'genetics', holds: high }), ...missingInput({ input: 'LDH with its upper limit', holds: ldh })]
  if (high === 'certain' || ldh === 'certain') return { holds: 'certain', missing: [] }
  return { holds: high === null || ldh === null ? null : anyHolds(high, ldh), missing }
}

function revised({ stage, missing }: Staged, course: Course): Staged {
  if (stage === null) return { stage, missing }
  if (stage === 'II') return { stage, missing: [] }
  const other = aggravating(course)
  if (other.holds === 'certain') return { stage: stage === 'III' ? 'III' : 'II', missing: [] }
  if (other.holds === 'no') return { stage: stage === 'III' ? 'II' : 'I', missing: [] }
  return { stage: null, missing: other.missing }
}

/**
 * Revised staging: I is ISS I without high-risk genetics [del(17p), t(4;14), t(14;16)] and LDH not above its limit; III is ISS III with either; II
 * the rest. Palumbo, J Clin Oncol 2015;33:2863.
 */
export function rIss(course: Course): RiskAssessment {
  const { stage, missing } = revised(issStage(stagingInputs(course)), course)
  return { model: 'r-iss', factors: null, points: null, group: stage, percent: null, horizon: null, missing }
}
