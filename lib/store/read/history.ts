import type { History } from '../../results/index.ts'
import type { Connection } from '../connection.ts'
import { currentEvents } from './courseEvents.ts'
import { decisionsOf } from './decisions.ts'
import { heldNotices } from './held.ts'
import { patientOf } from './patients.ts'
import { currentResults } from './results.ts'
import { inSnapshot } from './snapshot.ts'

/** A patient's history and the revision it stands at. */
export interface LoadedHistory {
  readonly history: History
  readonly revision: number
}

/** All that is known of a patient, read at one moment: current versions that were not withdrawn; null where nobody has this id. */
export function loadHistory(connection: Connection, patientId: string): LoadedHistory | null {
  return inSnapshot(connection, () => {
    const stored = patientOf(connection, patientId)
    if (stored === null) return null
    const results = currentResults(connection, patientId).map(({ result }) => result)
    const events = currentEvents(connection, patientId)
    const held = heldNotices(connection, patientId)
    return { history: { patient: stored.patient, results, events, held, decisions: decisionsOf(connection, patientId) }, revision: stored.revision }
  })
}
