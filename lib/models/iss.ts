import type { Course } from '../course/index.ts'
import { allHold, atLeast, below, decimal, type Holds } from '../units/index.ts'
import { missingInput } from './factor.ts'
import type { RiskAssessment } from './model.ts'
import { type StagingInputs, stagingInputs } from './stagingInputs.ts'

export type Stage = 'I' | 'II' | 'III'
/** Beta-2 microglobulin, mg/L: stage I lies below the one, stage III from the other on. Albumin, g/L, from which stage I is. */
export const LOW_B2M = decimal('3.5')
export const HIGH_B2M = decimal('5.5')
export const ISS_ALBUMIN = decimal('35')

/** The stage and, where it cannot be told, what is missing. */
export interface Staged {
  readonly stage: Stage | null
  readonly missing: readonly string[]
}

/** I: B2M < 3.5 mg/L and albumin >= 35 g/L; III: B2M >= 5.5 mg/L; II: the rest. */
export function issStage({ b2m, albumin }: StagingInputs): Staged {
  const value = b2m?.value ?? null
  if (value === null) return { stage: null, missing: ['beta-2 microglobulin not known'] }
  const third = atLeast(value, HIGH_B2M)
  if (third === 'certain') return { stage: 'III', missing: [] }
  const low = below(value, LOW_B2M)
  if (third === 'possible' || low === 'possible') return { stage: null, missing: ['beta-2 microglobulin known only as a limit'] }
  if (low === 'no') return { stage: 'II', missing: [] }
  const normalAlbumin: Holds | null = albumin?.value ? atLeast(albumin.value, ISS_ALBUMIN) : null
  const missing = missingInput({ input: 'albumin', holds: normalAlbumin })
  if (missing.length > 0 || normalAlbumin === null) return { stage: null, missing }
  return { stage: allHold(low, normalAlbumin) === 'certain' ? 'I' : 'II', missing: [] }
}

/** International Staging System at the start of the current line, or at diagnosis. Greipp, J Clin Oncol 2005;23:3412. */
export function iss(course: Course): RiskAssessment {
  const { stage, missing } = issStage(stagingInputs(course))
  return { model: 'iss', factors: null, points: null, group: stage, percent: null, horizon: null, missing }
}
