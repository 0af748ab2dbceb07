import type { CourseChange } from '../../results/index.ts'
import type { Connection } from '../connection.ts'
import { COURSE_CHANGE_COLUMNS, type CourseChangeColumns, courseChangeOf } from '../rows/courseChange.ts'
import { listSql } from './lists.ts'

/** Everything physicians changed of a patient's course, first change first. */
export const COURSE_CHANGES = {
  columns: ['id', ...COURSE_CHANGE_COLUMNS],
  rows: (patientId: string) => `course_change WHERE patient_id = ${patientId} ORDER BY id`,
}

export type CourseChangeRow = CourseChangeColumns & { readonly id: number }

/** The changes of a patient's course, first change first. */
export function courseChangesOf({ statement }: Connection, patientId: string): CourseChange[] {
  return statement<CourseChangeRow>(listSql(COURSE_CHANGES)).all(patientId).map(courseChangeOf)
}

/** The record a change stands in; null where the number is nobody's. */
export function recordOfChange({ statement }: Connection, id: number): string | null {
  return statement<{ patientId: string }>('SELECT patient_id AS patientId FROM course_change WHERE id = ?').get(id)?.patientId ?? null
}
