import type { History, LabResult } from '../../results/index.ts'
import type { Connection } from '../connection.ts'
import { courseChangeOf } from '../rows/courseChange.ts'
import { courseEventOf } from '../rows/courseEvent.ts'
import { decisionOf } from '../rows/decision.ts'
import { type StoredPatientColumns, storedPatient } from '../rows/patient.ts'
import { CHANGES, type ChangeRow, changesIn } from './changes.ts'
import { countedResults } from './countedResults.ts'
import { COURSE_CHANGES, type CourseChangeRow } from './courseChanges.ts'
import { CURRENT_EVENTS, type CurrentEventRow } from './courseEvents.ts'
import { DECISIONS, type DecisionRow } from './decisions.ts'
import { NOTICES, type NoticeRow, noticeOf } from './held.ts'
import { listText, rowsIn } from './lists.ts'
import { HAS_JOINED, KEPT_ID } from './merges.ts'
import { STORED_PATIENT } from './patients.ts'
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

const LISTS = { events: CURRENT_EVENTS, held: NOTICES, decisions: DECISIONS, courseChanges: COURSE_CHANGES, changes: CHANGES } as const

type Asked = StoredPatientColumns & { readonly joined: number } & Readonly<Record<keyof typeof LISTS, string | null>>

// All but the results, of the record that is kept.
const LISTED = Object.entries(LISTS).map(([name, list]) => `${listText(list, 'patient.id')} AS ${name}`)
const KNOWN = `SELECT ${STORED_PATIENT.join(', ')}, ${HAS_JOINED} AS joined, ${LISTED.join(', ')} FROM patient WHERE patient.id = coalesce((${KEPT_ID}), ?)`

function load(connection: Connection, anyId: string, resultsOf: (patientId: string) => readonly LabResult[]): LoadedHistory | null {
  return connection.snapshot(() => {
    const asked = connection.statement<Asked>(KNOWN).get(anyId, anyId)
    if (asked === undefined) return null
    const { patient, revision } = storedPatient(asked)
    const joined = asked.joined === 0 ? null : joinedRecords(connection, patient.id)
    if (joined !== null) return { history: joined.history, revision, joined: true }
    const results = resultsOf(patient.id)
    const events = rowsIn<CurrentEventRow>(asked.events).map(({ payload }) => courseEventOf(payload))
    const held = rowsIn<NoticeRow>(asked.held).map(noticeOf)
    const decisions = rowsIn<DecisionRow>(asked.decisions).map(decisionOf)
    const courseChanges = rowsIn<CourseChangeRow>(asked.courseChanges).map(courseChangeOf)
    const changes = changesIn(connection, rowsIn<ChangeRow>(asked.changes), decisions, [patient.id])
    return { history: { patient, results, events, held, decisions, courseChanges, changes }, revision, joined: false }
  })
}
