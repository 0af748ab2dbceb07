import type { TestGroup } from '../plan/index.ts'
import { addDays, type Day, daysBetween, earlierDay, laterDay } from '../time/index.ts'
import type { Stood } from './occasion.ts'
import type { PlanState } from './planStates.ts'

/** Days of one patient in a period: followed with a phase recorded, and of those the ones on which nothing was past its grace. */
export interface PersonDays {
  readonly total: number
  readonly covered: number
}

/** A state with its last day. */
function spans(states: readonly PlanState[], cutOff: Day): readonly { readonly state: PlanState; readonly ends: Day }[] {
  return states.map((state, at) => {
    const next = states[at + 1]
    return { state, ends: next === undefined ? cutOff : addDays(next.from, -1) }
  })
}

/** The person-days of a period up to the cut-off, both ends included, as the list stood on each. */
export function personDays(states: readonly PlanState[], from: Day, to: Day, cutOff: Day): PersonDays {
  let [total, covered] = [0, 0]
  for (const { state, ends } of spans(states, cutOff)) {
    const [first, last] = [laterDay(state.from, from), earlierDay(ends, to)]
    if (first > last || state.left !== null || state.phase === null) continue
    const days = daysBetween(first, last) + 1
    total += days
    const graceEnds = state.due.map(({ graceEndsOn }) => graceEndsOn).sort()[0]
    covered += graceEnds === undefined ? days : Math.min(days, Math.max(0, daysBetween(first, graceEnds) + 1))
  }
  return { total, covered }
}

/** A test that is past its grace on a day. */
export interface Overdue extends Stood {
  readonly group: TestGroup
  readonly dueOn: Day
  /** That day. */
  readonly on: Day
  /** Days past its due day. */
  readonly age: number
}

/** What the list has as overdue at the end of a day; nothing before the first state. */
export function overdueOn(states: readonly PlanState[], on: Day): readonly Overdue[] {
  const state = states.findLast(({ from }) => from <= on)
  if (state === undefined) return []
  const { planVersion, phase, care, risk, clinician } = state
  return state.due
    .filter(({ graceEndsOn }) => graceEndsOn < on)
    .map(({ group, dueOn }) => ({ planVersion, phase, care, risk, clinician, group, dueOn, on, age: daysBetween(dueOn, on) }))
}
