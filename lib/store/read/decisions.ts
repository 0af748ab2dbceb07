import type { Decision } from '../../results/index.ts'
import type { Connection } from '../connection.ts'
import { DECISION_COLUMNS, type DecisionColumns, decisionOf } from '../rows/decision.ts'
import { listSql } from './lists.ts'

/** Everything people decided about a patient, first decision first. */
export const DECISIONS = {
  columns: ['id', ...DECISION_COLUMNS],
  rows: (patientId: string) => `decision WHERE patient_id = ${patientId} ORDER BY id`,
}

export type DecisionRow = DecisionColumns & { readonly id: number }

/** The decisions of a patient, first decision first. */
export function decisionsOf({ statement }: Connection, patientId: string): Decision[] {
  return statement<DecisionRow>(listSql(DECISIONS)).all(patientId).map(decisionOf)
}

/** The record a decision stands in; null where the number is nobody's. */
export function recordOfDecision({ statement }: Connection, id: number): string | null {
  return statement<{ patientId: string }>('SELECT patient_id AS patientId FROM decision WHERE id = ?').get(id)?.patientId ?? null
}
