import { assess, consequenceOf } from '../../standing/index.ts'
import type { Call, Outcome } from '../call.ts'
import { logClosedRefusal } from '../emergency/closed.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { asTheyStand } from './asTheyStand.ts'
import { consequenceView } from './consequenceView.ts'
import { type Judge, unlessRefused, type Wish } from './proposal.ts'
import { stampOf } from './stamp.ts'
import type { Preview } from './views.ts'

// Stands in a proposed history until there is a reason: a preview is asked for before one is typed.
const NO_REASON = 'not kept yet'

/**
 * What a proposal would do, by the code that keeps it: the same judge, the same evaluation, of the history with the proposal in it. Read at one moment,
 * under no lock; that it was shown is in the log before it is answered.
 */
export async function previewProposal<T>(call: Call, wish: Pick<Wish, 'permission' | 'patientId'>, judge: Judge<T>): Promise<Outcome<Preview>> {
  const refused = await refusedUnlessMay(call, wish.permission, 'patient')
  if (refused !== null) return refused
  const { reader } = call.store
  const outcome = await unlessRefused(() => {
    const [{ history, revision, plan, assessment: now }, proposal] = reader.atOnce(() => {
      const patient = asTheyStand(call, wish.patientId, reader)
      return [patient, judge(patient.assessment, reader)] as const
    })
    const made = { at: call.now, on: call.today, by: call.actor.name, text: NO_REASON }
    const would = assess(proposal.added(history, made), plan, call.today)
    const stamp = stampOf(proposal.content, { revision, planVersion: plan.version, today: call.today })
    return { patientId: history.patient.id, preview: { ...consequenceView(consequenceOf(now, would)), notes: proposal.notes ?? [], stamp } }
  })
  if (!outcome.ok) {
    if (outcome.closed) await logClosedRefusal(call, wish.permission, reader.keptId(wish.patientId))
    return outcome
  }
  const { patientId, preview } = outcome.value
  await call.store.record(call, () => ({ value: null, events: [{ action: 'consequence-shown', patientId }] }))
  return { ok: true, value: preview }
}
