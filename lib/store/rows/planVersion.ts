import { type PlanValues, readPlanValues } from '../../plan/index.ts'
import { canonicalJson } from '../../trail/index.ts'

export type PlanState = 'proposed' | 'published' | 'refused' | 'withdrawn'

/** What a plan is set to, as the database keeps it: the same values give the same text. */
export function planText(values: PlanValues): string {
  return canonicalJson(values)
}

/** The values a stored text holds. Throws where another program changed it into what no plan can be. */
export function planValuesOf(text: string): PlanValues {
  const read = readPlanValues(JSON.parse(text))
  if (read.ok) return read.values
  throw new Error(`A stored version of the follow-up plan cannot be read: ${read.problems.map(({ id, says }) => `${id} ${says}`).join('; ')}.`)
}
