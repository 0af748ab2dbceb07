import { type Course, isActive } from '../course/index.ts'
import type { RiskAssessment } from '../models/index.ts'
import { addDays, type Day, daysBetween, laterDay } from '../time/index.ts'
import { daysDone } from './done.ts'
import { graceDays, intervalText, plusInterval } from './interval.ts'
import { type DueTest, type FollowUpPlan, type Interval, type PlanRow, type Repeat, TEST_GROUPS, type TestGroup } from './plan.ts'
import { rowBegins } from './rowBegins.ts'

/** One row's wish for one test group: an interval, counted from a day. */
interface Asked {
  readonly from: Day
  readonly every: Interval
  /** When the row began to ask: it makes nothing due before that. */
  readonly begins: Day
  readonly because: string
}

/** What the plan asks of a course on a day: the part of it that decides what is due. */
export type PlannedCourse = Pick<Course, 'today' | 'phase' | 'care' | 'careSince' | 'line' | 'boneAgents' | 'measurableBy' | 'leftOn'> & {
  /** The day a test group was last done by then. */
  readonly lastDoneOn: (group: TestGroup) => Day | null
}

interface Asking {
  readonly course: PlannedCourse
  readonly plan: FollowUpPlan
  readonly group: TestGroup
  readonly lastDoneOn: Day | null
}

/** The step that is followed: a step that ends lasts until a sample is done near enough to its end, or later. Null when the row asks for no more. */
function stepNow({ steps }: PlanRow, begins: Day, { plan, lastDoneOn }: Asking): Interval | null {
  const step = steps.find(({ every, until }) => {
    if (until === null || lastDoneOn === null) return true
    return lastDoneOn < addDays(plusInterval(begins, until), -graceDays(plan.grace, begins, every))
  })
  return step?.every ?? null
}

function askedByRow(row: PlanRow, risk: readonly RiskAssessment[], asking: Asking): Asked[] {
  const { course, group, lastDoneOn } = asking
  if (!row.groups.includes(group)) return []
  if (group === 'urine-24h' && !course.measurableBy.includes('urine')) return []
  const begins = rowBegins(row.for, course, risk)
  const every = begins === null ? null : stepNow(row, begins, asking)
  if (begins === null || every === null) return []
  const from = lastDoneOn ?? begins
  const since = lastDoneOn === null ? `from ${begins}, none done yet` : `after the one of ${lastDoneOn}`
  return [{ from, every, begins, because: `${row.name}: ${intervalText(every)} ${since}; ${row.source}` }]
}

function askedByRepeat(row: PlanRow, repeats: readonly Repeat[], { course, group, lastDoneOn }: Asking): Asked[] {
  const every = row.steps[0]?.every
  if (row.for.who !== 'unconfirmed-finding' || every === undefined || course.phase === null || !isActive(course.phase.phase)) return []
  return repeats
    .filter((repeat) => repeat.group === group && (lastDoneOn === null || lastDoneOn <= repeat.sampledOn))
    .map(({ sampledOn }) => ({
      from: sampledOn,
      every,
      begins: sampledOn,
      because: `${row.name}: ${intervalText(every)} after the sample of ${sampledOn}; ${row.source}`,
    }))
}

function dueTest({ from, every, begins, because }: Asked, { course, plan, group, lastDoneOn }: Asking): DueTest {
  const dueOn = laterDay(plusInterval(from, every), begins)
  return {
    group,
    lastDoneOn,
    dueOn,
    graceEndsOn: addDays(dueOn, graceDays(plan.grace, from, every)),
    daysLate: Math.max(0, daysBetween(dueOn, course.today)),
    intervalDays: daysBetween(dueOn, plusInterval(dueOn, every)),
    because,
  }
}

/**
 * What is due by the plan, one entry a test group in the order of TEST_GROUPS: of the rows that are for the patient the one that asks for it first.
 * Counted from the sample that last did the test, else from the day the row began to count; never due before that day (ours): a line that starts
 * today does not make yesterday's absence of a test late. Nothing is due once the patient has left the clinic.
 */
export function dueByPlan(course: PlannedCourse, plan: FollowUpPlan, risk: readonly RiskAssessment[], repeats: readonly Repeat[]): DueTest[] {
  if (course.leftOn !== null) return []
  return TEST_GROUPS.flatMap((group) => {
    const asking: Asking = { course, plan, group, lastDoneOn: course.lastDoneOn(group) }
    const asked = plan.rows.flatMap((row) => [...askedByRow(row, risk, asking), ...askedByRepeat(row, repeats, asking)])
    const due = asked.map((one) => dueTest(one, asking))
    return due.length === 0 ? [] : [due.reduce((first, other) => (other.dueOn < first.dueOn ? other : first))]
  })
}

/** `dueByPlan` of a course as it was traced. */
export function testsDue(course: Course, plan: FollowUpPlan, risk: readonly RiskAssessment[], repeats: readonly Repeat[]): DueTest[] {
  return dueByPlan({ ...course, lastDoneOn: (group) => daysDone(course, group).at(-1) ?? null }, plan, risk, repeats)
}
