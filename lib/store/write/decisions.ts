import type { Connection } from '../connection.ts'
import { type DecisionColumns, decisionColumns, type NewDecision } from '../rows/decision.ts'

const COLUMNS = [
  'patient_id',
  'kind',
  'made_at',
  'made_on',
  'made_by',
  'text',
  'rule',
  'finding_key',
  'bring_back_on',
  'shown_on',
  'shown_values',
  'attribution_id',
  'result_id',
  'did',
  'handover_id',
  'answer_id',
] as const satisfies readonly (keyof DecisionColumns)[]
const INSERT = `INSERT INTO decision (id, ${COLUMNS.join(', ')})
  VALUES ((SELECT coalesce(max(id), 0) + 1 FROM decision), ${COLUMNS.map(() => '?').join(', ')})`

/** Stores a decision and returns its number. */
export function insertDecision({ insert }: Connection, decision: NewDecision): number {
  const row = decisionColumns(decision)
  return insert(INSERT, ...COLUMNS.map((column) => row[column]))
}
