import { type DueTest, TEST_GROUPS, type TestGroup } from '../plan/index.ts'
import { addDays, type Day, daysBetween, laterDay } from '../time/index.ts'
import type { Exclusion, Occasion, Stood, Verdict } from './occasion.ts'
import type { PlanState } from './planStates.ts'

type Asked = Pick<DueTest, 'dueOn' | 'graceEndsOn' | 'lastDoneOn'>

/** What the list asks for of one group: since when it was due, once it was. */
interface Open {
  readonly asked: Asked
  readonly stood: Stood
  /** The first day on which the list had it as due; null before that. */
  readonly reachedOn: Day | null
}

function stoodOf({ planVersion, phase, care, risk, clinician }: Stood): Stood {
  return { planVersion, phase, care, risk, clinician }
}

function occasion(group: TestGroup, { asked, stood }: Open, verdict: Verdict, doneOn: Day | null, excluded: Exclusion | null = null): Occasion {
  const daysLate = verdict === 'late' && doneOn !== null ? daysBetween(asked.dueOn, doneOn) : 0
  const { dueOn, graceEndsOn, lastDoneOn } = asked
  return { ...stood, group, dueOn, graceEndsOn, lastDoneOn, doneOn, verdict, excluded, daysLate }
}

/** Asked for on a day after its due day: a plan or a fact that came later does not make the past late. */
function retroactive({ asked, reachedOn }: Open): boolean {
  return reachedOn !== null && reachedOn > asked.dueOn
}

/** What a sample of that day does of what was asked for on the day before: an early one does nothing, and moves the due day. */
function doneBy(group: TestGroup, open: Open, on: Day): Occasion[] {
  const { dueOn, graceEndsOn } = open.asked
  if (retroactive(open)) return [occasion(group, open, 'excluded', on, 'plan-not-in-force')]
  if (on < addDays(dueOn, -daysBetween(dueOn, graceEndsOn))) return []
  return [occasion(group, open, on <= graceEndsOn ? 'on-time' : 'late', on)]
}

/** What is asked for no longer, or only later: overdue by then it was missed, within its grace it was not yet late, and whoever left is excluded. */
function endedBy(group: TestGroup, open: Open, { from, left }: PlanState): Occasion[] {
  if (open.reachedOn === null) return []
  if (retroactive(open)) return [occasion(group, open, 'excluded', null, 'plan-not-in-force')]
  if (open.asked.graceEndsOn < from) return [occasion(group, open, 'missed', null)]
  return left === null ? [] : [occasion(group, open, 'excluded', null, left)]
}

function opened(state: PlanState, due: DueTest | undefined): Open | null {
  return due === undefined ? null : { asked: due, stood: stoodOf(state), reachedOn: null }
}

/** One group at the beginning of a state: what that ends, and what is open from then on. */
function enter(
  group: TestGroup,
  open: Open | null,
  state: PlanState,
  isDone: boolean,
): { readonly ended: readonly Occasion[]; readonly open: Open | null } {
  const due = state.due.find((test) => test.group === group)
  const next = opened(state, due)
  if (open === null) return { ended: [], open: next }
  if (isDone) return { ended: doneBy(group, open, state.from), open: next }
  if (due === undefined) return { ended: endedBy(group, open, state), open: null }
  if (open.reachedOn === null) return { ended: [], open: next }
  return due.dueOn > open.asked.dueOn ? { ended: endedBy(group, open, state), open: next } : { ended: [], open }
}

/** The last day of a state reaches what was due by then. */
function reach(open: Open | null, state: PlanState, ends: Day): Open | null {
  if (open === null || open.reachedOn !== null || open.asked.dueOn > ends) return open
  return { ...open, stood: stoodOf(state), reachedOn: laterDay(open.asked.dueOn, state.from) }
}

function atCutOff(group: TestGroup, open: Open, cutOff: Day): Occasion[] {
  if (open.reachedOn === null) return []
  if (retroactive(open)) return [occasion(group, open, 'excluded', null, 'plan-not-in-force')]
  return [occasion(group, open, open.asked.graceEndsOn < cutOff ? 'missed' : 'pending', null)]
}

/** Each due day once: one that comes back after it was judged, because a later plan or fact asks for it again, stays judged as it was. */
function eachDueDayOnce(found: readonly Occasion[]): readonly Occasion[] {
  const judged = new Map<Day, Occasion>()
  for (const one of found) if (!judged.has(one.dueOn)) judged.set(one.dueOn, one)
  return [...judged.values()]
}

/**
 * The occasions of one patient, from what the list asked for day by day (`states`, earliest first, as of the end of each day) up to the cut-off. A due day that
 * was moved before it was reached is none; one that was reached is judged as it stood then.
 */
export function occasionsOf(states: readonly PlanState[], done: Readonly<Record<TestGroup, readonly Day[]>>, cutOff: Day): readonly Occasion[] {
  return TEST_GROUPS.flatMap((group) => {
    const found: Occasion[] = []
    const days = new Set(done[group])
    let open: Open | null = null
    for (const [index, state] of states.entries()) {
      const entered = enter(group, open, state, days.has(state.from))
      found.push(...entered.ended)
      const next = states[index + 1]
      open = reach(entered.open, state, next === undefined ? cutOff : addDays(next.from, -1))
    }
    if (open !== null) found.push(...atCutOff(group, open, cutOff))
    return eachDueDayOnce(found)
  })
}
