import type { Connection } from '../connection.ts'
import { COURSE_CHANGE_COLUMNS, courseChangeColumns, type NewCourseChange } from '../rows/courseChange.ts'
import { insertSql } from './insert.ts'
import { nextId } from './nextId.ts'

const INSERT = insertSql('course_change', ['id', ...COURSE_CHANGE_COLUMNS])

/** Stores a change of a course and returns its number. */
export function insertCourseChange(connection: Connection, change: NewCourseChange): number {
  const [id, row] = [nextId(connection, 'course_change'), courseChangeColumns(change)]
  connection.statement(INSERT).run(id, ...COURSE_CHANGE_COLUMNS.map((column) => row[column]))
  return id
}
