import type { Course } from '../course/index.ts'
import type { Day } from '../time/index.ts'
import type { Holds } from '../units/index.ts'
import { MGUS_FACTORS } from './mgusModel.ts'
import type { RiskAssessment } from './model.ts'
import type { RiskFactor, RiskFactorName } from './riskFactor.ts'
import { TWENTY_FACTORS } from './twentyTwoTwenty.ts'

/** A factor as it stood on a day: whether it held (null where its input was not known), and the day of the sample it rests on. */
export interface FactorOn {
  readonly name: RiskFactorName
  readonly holds: Holds | null
  readonly sampledOn: Day | null
}

export interface RiskOn {
  readonly on: Day
  /** In the order of the model. */
  readonly factors: readonly FactorOn[]
}

/** The factors of one model over the present phase, oldest first. */
export interface RiskOverTime {
  readonly model: RiskAssessment['model']
  readonly assessments: readonly RiskOn[]
}

function modelOf({ phase }: Course): readonly [model: RiskAssessment['model'], factors: readonly RiskFactor[]] | null {
  if (phase?.phase === 'mgus') return ['mgus', MGUS_FACTORS]
  return phase?.phase === 'smouldering' ? ['20-2-20', TWENTY_FACTORS] : null
}

/** One factor on each of the days, oldest first; judged only where its input was measured anew. */
function overDays(course: Course, { name, measuredOn, holds }: RiskFactor, days: readonly Day[]): readonly FactorOn[] {
  const measured = measuredOn(course)
  const known: FactorOn[] = []
  let at = -1
  for (const on of days) {
    const before = known.at(-1)
    const latest = at
    for (let next = measured[at + 1]; next !== undefined && next <= on; next = measured[at + 1]) at += 1
    known.push(before !== undefined && at === latest ? before : { name, holds: holds(course, on), sampledOn: measured[at] ?? null })
  }
  return known
}

/**
 * The factors of MGUS (Rajkumar 2005) or of 20/2/20 over the phase the patient is in: as they stood when it began, and on every day since on which one
 * of their inputs was measured. Null in other phases.
 */
export function riskOverTime(course: Course): RiskOverTime | null {
  const found = modelOf(course)
  if (found === null || course.phase === null) return null
  const [model, factors] = found
  const { since } = course.phase
  const days = [...new Set([since, ...factors.flatMap(({ measuredOn }) => measuredOn(course).filter((on) => on > since))])].sort()
  const columns = factors.map((factor) => overDays(course, factor, days))
  return { model, assessments: days.map((on, at) => ({ on, factors: columns.flatMap((column) => column[at] ?? []) })) }
}
