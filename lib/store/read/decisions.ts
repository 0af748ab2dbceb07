import type { Decision } from '../../results/index.ts'
import type { Connection } from '../connection.ts'
import { type DecisionColumns, decisionOf } from '../rows/decision.ts'

/** Everything people decided about a patient, first decision first. */
export function decisionsOf({ statement }: Connection, patientId: string): Decision[] {
  const sql = 'SELECT * FROM decision WHERE patient_id = ? ORDER BY id'
  return statement<DecisionColumns & { readonly id: number }>(sql).all(patientId).map(decisionOf)
}

/** The record a decision stands in; null where the number is nobody's. */
export function recordOfDecision({ statement }: Connection, id: number): string | null {
  return statement<{ patientId: string }>('SELECT patient_id AS patientId FROM decision WHERE id = ?').get(id)?.patientId ?? null
}
