import type { Connection } from '../connection.ts'
import { DECISION_COLUMNS, decisionColumns, type NewDecision } from '../rows/decision.ts'

const INSERT = `INSERT INTO decision (id, ${DECISION_COLUMNS.join(', ')})
  VALUES ((SELECT coalesce(max(id), 0) + 1 FROM decision), ${DECISION_COLUMNS.map(() => '?').join(', ')})`

/** Stores a decision and returns its number. */
export function insertDecision({ insert }: Connection, decision: NewDecision): number {
  const row = decisionColumns(decision)
  return insert(INSERT, ...DECISION_COLUMNS.map((column) => row[column]))
}
