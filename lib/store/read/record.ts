import { type ArrivedEvent, type JoinedRecords, joinRecords, type PatientRecord } from '../../results/index.ts'
import type { Connection } from '../connection.ts'
import { arrivedEvents } from './courseEvents.ts'
import { decisionsOf } from './decisions.ts'
import { heldNotices } from './held.ts'
import { joinedIds } from './merges.ts'
import { patientOf } from './patients.ts'
import { patientResultVersions } from './results.ts'

/** Everything stored of one record alone, whatever it is joined to; null where nobody has this id. */
export function recordOf(connection: Connection, patientId: string): PatientRecord | null {
  const stored = patientOf(connection, patientId)
  if (stored === null) return null
  const events: ArrivedEvent[] = arrivedEvents(connection, patientId)
  return {
    patient: stored.patient,
    results: patientResultVersions(connection, patientId),
    events,
    held: heldNotices(connection, patientId),
    decisions: decisionsOf(connection, patientId),
  }
}

/** The records that are read as one with this one, joined; null where none is. */
export function joinedRecords(connection: Connection, patientId: string): JoinedRecords | null {
  const ids = joinedIds(connection, patientId)
  const kept = ids.length === 0 ? null : recordOf(connection, patientId)
  return kept === null
    ? null
    : joinRecords(
        kept,
        ids.flatMap((id) => recordOf(connection, id) ?? []),
      )
}
