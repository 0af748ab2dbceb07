import type { Connection } from '../connection.ts'
import { type CourseChangeColumns, courseChangeColumns, type NewCourseChange } from '../rows/courseChange.ts'
import { insertSql } from './insert.ts'
import { nextId } from './nextId.ts'

const COLUMNS = [
  'patient_id',
  'kind',
  'made_at',
  'made_on',
  'made_by',
  'text',
  'told',
  'phase',
  'began_on',
  'was_phase',
  'was_on',
  'line',
  'regimen',
  'intent',
  'ended_on',
  'care',
  'clinician',
  'instead',
  'change_id',
] as const satisfies readonly (keyof CourseChangeColumns)[]
const INSERT = insertSql('course_change', ['id', ...COLUMNS])

/** Stores a change of a course and returns its number. */
export function insertCourseChange(connection: Connection, change: NewCourseChange): number {
  const [id, row] = [nextId(connection, 'course_change'), courseChangeColumns(change)]
  connection.statement(INSERT).run(id, ...COLUMNS.map((column) => row[column]))
  return id
}
