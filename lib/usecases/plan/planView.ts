import {
  CLINIC_SOURCE,
  DEFAULT_PLAN,
  type FollowUpPlan,
  oftenText,
  PLAN_CHOICES,
  type PlanChoice,
  type PlanRow,
  type PlanValues,
  rowTitle,
  sameValue,
  valuesOf,
  valueText,
} from '../../plan/index.ts'
import { GROUP_WORDS } from '../../rules/index.ts'
import type { PlanRowView, PlanView, SetView } from './views.ts'

function testsOf({ for: { who }, groups }: PlanRow): string[] {
  if (who === 'unconfirmed-finding') return ['the test that raised the finding']
  return groups.map((group) => (group === 'urine-24h' ? `${GROUP_WORDS[group]}, where urine was measurable at baseline` : GROUP_WORDS[group]))
}

function rowView(row: PlanRow): PlanRowView {
  const counted = row.for.who === 'unconfirmed-finding' ? ' after the sample' : ''
  const often = (of: PlanRow) => `${oftenText(of.steps)}${counted}`
  const comes = DEFAULT_PLAN.rows.find(({ id }) => id === row.id) ?? row
  const usual = row.source === CLINIC_SOURCE ? often(comes) : null
  return { title: rowTitle(row), tests: testsOf(row), often: often(row), source: row.source, usual }
}

function setView(choice: PlanChoice, values: PlanValues): SetView {
  const value = values[choice.id] ?? choice.usual
  const own = !sameValue(value, choice.usual)
  return {
    asks: choice.asks,
    value: valueText(choice, value),
    source: own ? CLINIC_SOURCE : choice.source,
    usual: own ? valueText(choice, choice.usual) : null,
  }
}

/** A plan in words; whatever the clinic has otherwise stands beside how Lowmark comes. */
export function planView(plan: FollowUpPlan): PlanView {
  const values = valuesOf(plan)
  const about = (heading: string) => PLAN_CHOICES.filter((choice) => choice.about === heading).map((choice) => setView(choice, values))
  return { version: plan.version, from: plan.from, rows: plan.rows.map(rowView), grace: about('Grace'), thresholds: about('Thresholds') }
}
