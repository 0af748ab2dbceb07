import type { Connection } from '../connection.ts'

type Numbered =
  | 'account_identity'
  | 'assignment'
  | 'course_change'
  | 'emergency_view'
  | 'log_range'
  | 'log_review'
  | 'patient_merge'
  | 'patient_sheet'
  | 'review_round'
  | 'saved_view'
  | 'source_mapping'

/** The number after the highest of a table, from which nothing is ever removed. Asked inside the transaction that takes it. */
export function nextId({ statement }: Connection, table: Numbered): number {
  return statement<{ next: number }>(`SELECT coalesce(max(id), 0) + 1 AS next FROM ${table}`).get()?.next ?? 1
}
