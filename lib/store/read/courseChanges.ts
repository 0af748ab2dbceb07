import type { CourseChange } from '../../results/index.ts'
import type { Connection } from '../connection.ts'
import { type CourseChangeColumns, courseChangeOf } from '../rows/courseChange.ts'

/** Everything physicians changed of a patient's course, first change first. */
export function courseChangesOf({ statement }: Connection, patientId: string): CourseChange[] {
  const sql = 'SELECT * FROM course_change WHERE patient_id = ? ORDER BY id'
  return statement<CourseChangeColumns & { readonly id: number }>(sql).all(patientId).map(courseChangeOf)
}

/** The record a change stands in; null where the number is nobody's. */
export function recordOfChange({ statement }: Connection, id: number): string | null {
  return statement<{ patientId: string }>('SELECT patient_id AS patientId FROM course_change WHERE id = ?').get(id)?.patientId ?? null
}
