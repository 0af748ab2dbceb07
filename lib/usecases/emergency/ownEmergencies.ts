import type { Call, Outcome } from '../call.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { emergencyBand } from './band.ts'
import { runningViews } from './runningView.ts'
import type { OwnEmergency } from './views.ts'

/** The emergency views that run for whoever asks, in this session. Nothing of a patient is shown but the number they opened. */
export async function ownEmergencies(call: Call): Promise<Outcome<readonly OwnEmergency[]>> {
  const refused = await refusedUnlessMay(call, 'emergency.open', 'emergency views')
  if (refused !== null) return refused
  const { reader } = call.store
  const value = runningViews(reader, call).map((view) => {
    const patientId = reader.keptId(view.patientId)
    return { ...emergencyBand(view, call), patientId, address: reader.patientAddress(patientId) }
  })
  return { ok: true, value }
}
