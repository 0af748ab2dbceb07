import { sameValue } from './choice.ts'
import { intervalText } from './interval.ts'
import type { PlanStep } from './plan.ts'

function stepText({ every, until }: PlanStep, index: number): string {
  if (until === null) return `every ${intervalText(every)}`
  if (index === 0 && sameValue(every, until)) return `once after ${intervalText(every)}`
  return `every ${intervalText(every)} until ${intervalText(until)} from the beginning`
}

/** "once after 6 months, then every 24 months". */
export function oftenText(steps: readonly PlanStep[]): string {
  return steps.map(stepText).join(', then ')
}
