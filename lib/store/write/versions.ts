import type { CourseEvent } from '../../results/index.ts'
import type { Cell, Connection } from '../connection.ts'
import { courseEventText } from '../rows/courseEvent.ts'
import { type NewResult, resultCells } from '../rows/result.ts'
import { RESULT_COLUMNS } from '../rows/resultColumns.ts'
import { insertSql } from './insert.ts'
import type { RowOfFile } from './patients.ts'

type Versioned = 'result' | 'course_event'

function noneCurrent({ statement }: Connection, table: Versioned, identity: string): void {
  statement(`UPDATE ${table} SET current = 0 WHERE identity = ? AND current = 1`).run(identity)
}

/** Makes one stored version the one that counts. Throws where it is no version of this identity. */
export function setCurrent(connection: Connection, table: Versioned, identity: string, id: number): void {
  noneCurrent(connection, table, identity)
  const { changes } = connection.statement(`UPDATE ${table} SET current = 1 WHERE id = ? AND identity = ?`).run(id, identity)
  if (changes !== 1) throw new Error(`Row ${id} is no version of ${identity}.`)
}

/**
 * Stores versions of results in this order and returns their numbers. `counts` says whether a version is the one that counts from now on; then no other
 * version of the same identity does.
 */
export function insertResultVersions(
  connection: Connection,
  versions: readonly { readonly version: NewResult; readonly counts: boolean }[],
): number[] {
  const given: number[] = []
  let waiting: (readonly Cell[])[] = []
  const store = (): void => {
    given.push(...connection.insertAll('result', RESULT_COLUMNS, waiting))
    waiting = []
  }
  for (const { version, counts } of versions) {
    if (counts && version.result.version > 1) {
      store()
      noneCurrent(connection, 'result', version.identity)
    }
    waiting.push(resultCells(version, counts))
  }
  store()
  return given
}

/** The same of one version. */
export function insertResultVersion(connection: Connection, version: NewResult, counts: boolean): number {
  const [id = 0] = insertResultVersions(connection, [{ version, counts }])
  return id
}

/** A version of a course event to be stored. */
export interface NewEvent extends RowOfFile {
  readonly patientId: string
  readonly identity: string
  readonly version: number
  readonly event: CourseEvent
}

const EVENT = insertSql('course_event', ['patient_id', 'identity', 'version', 'current', 'on_day', 'event', 'payload', 'file_id', 'line'])

/** Stores a version of a course event and returns its number; `current` as for results. */
export function insertEventVersion(connection: Connection, version: NewEvent, current: boolean): number {
  const { patientId, identity, event, fileId, line } = version
  if (current && version.version > 1) noneCurrent(connection, 'course_event', identity)
  const cells = [patientId, identity, version.version, current ? 1 : 0, event.on, event.event, courseEventText(event), fileId, line]
  return connection.insert(EVENT, ...cells)
}
