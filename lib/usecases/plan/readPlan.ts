import { may, type Permission } from '../../access/index.ts'
import { lastPlan, PLAN_CHOICES, planOn, valuesOf } from '../../plan/index.ts'
import type { Call, Outcome } from '../call.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { beginningDays } from './beginsOn.ts'
import { planView } from './planView.ts'
import { proposalViews, versionViews } from './versionViews.ts'
import type { PlanPage } from './views.ts'

/** The plan in force today in words, its versions, and for those who propose or publish what waits. */
export async function readPlan(call: Call): Promise<Outcome<PlanPage>> {
  const refused = await refusedUnlessMay(call, 'plan.read', 'follow-up plan')
  if (refused !== null) return refused
  const { reader } = call.store
  const { all, plans } = reader.atOnce(() => ({ all: reader.planVersions(), plans: reader.publishedPlans() }))
  const published = plans.flatMap(({ version }) => all.find((stored) => String(stored.version) === version) ?? [])
  const { role, name } = call.actor
  const allowed = (permission: Permission) => may(role === 'none' ? null : role, permission).allowed
  const last = lastPlan(plans)
  const days = beginningDays(last, call.today)
  const values = valuesOf(last)
  const choices = PLAN_CHOICES.map((choice) => ({ choice, value: values[choice.id] ?? choice.usual }))
  return {
    ok: true,
    value: {
      asOf: call.today,
      inForce: planView(planOn(plans, call.today)),
      versions: versionViews(published, call.today),
      proposals: allowed('plan.propose') || allowed('plan.publish') ? proposalViews(all, last, name) : null,
      form: allowed('plan.propose') ? { basedOn: Number(last.version), ...days, choices } : null,
      publishing: allowed('plan.publish') ? days : null,
    },
  }
}
