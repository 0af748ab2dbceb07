import type { Decision } from '../../results/index.ts'
import type { Connection } from '../connection.ts'
import { type DecisionColumns, decisionOf } from '../rows/decision.ts'

/** Everything people decided about a patient, first decision first. */
export function decisionsOf({ statement }: Connection, patientId: string): Decision[] {
  const sql = 'SELECT * FROM decision WHERE patient_id = ? ORDER BY id'
  return statement<DecisionColumns & { readonly id: number }>(sql).all(patientId).map(decisionOf)
}
