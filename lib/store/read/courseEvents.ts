import type { ArrivedEvent, CourseEvent } from '../../results/index.ts'
import type { Connection } from '../connection.ts'
import { courseEventOf } from '../rows/courseEvent.ts'

/** One stored version of a course event. */
export interface StoredEvent {
  readonly id: number
  readonly identity: string
  readonly version: number
  readonly current: boolean
  readonly event: CourseEvent
  readonly fileId: number
  readonly line: number
  /** Counts for nothing, and nothing is decided by it. */
  readonly takenBack: boolean
}

interface Row {
  readonly id: number
  readonly identity: string
  readonly version: number
  readonly current: number
  readonly payload: string
  readonly file_id: number
  readonly line: number
  readonly taken_back: number
}

const SELECT = `SELECT id, identity, version, current, payload, file_id, line,
  EXISTS (SELECT 1 FROM version_taken_back WHERE course_event_id = course_event.id) AS taken_back FROM course_event WHERE patient_id = ?`

function storedEvent({ id, identity, version, current, payload, file_id: fileId, line, taken_back }: Row): StoredEvent {
  return { id, identity, version, current: current === 1, event: courseEventOf(payload), fileId, line, takenBack: taken_back === 1 }
}

/** Current course events of a patient, oldest first. */
export const CURRENT_EVENTS = {
  columns: ['payload'],
  rows: (patientId: string) => `course_event WHERE patient_id = ${patientId} AND current = 1 ORDER BY on_day, id`,
} as const

export type CurrentEventRow = Pick<Row, 'payload'>

/** Every stored version of every course event of a patient, by identity and then version. */
export function eventVersions({ statement }: Connection, patientId: string): StoredEvent[] {
  return statement<Row>(`${SELECT} ORDER BY identity, version`).all(patientId).map(storedEvent)
}

/** Those that were not taken back, with nothing but their number, for reading several records as one. */
export function arrivedEvents(connection: Connection, patientId: string): ArrivedEvent[] {
  return eventVersions(connection, patientId).flatMap(({ id, event, takenBack }) => (takenBack ? [] : [{ id, event }]))
}
