import type { FollowUpPlan } from '../../plan/index.ts'
import type { History } from '../../results/index.ts'
import { type Assessment, assess } from '../../standing/index.ts'
import type { Reader } from '../../store/index.ts'
import type { Call } from '../call.ts'
import { closedRefusal, isClosed } from '../emergency/closed.ts'
import { planInForce } from '../plan/planInForce.ts'
import { refuse, refuseWith } from './proposal.ts'

/** A patient as they stand at one moment, and what that was worked out from. */
export interface AsTheyStand {
  readonly history: History
  readonly revision: number
  readonly plan: FollowUpPlan
  readonly assessment: Assessment
}

/** Loads and evaluates a patient. Refuses a closed record: an emergency view opens it for reading, and nothing is decided in it. */
export function asTheyStand(call: Call, patientId: string, reader: Reader): AsTheyStand {
  const stored = reader.loadHistory(patientId) ?? refuse('not-found', `No patient has the number "${patientId}".`)
  const plan = planInForce(reader, call.today)
  const assessment = assess(stored.history, plan, call.today)
  if (isClosed(assessment.course) && call.actor.role !== 'console') refuseWith(closedRefusal(assessment.course))
  return { ...stored, plan, assessment }
}
