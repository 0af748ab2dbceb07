import type { RuleId, Window } from '../../rules/index.ts'
import { addDays, type Day } from '../../time/index.ts'
import { assessedThen, type Question } from './question.ts'

/** Until when today's answer holds if nothing arrives, and what is said on the day after. */
export interface Holding {
  /** Null when no day changes it. */
  readonly until: Day | null
  readonly next: { readonly on: Day; readonly window: Window; readonly begins: readonly RuleId[]; readonly ends: readonly RuleId[] } | null
}

const without = (some: readonly RuleId[], others: readonly RuleId[]): readonly RuleId[] => [...new Set(some.filter((rule) => !others.includes(rule)))]

/** Asks what is said on the day after the last one today's answer holds. */
export function holding(question: Question): Holding {
  const { history, assessment } = question
  const { holdsUntil: until, open } = assessment
  if (until === null) return { until, next: null }
  const on = addDays(until, 1)
  const said = assessedThen(question, history, on)
  const [now, later] = [open, said.open].map((findings) => findings.map(({ rule }) => rule)) as [RuleId[], RuleId[]]
  return { until, next: { on, window: said.window, begins: without(later, now), ends: without(now, later) } }
}
