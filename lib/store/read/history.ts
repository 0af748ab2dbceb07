import type { History, LabResult } from '../../results/index.ts'
import type { Connection } from '../connection.ts'
import { changesOf } from './changes.ts'
import { countedResults } from './countedResults.ts'
import { courseChangesOf } from './courseChanges.ts'
import { currentEvents } from './courseEvents.ts'
import { decisionsOf } from './decisions.ts'
import { heldNotices } from './held.ts'
import { keptIdOf } from './merges.ts'
import { patientOf } from './patients.ts'
import { joinedRecords } from './record.ts'
import { currentResults } from './results.ts'

/** A patient's history and the revision it stands at. */
export interface LoadedHistory {
  readonly history: History
  readonly revision: number
  /** Whether it is of several records that are read as one. */
  readonly joined: boolean
}

/**
 * All that is known of a patient, read at one moment: current versions that were not withdrawn; null where nobody has this id. Records that are joined are
 * read as one, by either identifier; `history.patient.id` is that of the record that is kept.
 */
export function loadHistory(connection: Connection, anyId: string): LoadedHistory | null {
  return load(connection, anyId, (patientId) => currentResults(connection, patientId).map(({ result }) => result))
}

/** The same for evaluating many patients one after the other: results as `countedResults` reads them. */
export function loadCounted(connection: Connection, anyId: string): LoadedHistory | null {
  return load(connection, anyId, (patientId) => countedResults(connection, patientId))
}

function load(connection: Connection, anyId: string, resultsOf: (patientId: string) => readonly LabResult[]): LoadedHistory | null {
  return connection.snapshot(() => {
    const patientId = keptIdOf(connection, anyId)
    const stored = patientOf(connection, patientId)
    if (stored === null) return null
    const joined = joinedRecords(connection, patientId)
    if (joined !== null) return { history: joined.history, revision: stored.revision, joined: true }
    const results = resultsOf(patientId)
    const events = currentEvents(connection, patientId)
    const held = heldNotices(connection, patientId)
    const decisions = decisionsOf(connection, patientId)
    const courseChanges = courseChangesOf(connection, patientId)
    const changes = changesOf(connection, patientId, decisions)
    return {
      history: { patient: stored.patient, results, events, held, decisions, courseChanges, changes },
      revision: stored.revision,
      joined: false,
    }
  })
}
