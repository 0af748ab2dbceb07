import type { FindingChange } from '../../results/index.ts'
import type { Connection } from '../connection.ts'

/** A change of a finding to be stored: everything but the number the database gives it. */
export type NewFindingChange = Omit<FindingChange, 'id'> & { readonly patientId: string }

const INSERT = `INSERT INTO finding_change
  (id, patient_id, made_at, made_on, what, rule, finding_key, told_before, told_since, corrections, decisions)
  VALUES ((SELECT coalesce(max(id), 0) + 1 FROM finding_change), ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`

/** Stores what corrections did to a finding; result versions and decisions by their numbers. */
export function insertFindingChange({ statement }: Connection, change: NewFindingChange): void {
  const { patientId, at, on, what, rule, key, before, since } = change
  const pairs = change.corrections.map(({ replaced, by }) => [replaced.id, by.id])
  const about = change.decisions.map((decision) => decision.id)
  statement(INSERT).run(patientId, at, on, what, rule, key, before, since, JSON.stringify(pairs), JSON.stringify(about))
}
