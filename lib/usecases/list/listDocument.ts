import type { Day } from '../../time/index.ts'
import type { Call, Outcome } from '../call.ts'
import type { FindingJson } from '../json/findingJson.ts'
import { planInForce } from '../plan/planInForce.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { renewStandings } from '../standing/renewStandings.ts'
import { assessedInOrder } from './assessedInOrder.ts'
import { nextDueOn, type OverdueJson, overdueOn } from './dueOn.ts'
import { type StandingAnswer, standingAnswer } from './standingAnswer.ts'

export interface ListEntryJson {
  readonly position: number
  readonly patientId: string
  readonly window: string
  readonly phase: string
  readonly care: string | null
  readonly findings: readonly FindingJson[]
  readonly overdue: readonly OverdueJson[]
  readonly nextDueOn: Day | null
  readonly why: string
}

/** The review list as the command line prints it (command-line.md). */
export interface ListDocument {
  readonly asOf: Day
  readonly planVersion: string
  readonly patients: readonly ListEntryJson[]
}

interface Placed {
  readonly patientId: string
  readonly answer: StandingAnswer
}

function keptInOrder(call: Call): Placed[] {
  return call.store.reader.standingsInOrder().map(({ patientId, answer }) => ({ patientId, answer: JSON.parse(answer) as StandingAnswer }))
}

function evaluatedInOrder(call: Call, asOf: Day): Placed[] {
  return assessedInOrder(call, asOf).map((assessment) => ({ patientId: assessment.course.patient.id, answer: standingAnswer(assessment) }))
}

/** All followed patients in order. `asOf` null is today, from what is kept; another day is evaluated afresh. */
export async function listDocument(call: Call, asOf: Day | null): Promise<Outcome<ListDocument>> {
  const refused = await refusedUnlessMay(call, 'list.read', 'review list')
  if (refused !== null) return refused
  const on = asOf ?? call.today
  if (on === call.today) await renewStandings(call)
  const placed = on === call.today ? keptInOrder(call) : evaluatedInOrder(call, on)
  await call.store.record(call, () => ({ value: null, events: [{ action: 'list-shown', patients: placed.map((entry) => entry.patientId) }] }))
  const patients = placed.map(({ patientId, answer }, index) => ({
    position: index + 1,
    patientId,
    window: answer.window,
    phase: answer.phase,
    care: answer.care,
    findings: answer.findings,
    overdue: overdueOn(answer.due, on),
    nextDueOn: nextDueOn(answer.due, on),
    why: answer.why,
  }))
  return { ok: true, value: { asOf: on, planVersion: planInForce(call.store.reader, on).version, patients } }
}
