import { type FollowUpPlan, planOn } from '../plan/index.ts'
import { type Day, earlierDay } from '../time/index.ts'
import type { Period } from './patientAudit.ts'

/** From that day on another version of the plan was in force. */
export interface PlanChange {
  readonly version: string
  readonly from: Day
}

/** The changes of the plan after the first day of a period, by its last and by the cut-off, earliest first. `published` in the order of publication. */
export function planChanges(published: readonly FollowUpPlan[], { from, to, cutOff }: Period): readonly PlanChange[] {
  const days = [...new Set(published.map((plan) => plan.from))].filter((on) => on > from && on <= earlierDay(to, cutOff)).sort()
  return days.map((on) => ({ version: planOn(published, on).version, from: on }))
}
