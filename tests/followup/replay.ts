import { type Occasion, occasionsOf, type PlanState, pastOf, planStates, type Repeats } from '../../lib/followup/index.ts'
import type { FollowUpPlan, TestGroup } from '../../lib/plan/index.ts'
import type { History } from '../../lib/results/index.ts'
import { repeatsOf, repeatsWithin } from '../../lib/standing/index.ts'
import { type Day, day } from '../../lib/time/index.ts'
import { type HistoryWords, history } from '../builders/history.ts'

export const REPEATS: Repeats = { on: repeatsOf, within: repeatsWithin }
const EVER = day('1900-01-01')

/** Every state of a history up to a cut-off. */
export function statesUntil(of: History, cutOff: string, plans: readonly FollowUpPlan[] = [], since: Day = EVER): readonly PlanState[] {
  return [...planStates(pastOf(of, plans, day(cutOff)), REPEATS, since)]
}

/** Every occasion of a history in few words, up to a cut-off. */
export function replayed(words: HistoryWords | History, cutOff: string, plans: readonly FollowUpPlan[] = []): readonly Occasion[] {
  const of = 'patient' in words ? words : history(words)
  const past = pastOf(of, plans, day(cutOff))
  return occasionsOf([...planStates(past, REPEATS, EVER)], past.done, day(cutOff))
}

/** Those of one group, each as `due done verdict`, with why it is excluded or the days it was late. */
export function told(occasions: readonly Occasion[], group: TestGroup = 'serum-m-protein'): readonly string[] {
  return occasions
    .filter((one) => one.group === group)
    .map(({ dueOn, doneOn, verdict, excluded, daysLate }) => {
      const more = excluded ?? (verdict === 'late' ? String(daysLate) : null)
      return `${dueOn} ${doneOn ?? '-'} ${verdict}${more === null ? '' : ` ${more}`}`
    })
}
