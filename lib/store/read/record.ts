import { type ArrivedEvent, type Decision, type JoinedRecords, joinRecords, type PatientRecord } from '../../results/index.ts'
import type { Connection } from '../connection.ts'
import { changesOf } from './changes.ts'
import { courseChangesOf } from './courseChanges.ts'
import { arrivedEvents } from './courseEvents.ts'
import { decisionsOf } from './decisions.ts'
import { heldNotices } from './held.ts'
import { joinedIds } from './merges.ts'
import { patientOf } from './patients.ts'
import { patientResultVersions } from './results.ts'

/**
 * Everything stored of one record alone that was not taken back, whatever it is joined to; null where nobody has this id. `decided` are those its changes
 * may name, `recordIds` the records it is read as one with.
 */
export function recordOf(
  connection: Connection,
  patientId: string,
  decided?: readonly Decision[],
  recordIds: readonly string[] = [patientId],
): PatientRecord | null {
  const stored = patientOf(connection, patientId)
  if (stored === null) return null
  const decisions = decisionsOf(connection, patientId)
  const events: ArrivedEvent[] = arrivedEvents(connection, patientId)
  return {
    patient: stored.patient,
    results: patientResultVersions(connection, patientId).filter(({ takenBack }) => !takenBack),
    events,
    held: heldNotices(connection, patientId),
    decisions,
    courseChanges: courseChangesOf(connection, patientId),
    changes: changesOf(connection, patientId, decided ?? decisions, recordIds),
  }
}

/** The records that are read as one with this one, joined; null where none is. */
export function joinedRecords(connection: Connection, patientId: string): JoinedRecords | null {
  const ids = joinedIds(connection, patientId)
  if (ids.length === 0) return null
  const decided: readonly Decision[] = [patientId, ...ids].flatMap((id) => decisionsOf(connection, id))
  const [kept, ...others] = [patientId, ...ids].flatMap((id) => recordOf(connection, id, decided, [patientId, ...ids]) ?? [])
  return kept === undefined ? null : joinRecords(kept, others)
}
