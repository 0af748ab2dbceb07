import { type PlanValues, sameValue, valueText } from './choice.ts'
import { PLAN_CHOICES } from './planChoices.ts'

/** One place that is set otherwise, old and new in words. */
export interface PlanDifference {
  readonly id: string
  readonly about: string
  readonly asks: string
  readonly was: string
  readonly becomes: string
}

/** Where two plans are set otherwise, in the order of the plan. */
export function planDifferences(before: PlanValues, after: PlanValues): PlanDifference[] {
  return PLAN_CHOICES.flatMap((choice) => {
    const [was, becomes] = [before[choice.id] ?? choice.usual, after[choice.id] ?? choice.usual]
    if (sameValue(was, becomes)) return []
    return [{ id: choice.id, about: choice.about, asks: choice.asks, was: valueText(choice, was), becomes: valueText(choice, becomes) }]
  })
}
