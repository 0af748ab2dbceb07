import { compareUrgency } from '../../review/index.ts'
import { type Assessment, assess } from '../../standing/index.ts'
import type { Day } from '../../time/index.ts'
import type { Call } from '../call.ts'
import { planInForce } from '../plan/planInForce.ts'

/** Everybody followed as of a day, evaluated afresh: as if only what was collected by then existed. Most urgent first. */
export function assessedInOrder(call: Call, asOf: Day): Assessment[] {
  const { reader } = call.store
  const plan = planInForce(reader, asOf)
  const assessments = reader.patientIds().flatMap((patientId) => {
    const stored = reader.loadHistory(patientId)
    return stored === null ? [] : [assess(stored.history, plan, asOf)]
  })
  return assessments.filter((assessment) => assessment.course.leftOn === null).toSorted(compareUrgency)
}
