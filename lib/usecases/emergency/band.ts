import type { StoredEmergency } from '../../store/index.ts'
import type { Call } from '../call.ts'
import { clinicTime } from '../clinicDay.ts'
import type { EmergencyBand } from './views.ts'

/** An emergency view as the page it opens tells it. */
export function emergencyBand({ id, reason, untilAt }: StoredEmergency, { now }: Pick<Call, 'now'>): EmergencyBand {
  const until = new Date(untilAt)
  const secondsLeft = Math.max(0, Math.ceil((until.getTime() - Date.parse(now)) / 1000))
  return { emergencyId: id, reason, untilAt, until: clinicTime(until), secondsLeft }
}
