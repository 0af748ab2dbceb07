import { DEFAULT_PLAN, type FollowUpPlan, planOn } from '../../plan/index.ts'
import type { Day } from '../../time/index.ts'

/** A version of the plan that was in force in a period. */
export interface VersionInForce {
  readonly version: string
  /** The first day it was followed; null for the one Lowmark comes with. */
  readonly from: Day | null
}

/** The versions that were in force on any day of a period, earliest first. */
export function versionsIn(plans: readonly FollowUpPlan[], { from, to }: { readonly from: Day; readonly to: Day }): readonly VersionInForce[] {
  const days = [from, ...plans.map((plan) => plan.from).filter((on) => on > from && on <= to)].sort()
  const inForce = new Map(days.map((on) => [planOn(plans, on).version, planOn(plans, on)]))
  return [...inForce.values()].map(({ version, from: begins }) => ({ version, from: version === DEFAULT_PLAN.version ? null : begins }))
}
