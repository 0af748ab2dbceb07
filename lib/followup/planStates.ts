import { baselineAt, type Course, isActive, measurableInUrine, openingOf, traceCourse } from '../course/index.ts'
import { riskAssessments } from '../models/index.ts'
import { type DueTest, daysDone, dueByPlan, type FollowUpPlan, planOn, planRisk, type Repeat, TEST_GROUPS, type TestGroup } from '../plan/index.ts'
import { countingResults, type History, historyAsOf } from '../results/index.ts'
import { addDays, type Day } from '../time/index.ts'
import { leftAs } from './leftAs.ts'
import type { Left, Stood } from './occasion.ts'

/** From `from` on, until the next state, the list asks for this. */
export interface PlanState extends Stood {
  readonly from: Day
  readonly due: readonly DueTest[]
  /** How the patient left the clinic; null while followed. */
  readonly left: Left | null
}

/** What the audit asks about findings: rules stand behind this room, so whoever calls brings them. */
export interface Repeats {
  /** The tests that unconfirmed findings of that course ask to be repeated. */
  readonly on: (course: Course) => readonly Repeat[]
  /** The same for any day between two events of a course, which is that of the last of them; null where the course has to be traced for the day. */
  readonly within: (course: Course) => (on: Day) => readonly Repeat[] | null
}

const NO_REPEATS = (): readonly Repeat[] => []

/** One patient's past, ready to be walked through: only what counts at the cut-off. */
export interface Past {
  /** The course as of an earlier day, by the plan in force on it. Traced once a day asked for. */
  readonly courseOn: (on: Day) => Course
  readonly history: History
  /** The course as of the cut-off. */
  readonly course: Course
  /** Days on which each group was done, earliest first. */
  readonly done: Readonly<Record<TestGroup, readonly Day[]>>
  readonly cutOff: Day
  /** Published versions of the plan, in the order of their publication. */
  readonly plans: readonly FollowUpPlan[]
}

/**
 * A patient's past as it counts on the day of the cut-off: results in the version that counts, those excluded as spurious left out from the beginning;
 * the course, and what physicians changed of it, with the day of each.
 */
export function pastOf(history: History, plans: readonly FollowUpPlan[], cutOff: Day): Past {
  const known = historyAsOf(history, cutOff)
  const counted: History = { ...known, results: countingResults(known), decisions: [], held: [], changes: [] }
  const traced = new Map<Day, Course>()
  const courseOn = (on: Day): Course => {
    const known = traced.get(on) ?? traceCourse(counted, on, planOn(plans, on).thresholds)
    traced.set(on, known)
    return known
  }
  const course = courseOn(cutOff)
  const done = Object.fromEntries(TEST_GROUPS.map((group) => [group, daysDone(course, group)])) as Past['done']
  return { courseOn, history: counted, course, done, cutOff, plans }
}

/** What happens on a day and changes nothing of what is asked for but as a sample does. */
const AS_SAMPLES: readonly string[] = ['imaging', 'marrow', 'bone-agent']

/** Days on which the course, the plan or the patient's status may change other than by a sample. */
function turns({ history, plans, cutOff }: Past): readonly Day[] {
  const { patient, events, courseChanges } = history
  const boneAgent = events.flatMap(({ event, on }) => (event === 'bone-agent' ? [on] : [])).sort()[0]
  const days = [
    ...(boneAgent === undefined ? [] : [boneAgent]),
    ...events.filter(({ event }) => !AS_SAMPLES.includes(event)).map(({ on }) => on),
    ...courseChanges.map(({ on }) => on),
    ...(patient.statusOn === null ? [] : [patient.statusOn]),
    ...plans.map(({ from }) => from),
  ]
  return [...new Set(days.filter((on) => on <= cutOff))].sort()
}

/** Days on which something was sampled or done. */
function sampledDays({ results, events }: History): readonly Day[] {
  const done = events.filter(({ event }) => AS_SAMPLES.includes(event)).map(({ on }) => on)
  return [...new Set([...results.map(({ collected }) => collected.on), ...done])].sort()
}

function lastBy(days: readonly Day[], on: Day): Day | null {
  return days.findLast((one) => one <= on) ?? null
}

/** Whether urine was measurable at baseline, as known on a day within the stretch the course was traced for. */
function urineOn(course: Course, on: Day): boolean {
  const { phase, line, diagnosedOn, thresholds } = course
  const samples = course.markers['urine-m-protein'].samples.filter((sample) => sample.on <= on)
  if (samples.length === 0) return false
  return measurableInUrine(samples[baselineAt(samples, openingOf(phase, line, diagnosedOn, thresholds)) ?? -1] ?? null)
}

function stateOn(past: Past, stretch: Course, plan: FollowUpPlan, repeats: readonly Repeat[], on: Day): PlanState {
  const { phase, care, leftOn, patient } = stretch
  const risk = phase === null || isActive(phase.phase) ? [] : riskAssessments({ ...stretch, today: on })
  const planned = {
    ...stretch,
    today: on,
    boneAgents: stretch.boneAgents.filter((event) => event.on <= on),
    measurableBy: urineOn(stretch, on) ? (['urine'] as const) : [],
    lastDoneOn: (group: TestGroup) => lastBy(past.done[group], on),
  }
  const asked = phase?.phase === 'mgus' || phase?.phase === 'smouldering' ? planRisk(phase.phase, risk) : null
  return {
    from: on,
    due: dueByPlan(planned, plan, risk, repeats),
    left: leftOn === null ? null : leftAs(past.history, leftOn),
    planVersion: plan.version,
    phase: phase?.phase ?? null,
    care,
    risk: asked,
    clinician: patient.clinician,
  }
}

/**
 * What the list asked for, day by day, as of each day: one state for every day on which it may have changed, earliest first, up to the cut-off. The course is
 * traced once for each stretch between two of its events, since within one only samples are added. `since` leaves out states that had ended by then.
 */
export function* planStates(past: Past, repeats: Repeats, since: Day): Generator<PlanState> {
  const boundaries = turns(past)
  const sampled = sampledDays(past.history)
  for (const [index, begins] of boundaries.entries()) {
    const next = boundaries[index + 1]
    const ends = next === undefined ? past.cutOff : addDays(next, -1)
    if (ends < since) continue
    const plan = planOn(past.plans, begins)
    const stretch = past.courseOn(ends)
    const active = stretch.phase !== null && isActive(stretch.phase.phase) && stretch.leftOn === null
    const within = active ? repeats.within(stretch) : NO_REPEATS
    const days = [begins, ...sampled.filter((on) => on > begins && on <= ends)]
    for (const [at, on] of days.entries()) {
      const following = days[at + 1]
      if (following !== undefined && following <= since) continue
      const asked = within(on) ?? repeats.on(traceCourse(past.history, on, plan.thresholds))
      yield stateOn(past, stretch, plan, asked, on)
    }
  }
}
