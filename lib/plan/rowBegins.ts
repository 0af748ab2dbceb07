import { type Course, isActive } from '../course/index.ts'
import type { RiskAssessment } from '../models/index.ts'
import { type Day, laterDay } from '../time/index.ts'
import type { PlanFor } from './plan.ts'
import { planRisk } from './planRisk.ts'

// A bone agent recorded without its name may be one of those the row is for; a named other one is not.
function boneAgentSince(course: Pick<Course, 'boneAgents'>, agents: readonly string[]): Day | null {
  const given = course.boneAgents.filter(({ regimen }) => regimen.length === 0 || regimen.some((drug) => agents.includes(drug.trim().toLowerCase())))
  return given.map((event) => event.on).sort()[0] ?? null
}

/**
 * The day a row of the plan begins to count for a patient: the phase's first day, in active disease the start of the line or of the
 * care a physician named, or the first bone agent.
 * Null where the row is not for this patient, and for repeats, which begin with a sample.
 */
export function rowBegins(
  row: PlanFor,
  course: Pick<Course, 'phase' | 'care' | 'careSince' | 'line' | 'boneAgents'>,
  risk: readonly RiskAssessment[],
): Day | null {
  if (row.who === 'unconfirmed-finding') return null
  if (row.who === 'bone-agent') return boneAgentSince(course, row.agents)
  if (course.phase === null) return null
  const { phase, since } = course.phase
  if (row.phase === 'active') {
    const cared = course.care !== null && (row.care === null || row.care.includes(course.care))
    return isActive(phase) && cared ? laterDay(laterDay(since, course.line?.start ?? since), course.careSince ?? since) : null
  }
  return phase === row.phase && (row.risk === null || row.risk === planRisk(row.phase, risk)) ? since : null
}
