import { emergencyRuns } from '../../access/index.ts'
import type { StoredEmergency } from '../../store/index.ts'
import type { Call, Outcome } from '../call.ts'
import { notTold, patientTold } from '../patientTold.ts'
import { samePerson } from '../plan/decideProposal.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { sessionEnd } from './sessionEnd.ts'
import type { EmergencyView, EmergencyViewsPage } from './views.ts'

/** So many acknowledged ones are shown; all of them stay stored, and in the log. Ours. */
const SHOWN = 50

function endOf({ untilAt, endedAt }: StoredEmergency, sessionEndedAt: string | null, now: string): Pick<EmergencyView, 'state' | 'toAt'> {
  const toAt = endedAt ?? (sessionEndedAt !== null && sessionEndedAt < untilAt ? sessionEndedAt : untilAt)
  if (endedAt !== null) return { toAt, state: 'ended by the physician' }
  if (toAt !== untilAt) return { toAt, state: 'ended with the session' }
  return { toAt, state: emergencyRuns({ untilAt, endedAt }, now) ? 'runs' : 'ran out' }
}

function told(call: Call, view: StoredEmergency, patientOf: (patientId: string) => string): EmergencyView {
  const { reader } = call.store
  const { id, openedBy, fromAt, reason, acknowledgedBy, acknowledgedAt, note } = view
  const end = endOf(view, sessionEnd(reader, view, call.now), call.now)
  const minutes = Math.round((Date.parse(end.toAt) - Date.parse(fromAt)) / 60_000)
  const own = samePerson(openedBy, call.actor.name)
  const opened = reader.openedInEmergency(id)
  const patient = patientOf(reader.keptId(view.patientId))
  return { emergencyId: id, openedBy, fromAt, ...end, minutes, reason, patient, opened, own, acknowledgedBy, acknowledgedAt, note }
}

/** Every emergency view nobody acknowledged, and the last that were, each with its reason. Logged: a reason may tell of a patient. */
export async function readEmergencies(call: Call): Promise<Outcome<EmergencyViewsPage>> {
  const refused = await refusedUnlessMay(call, 'emergency.acknowledge', 'emergency views')
  if (refused !== null) return refused
  const nobody = notTold(call)
  if (nobody !== null) return nobody
  const { reader } = call.store
  const patientOf = patientTold(call)
  const value = reader.atOnce(() => ({
    waiting: reader.emergenciesWaiting().map((view) => told(call, view, patientOf)),
    acknowledged: reader.emergenciesAcknowledged(SHOWN).map((view) => told(call, view, patientOf)),
  }))
  const emergencyIds = [...value.waiting, ...value.acknowledged].map(({ emergencyId }) => emergencyId)
  await call.store.record(call, () => ({ value: null, events: [{ action: 'emergency-views-shown', emergencyIds }] }))
  return { ok: true, value }
}

/** How many emergency views nobody acknowledged. */
export async function countEmergencies(call: Call): Promise<Outcome<number>> {
  const refused = await refusedUnlessMay(call, 'emergency.acknowledge', 'emergency views')
  return refused ?? { ok: true, value: call.store.reader.countEmergenciesWaiting() }
}
