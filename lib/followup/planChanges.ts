import { type FollowUpPlan, planOn } from '../plan/index.ts'
import type { Day } from '../time/index.ts'
import type { Period } from './patientAudit.ts'

/** From that day on another version of the plan was in force. */
export interface PlanChange {
  readonly version: string
  readonly from: Day
}

/** The changes of the plan after the first day of a period and by its last, earliest first. `published` in the order of publication. */
export function planChanges(published: readonly FollowUpPlan[], { from, to }: Pick<Period, 'from' | 'to'>): readonly PlanChange[] {
  const days = [...new Set(published.map((plan) => plan.from))].filter((on) => on > from && on <= to).sort()
  return days.map((on) => ({ version: planOn(published, on).version, from: on }))
}
