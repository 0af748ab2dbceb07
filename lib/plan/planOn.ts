import type { Day } from '../time/index.ts'
import { DEFAULT_PLAN } from './defaultPlan.ts'
import type { FollowUpPlan } from './plan.ts'

/**
 * The plan in force on a day: of the published versions that had begun by then the one that began last; the one Lowmark comes with before any.
 * `published` in the order of publication: of two that begin on the same day the later one counts.
 */
export function planOn(published: readonly FollowUpPlan[], on: Day): FollowUpPlan {
  return published.reduce((latest, plan) => (plan.from <= on && plan.from >= latest.from ? plan : latest), DEFAULT_PLAN)
}

/** The version that begins last, whether it has begun or not: what a change is drawn from. */
export function lastPlan(published: readonly FollowUpPlan[]): FollowUpPlan {
  return published.reduce((latest, plan) => (plan.from >= latest.from ? plan : latest), DEFAULT_PLAN)
}
