import { emergencyRuns, may } from '../../access/index.ts'
import type { Reader, StoredEmergency } from '../../store/index.ts'
import type { Call } from '../call.ts'

type Asked = Pick<Reader, 'emergenciesOfSession' | 'keptId'>

/**
 * The emergency views that run now for whoever asks: theirs, of this session, neither ended nor over, and only while their role may open any. Asked afresh
 * at every read, so that a view ends by itself, with its session, and with a change of role.
 */
export function runningViews(reader: Asked, { actor, now }: Pick<Call, 'actor' | 'now'>): readonly StoredEmergency[] {
  const { name, role, sessionHash } = actor
  if (sessionHash === null || !may(role === 'none' ? null : role, 'emergency.open').allowed) return []
  return reader.emergenciesOfSession(name, sessionHash).filter((view) => emergencyRuns(view, now))
}

/** The view that opens this patient's record now, by any of its identifiers; null where none does. */
export function runningViewOf(reader: Asked, call: Pick<Call, 'actor' | 'now'>, patientId: string): StoredEmergency | null {
  const kept = reader.keptId(patientId)
  return runningViews(reader, call).find((view) => reader.keptId(view.patientId) === kept) ?? null
}
